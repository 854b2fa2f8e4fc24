package org.steamwright.visit.whatif;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.qualification.Qualification;

/**
 * A visit as it was judged beside the same visit under other premises.
 *
 * @param changes what is different, in the order of application
 * @param before as it was judged
 * @param after as it would have been judged
 */
public record WhatIf(List<Change> changes, AssessedVisit before, AssessedVisit after) {

    /**
     * A run with another word of verdict or with other findings.
     *
     * @param number of the run
     * @param before the run as it was judged
     * @param after the run as it would have been judged
     * @param findings that differ
     */
    public record RunDifference(int number, AssessedRun before, AssessedRun after, List<FindingDifference> findings) {

        public RunDifference {
            findings = List.copyOf(findings);
        }

        /** Whether the run would have got another word. */
        public boolean isFlipped() {
            return !before.word().equals(after.word());
        }
    }

    /**
     * A finding with another outcome or another figure.
     *
     * @param id the criterion
     * @param before empty if the criterion was not asked
     * @param after empty if the criterion would not be asked
     */
    public record FindingDifference(CriterionId id, Optional<Finding> before, Optional<Finding> after) {

        /** Whether the outcome differs, and not only the figure. */
        public boolean isFlipped() {
            return !before.map(Finding::outcome).equals(after.map(Finding::outcome));
        }
    }

    /**
     * A qualification that would stand otherwise.
     *
     * @param before as it stood; empty if there was none
     * @param after as it would stand; empty if there would be none
     */
    public record QualificationDifference(Optional<Qualification> before, Optional<Qualification> after) {

        /** The one of both that is there. */
        public Qualification any() {
            return before.or(() -> after).orElseThrow();
        }
    }

    public WhatIf {
        changes = List.copyOf(changes);
    }

    /** Judges a visit as it is and under the changed premises. */
    public static WhatIf of(Visit visit, List<Change> changes) {
        return of(Visits.assess(visit), changes);
    }

    /** Judges under the changed premises; several changes are made at once. */
    public static WhatIf of(AssessedVisit before, List<Change> changes) {
        Visit changed = before.visit();
        for (Change change : changes) {
            changed = change.applied(changed);
        }
        return new WhatIf(changes, before, Visits.assess(changed));
    }

    /** Runs with anything that differs, in order. */
    public List<RunDifference> runs() {
        List<RunDifference> differences = new ArrayList<>();
        for (int i = 0; i < before.runs().size(); i++) {
            AssessedRun one = before.runs().get(i);
            AssessedRun other = after.runs().get(i);
            List<FindingDifference> findings = findings(one, other);
            RunDifference difference = new RunDifference(one.run().number(), one, other, findings);
            if (difference.isFlipped() || !findings.isEmpty()) {
                differences.add(difference);
            }
        }
        return List.copyOf(differences);
    }

    /** Qualifications that would stand otherwise. */
    public List<QualificationDifference> qualifications() {
        Map<String, Qualification> was = byKey(before);
        Map<String, Qualification> is = byKey(after);
        Set<String> keys = new LinkedHashSet<>(was.keySet());
        keys.addAll(is.keySet());
        List<QualificationDifference> differences = new ArrayList<>();
        for (String key : keys) {
            Optional<Qualification> one = Optional.ofNullable(was.get(key));
            Optional<Qualification> other = Optional.ofNullable(is.get(key));
            if (!one.map(Qualification::standing).equals(other.map(Qualification::standing))) {
                differences.add(new QualificationDifference(one, other));
            }
        }
        return List.copyOf(differences);
    }

    /** Whether a run or a qualification would have got another word. */
    public boolean isFlipped() {
        return runs().stream().anyMatch(RunDifference::isFlipped)
                || !qualifications().isEmpty();
    }

    private static Map<String, Qualification> byKey(AssessedVisit visit) {
        Map<String, Qualification> found = new LinkedHashMap<>();
        visit.qualifications().forEach(one -> found.put(one.sterilizer() + "|" + one.kind() + "|" + one.cycle(), one));
        return found;
    }

    private static List<FindingDifference> findings(AssessedRun one, AssessedRun other) {
        Map<CriterionId, Finding> was = byId(one);
        Map<CriterionId, Finding> is = byId(other);
        Set<CriterionId> ids = new LinkedHashSet<>(was.keySet());
        ids.addAll(is.keySet());
        List<FindingDifference> differences = new ArrayList<>();
        for (CriterionId id : ids) {
            FindingDifference difference =
                    new FindingDifference(id, Optional.ofNullable(was.get(id)), Optional.ofNullable(is.get(id)));
            boolean isOther = difference.isFlipped()
                    || !difference
                            .before()
                            .map(Finding::printedMeasured)
                            .equals(difference.after().map(Finding::printedMeasured))
                    || !difference
                            .before()
                            .flatMap(Finding::limit)
                            .map(Limit::toString)
                            .equals(difference.after().flatMap(Finding::limit).map(Limit::toString));
            if (isOther && !isSilent(difference)) {
                differences.add(difference);
            }
        }
        return differences;
    }

    /** Asked by one side only and even there without an answer. */
    private static boolean isSilent(FindingDifference difference) {
        return difference
                        .before()
                        .map(Finding::outcome)
                        .filter(o -> o != Outcome.NOT_ASSESSED)
                        .isEmpty()
                && difference
                        .after()
                        .map(Finding::outcome)
                        .filter(o -> o != Outcome.NOT_ASSESSED)
                        .isEmpty();
    }

    private static Map<CriterionId, Finding> byId(AssessedRun run) {
        Map<CriterionId, Finding> found = new LinkedHashMap<>();
        run.evaluation().findings().forEach(finding -> found.put(finding.id(), finding));
        run.loadFindings().forEach(finding -> found.put(finding.id(), finding));
        return found;
    }
}
