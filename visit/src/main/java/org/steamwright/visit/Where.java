package org.steamwright.visit;

import java.util.Arrays;
import java.util.List;
import org.steamwright.visit.job.TaskList;

/**
 * Where in a visit something is stated, and so where it is mended.
 *
 * @param part of the work
 * @param way to the fact: keys, and places in lists counted from 1; none for the part as a whole
 */
public record Where(Part part, List<String> way) {

    /** Parts of the work at a visit. */
    public enum Part {
        /** Who, where, when, which steriliser. */
        IDENTITY,
        AS_FOUND,
        MAINTENANCE,
        INSTALLATION,
        INSTRUMENTS,
        /** Test runs, steam penetration tests and other cycles. */
        RUNS,
        LOAD,
        INDICATORS,
        /** What the steriliser itself showed. */
        INDICATION,
        SAFETY,
        /** Failures, and conditions under which something may be run. */
        FAILURES,
        CLOSING
    }

    public Where {
        way = List.copyOf(way);
    }

    /** @param way keys as texts and places as whole numbers */
    public static Where of(Part part, Object... way) {
        return new Where(part, Arrays.stream(way).map(String::valueOf).toList());
    }

    /** A run as a whole. */
    static Where run(int number) {
        return of(Part.RUNS, "runs", number);
    }

    /** A line of a checklist of the visit. */
    static Where check(Visit visit, Checklist list, int item) {
        return of(part(list.section()), "checklists", visit.checklists().indexOf(list) + 1, "items", item, "result");
    }

    /** To which part of the work a checklist belongs. */
    public static Part part(Checklist.Section section) {
        return switch (section) {
            case AS_FOUND -> Part.AS_FOUND;
            case MAINTENANCE -> Part.MAINTENANCE;
            case INSTALLATION -> Part.INSTALLATION;
            case SAFETY -> Part.SAFETY;
            case VERIFICATION -> Part.INDICATION;
            case STEAM_PENETRATION -> Part.RUNS;
        };
    }

    /** To which part of the work a list of tasks belongs. */
    public static Part part(TaskList.Part part) {
        return switch (part) {
            case MAINTENANCE -> Part.MAINTENANCE;
            case SAFETY -> Part.SAFETY;
            case INSTALLATION -> Part.INSTALLATION;
        };
    }
}
