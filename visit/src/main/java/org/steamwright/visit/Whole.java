package org.steamwright.visit;

import java.util.ArrayList;
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

    private static final Set<String> FAILED = Set.of("fail", "failed", "bad");
    private static final Set<String> UNDONE = Set.of("not done", "not possible", "open");

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
        Standing worst = parts.isEmpty() ? Standing.NOT_ASSESSED : Standing.PASS;
        for (Standing part : parts) {
            worst = badness(part) > badness(worst) ? part : worst;
        }
        boolean isAnyAssessed = parts.stream().anyMatch(part -> part != Standing.NOT_ASSESSED);
        return worst == Standing.NOT_ASSESSED && isAnyAssessed ? Standing.INCOMPLETE : worst;
    }

    private boolean isAskedFor(Qualification one) {
        return visit.clinic().isPresent() && visit.job().scope().asksFor(one);
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
        visit.job().tasks().stream()
                .filter(tasks -> tasks.sterilizer().equals(sterilizer))
                .forEach(tasks -> tasks(tasks, parts));
        visit.checklists().stream()
                .filter(list -> list.sterilizer().equals(sterilizer))
                .filter(list ->
                        list.section() == Checklist.Section.SAFETY || list.section() == Checklist.Section.INSTALLATION)
                .flatMap(list -> list.items().stream())
                .forEach(item -> item(item, parts));
        Obstacles.penetration(visit).stream()
                .filter(test -> test.sterilizer().equals(sterilizer))
                .filter(test -> test.standing() == PenetrationStanding.Standing.VOID
                        || test.standing() == PenetrationStanding.Standing.AS_FOUND_ONLY)
                .forEach(test -> parts.add(Standing.INCOMPLETE));
        return parts;
    }

    /** What a safety task or one of the installation says; maintenance that is not good is undone work. */
    private static void tasks(TaskRecord tasks, List<Standing> parts) {
        boolean isMaintenance = tasks.list().part() == TaskList.Part.MAINTENANCE;
        for (TaskRecord.Line line : tasks.lines()) {
            switch (line.standing()) {
                case BAD -> parts.add(isMaintenance ? Standing.INCOMPLETE : Standing.FAIL);
                case NOT_READ, NOT_POSSIBLE, UNANSWERED, NOT_SAID -> {
                    if (!isMaintenance) {
                        parts.add(Standing.INCOMPLETE);
                    }
                }
                case GOOD, LEFT_OUT -> {}
            }
        }
    }

    private static void item(CheckItem item, List<Standing> parts) {
        String result = Words.key(item.result());
        if (FAILED.contains(result)) {
            parts.add(Standing.FAIL);
        } else if (UNDONE.contains(result)) {
            parts.add(Standing.INCOMPLETE);
        }
    }
}
