package org.steamwright.visit;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.visit.plan.BesideLoads;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Sterilizer;

/**
 * A cycle of a steriliser with everything that keeps it from being run: the one rule for the answer of a visit, the state that
 * it leaves, and whoever asks that state.
 *
 * <p>A cycle is fit where its performance qualification, its operational one and the air leakage of its steriliser pass, nothing
 * stands in the way beside the runs, and no check that decides about use is open. What was not assessed was not shown, whatever
 * the visit was ordered for; only what the criteria set does not ask for may be missing.
 *
 * @param performance its performance qualification
 * @param found what was found against it, in words
 * @param missing what was not shown, in words
 * @param isAwaited whether only answers keep it from being run that are still awaited
 */
public record FitCycle(Qualification performance, List<String> found, List<String> missing, boolean isAwaited) {

    public FitCycle {
        found = List.copyOf(found);
        missing = List.copyOf(missing);
    }

    /** Whether it may be run. */
    public boolean isFit() {
        return found.isEmpty() && missing.isEmpty();
    }

    /** Everything that keeps it from being run. */
    public List<String> against() {
        List<String> all = new ArrayList<>(found);
        all.addAll(missing);
        return List.copyOf(all);
    }

    /** The cycles of one steriliser of an assessed visit. */
    public static List<FitCycle> of(AssessedVisit assessed, String sterilizer) {
        return of(assessed.visit(), assessed.qualifications(), Obstacles.find(assessed.visit(), assessed.runs()))
                .stream()
                .filter(one -> one.performance().sterilizer().equals(sterilizer))
                .toList();
    }

    static List<FitCycle> of(Visit visit, List<Qualification> qualifications, List<Obstacle> obstacles) {
        Whole whole = new Whole(visit, qualifications, obstacles);
        List<FitCycle> cycles = new ArrayList<>();
        for (Qualification one : qualifications) {
            if (one.kind() == Kind.PERFORMANCE) {
                cycles.add(of(visit, one, qualifications, obstacles, whole));
            }
        }
        return List.copyOf(cycles);
    }

    private static FitCycle of(
            Visit visit,
            Qualification performance,
            List<Qualification> qualifications,
            List<Obstacle> obstacles,
            Whole whole) {
        List<String> found = new ArrayList<>();
        List<String> missing = new ArrayList<>();
        boolean isAwaited = performance.standing() == Standing.AWAITED;
        if (performance.standing() == Standing.NOT_ASSESSED) {
            missing.add(reason(performance));
        } else if (performance.standing() != Standing.PASS) {
            found.add(reason(performance));
        }
        for (Qualification other : qualifications) {
            if (!concerns(other, performance) || other.standing() == Standing.PASS) {
                continue;
            }
            if (other.standing() != Standing.NOT_ASSESSED) {
                found.add(reason(other));
                isAwaited &= other.standing() == Standing.AWAITED;
            } else if (performance.standing() != Standing.NOT_ASSESSED && isAskedFor(visit, other)) {
                missing.add(reason(other));
                isAwaited = false;
            }
        }
        for (Obstacle obstacle : obstacles) {
            if (obstacle.concerns(performance.sterilizer(), performance.cycle())) {
                found.add(obstacle.sentence());
                isAwaited = false;
            }
        }
        for (Whole.Hole hole : whole.holes(performance.sterilizer())) {
            if (performance.standing() != Standing.NOT_ASSESSED && isOf(hole.cycle(), performance.cycle())) {
                missing.add(hole.sentence());
                isAwaited = false;
            }
        }
        return new FitCycle(performance, found, missing, isAwaited);
    }

    /**
     * What a visit found against a cycle that it need not have tested: of its steriliser as a whole, and of the cycle if the visit
     * knows it. What was not assessed is not among it, but for a check that was made and told in words that nobody understands.
     */
    public static List<String> found(AssessedVisit assessed, String sterilizer, String cycle) {
        List<String> found = new ArrayList<>(of(assessed, sterilizer).stream()
                .filter(one -> isOf(one.performance().cycle(), cycle))
                .findFirst()
                .map(FitCycle::found)
                .orElseGet(() -> foundAgainstAll(assessed, assessed.visit().getSterilizer(sterilizer))));
        found.addAll(Whole.unknown(assessed.visit(), sterilizer));
        return List.copyOf(found);
    }

    private static List<String> foundAgainstAll(AssessedVisit assessed, Sterilizer sterilizer) {
        List<String> found = new ArrayList<>();
        for (Qualification one : assessed.qualifications()) {
            boolean isLeak = one.kind() == Kind.LEAK && one.sterilizer().equals(sterilizer.key());
            if (isLeak && one.standing() != Standing.PASS && one.standing() != Standing.NOT_ASSESSED) {
                found.add(reason(one));
            }
        }
        Obstacles.find(assessed.visit(), assessed.runs()).stream()
                .filter(one ->
                        one.sterilizer().equals(sterilizer.key()) && one.cycle().isBlank())
                .forEach(one -> found.add(one.sentence()));
        return List.copyOf(found);
    }

    /**
     * Whether the criteria set of a visit asks for a qualification at all. A set that lets no leak rate decide asks for no air
     * leakage test; empty and loaded runs every set asks for.
     */
    static boolean isAskedFor(Visit visit, Qualification one) {
        return one.kind() != Kind.LEAK || BesideLoads.isLeakTestAskedFor(visit.criteriaSet());
    }

    private static boolean concerns(Qualification other, Qualification performance) {
        return other.sterilizer().equals(performance.sterilizer())
                && (other.kind() == Kind.LEAK
                        || (other.kind() == Kind.OPERATIONAL && other.cycle().equals(performance.cycle())));
    }

    private static boolean isOf(String one, String cycle) {
        return one.isBlank() || Words.key(one).equals(Words.key(cycle));
    }

    private static String reason(Qualification qualification) {
        return "%s: %s. %s"
                .formatted(
                        qualification.kind().title(), qualification.standing().words(), qualification.sentence());
    }
}
