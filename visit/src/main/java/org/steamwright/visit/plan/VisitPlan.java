package org.steamwright.visit.plan;

import java.util.List;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.register.SterilizerRecord;

/**
 * What a visit to one machine will take.
 *
 * @param machine it is for
 * @param reasons rows that the plan follows from
 * @param additions what the program adds to what the reasons ask for
 * @param criteria identity of the criteria set that says how many loaded runs
 * @param runsSource where that number comes from
 * @param steps in the order of their beginning
 * @param minutes from arrival to the end, about
 * @param needs what to take along
 * @param notes what else has to be known or asked, in words
 */
public record VisitPlan(
        SterilizerRecord machine,
        List<AfterChange.Row> reasons,
        List<Addition> additions,
        String criteria,
        List<Source> runsSource,
        List<Step> steps,
        int minutes,
        List<Need> needs,
        List<String> notes) {

    /**
     * One piece of the visit.
     *
     * @param kind of piece
     * @param cycle name of the cycle; blank where none is run
     * @param run number among the runs of that kind and cycle, from 1; 0 where it is no run
     * @param of how many
     * @param begins minutes after arrival
     * @param minutes it takes, about
     * @param isMeanwhile whether it is done while a cycle runs
     */
    public record Step(StepKind kind, String cycle, int run, int of, int begins, int minutes, boolean isMeanwhile) {
        public int ends() {
            return begins + minutes;
        }
    }

    /**
     * Something to take along.
     *
     * @param kind of thing
     * @param count how many; 0 if the number is not known here
     * @param words what it is and what for
     */
    public record Need(Kind kind, int count, String words) {
        /** Kinds of things. */
        public enum Kind {
            TEMPERATURE("temperature"),
            PRESSURE("pressure"),
            ELECTRICAL("electrical"),
            PENETRATION_DEVICE("penetration-device"),
            BIOLOGICAL("biological"),
            CHEMICAL("chemical"),
            PART("part"),
            PERSON("person"),
            CLINIC("clinic");

            private final String word;

            Kind(String word) {
                this.word = word;
            }

            public String word() {
                return word;
            }
        }
    }

    /**
     * A test that no reason asks for.
     *
     * @param kind of step
     * @param cycle with which it is made; blank where none is
     * @param source of the rule that adds it
     */
    public record Addition(StepKind kind, String cycle, Source source) {}

    public VisitPlan {
        reasons = List.copyOf(reasons);
        additions = List.copyOf(additions);
        runsSource = List.copyOf(runsSource);
        steps = List.copyOf(steps);
        needs = List.copyOf(needs);
        notes = List.copyOf(notes);
    }

    /** Whether the plan has a step of that kind. */
    public boolean has(StepKind kind) {
        return steps.stream().anyMatch(step -> step.kind() == kind);
    }

    /** Names of the cycles that are run, in the order of the machine. */
    public List<String> cycles() {
        return steps.stream()
                .map(Step::cycle)
                .filter(cycle -> !cycle.isBlank())
                .distinct()
                .toList();
    }
}
