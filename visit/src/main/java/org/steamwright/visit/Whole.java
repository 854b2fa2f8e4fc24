package org.steamwright.visit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.steamwright.visit.indication.PenetrationStanding;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Standing;

/**
 * The one word for a visit as a whole, and for one of its sterilisers: what result, report, certificate, desk and lists say.
 *
 * <p>It is never better than the worst of: every qualification that was asked for, or made without being asked for; what
 * stands in the way beside the runs ({@link Obstacle}); safety checks and checks of the installation; steam penetration tests.
 * What was asked for and not assessed beside other things that were leaves the whole incomplete; where nothing at all was
 * assessed, the whole is not assessed. A single recording is asked for nothing but itself.
 */
public final class Whole {

    /** Lists whose lines say whether the steriliser may be run; what was found and what was maintained do not. */
    private static final Set<Checklist.Section> DECIDING = EnumSet.of(
            Checklist.Section.SAFETY,
            Checklist.Section.INSTALLATION,
            Checklist.Section.VERIFICATION,
            Checklist.Section.STEAM_PENETRATION);

    private final Visit visit;
    private final List<Qualification> qualifications;
    private final List<Obstacle> obstacles;

    Whole(Visit visit, List<Qualification> qualifications, List<Obstacle> obstacles) {
        this.visit = visit;
        this.qualifications = List.copyOf(qualifications);
        this.obstacles = List.copyOf(obstacles);
    }

    /** How one steriliser of an assessed visit stands. */
    public static Standing of(AssessedVisit assessed, String sterilizer) {
        Visit visit = assessed.visit();
        return new Whole(visit, assessed.qualifications(), Obstacles.find(visit, assessed.runs())).of(sterilizer);
    }

    /** How far from a pass, from 0. */
    public static int badness(Standing standing) {
        return switch (standing) {
            case PASS -> 0;
            case AWAITED -> 1;
            case NOT_ASSESSED -> 2;
            case INCOMPLETE -> 3;
            case FAIL -> 4;
        };
    }

    /** How the visit stands. */
    Standing standing() {
        List<Standing> parts = new ArrayList<>();
        visit.sterilizers().forEach(sterilizer -> parts.addAll(parts(sterilizer.key())));
        return worst(parts);
    }

    /** How one steriliser of it stands. */
    Standing of(String sterilizer) {
        return worst(parts(sterilizer));
    }

    /** What was asked for and not assessed. */
    List<Qualification> missing() {
        return qualifications.stream()
                .filter(one -> one.standing() == Standing.NOT_ASSESSED && isAskedFor(one))
                .toList();
    }

    /** The worst of them, in which an unassessed part beside assessed ones is a hole. */
    static Standing worst(List<Standing> parts) {
        Standing worst =
                parts.stream().max(Comparator.comparingInt(Whole::badness)).orElse(Standing.NOT_ASSESSED);
        boolean isAnyAssessed = parts.stream().anyMatch(part -> part != Standing.NOT_ASSESSED);
        return worst == Standing.NOT_ASSESSED && isAnyAssessed ? Standing.INCOMPLETE : worst;
    }

    private boolean isAskedFor(Qualification one) {
        return visit.clinic().isPresent() && visit.job().scope().asksFor(one) && FitCycle.isAskedFor(visit, one);
    }

    /** A thing beside the qualifications and the obstacles that was not shown, with the cycle that it concerns, or all. */
    record Hole(String cycle, String sentence) {}

    /**
     * What was begun or listed for a steriliser and not shown, and keeps its cycles from being run. Maintenance is not among it:
     * it leaves the whole incomplete and says nothing of what a cycle does.
     */
    List<Hole> holes(String sterilizer) {
        List<Hole> holes = new ArrayList<>();
        for (TaskRecord tasks : visit.job().tasks()) {
            if (tasks.sterilizer().equals(sterilizer) && tasks.list().part() != TaskList.Part.MAINTENANCE) {
                tasks.lines().stream()
                        .filter(line -> isOpen(line.standing()))
                        .map(line ->
                                hole(tasks.list().part().title(), line.task().title()))
                        .forEach(holes::add);
            }
        }
        for (Checklist list : deciding(visit, sterilizer)) {
            list.items().stream()
                    .filter(item -> CheckResult.of(list.section(), item).isHole())
                    .map(item -> hole(list.section().title(), item.title()))
                    .forEach(holes::add);
        }
        for (PenetrationStanding test : Obstacles.penetration(visit)) {
            if (test.sterilizer().equals(sterilizer) && isHole(test)) {
                holes.add(new Hole(
                        Obstacles.concerned(visit, test),
                        "Steam penetration test (%s): %s. %s"
                                .formatted(test.kind().words(), test.standing().words(), test.sentence())));
            }
        }
        return List.copyOf(holes);
    }

    private static Hole hole(String part, String title) {
        return new Hole("", "%s: not shown: %s.".formatted(part, title));
    }

    /** Checks that were made and told in words that nobody understands, each as the hole that it is. */
    static List<String> unknown(Visit visit, String sterilizer) {
        List<String> unknown = new ArrayList<>();
        for (Checklist list : deciding(visit, sterilizer)) {
            list.items().stream()
                    .filter(item -> CheckResult.of(list.section(), item) == CheckResult.UNKNOWN)
                    .map(item -> hole(list.section().title(), item.title()).sentence())
                    .forEach(unknown::add);
        }
        return unknown;
    }

    private static List<Checklist> deciding(Visit visit, String sterilizer) {
        return visit.checklists().stream()
                .filter(list -> list.sterilizer().equals(sterilizer) && isDeciding(list))
                .toList();
    }

    /** Whether a list decides about use. */
    static boolean isDeciding(Checklist list) {
        return DECIDING.contains(list.section());
    }

    private static boolean isHole(PenetrationStanding test) {
        return test.standing() == PenetrationStanding.Standing.VOID
                || test.standing() == PenetrationStanding.Standing.AS_FOUND_ONLY;
    }

    private static boolean isOpen(TaskRecord.Standing standing) {
        return switch (standing) {
            case NOT_READ, NOT_POSSIBLE, UNANSWERED, NOT_SAID, UNEXPLAINED -> true;
            case BAD, GOOD, LEFT_OUT -> false;
        };
    }

    private List<Standing> parts(String sterilizer) {
        List<Standing> parts = new ArrayList<>();
        for (Qualification one : qualifications) {
            if (one.sterilizer().equals(sterilizer) && (one.standing() != Standing.NOT_ASSESSED || isAskedFor(one))) {
                parts.add(one.standing());
            }
        }
        obstacles.stream()
                .filter(obstacle -> obstacle.sterilizer().equals(sterilizer))
                .forEach(obstacle -> parts.add(Standing.FAIL));
        holes(sterilizer).forEach(hole -> parts.add(Standing.INCOMPLETE));
        boolean isUndone = visit.job().tasks().stream()
                .anyMatch(tasks -> tasks.sterilizer().equals(sterilizer)
                        && tasks.list().part() == TaskList.Part.MAINTENANCE
                        && tasks.isBad());
        if (isUndone) {
            parts.add(Standing.INCOMPLETE);
        }
        return parts;
    }
}
