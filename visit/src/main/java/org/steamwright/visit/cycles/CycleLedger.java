package org.steamwright.visit.cycles;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeSet;
import org.steamwright.visit.job.OtherCycles;

/**
 * Every cycle number of one steriliser from the first to the last of the visit, and what it was.
 *
 * <p>A number is a test run, a named other cycle, a number that a note explains, or unexplained. A run whose number nobody
 * read takes one of the numbers between its neighbours, nobody can say which. A number that two things claim is said.
 */
public final class CycleLedger {

    /** What a stretch of numbers was. */
    public enum Kind {
        RUN("run"),
        OTHER("other cycle"),
        NOTED("explained in a note"),
        UNREAD("run whose number was not read"),
        UNEXPLAINED("not explained"),
        TWICE("claimed twice");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    /**
     * Neighbouring numbers that were the same thing.
     *
     * @param first number, itself meant
     * @param last number, itself meant
     * @param kind what they were
     * @param what in words
     */
    public record Line(int first, int last, Kind kind, String what) {}

    /**
     * A test run as the ledger sees it, in the order of the visit.
     *
     * @param run its number in the visit
     * @param machineCycle number that the steriliser gave; empty if not read
     * @param what in words
     */
    public record NumberedRun(int run, OptionalInt machineCycle, String what) {}

    /** Tells whether notes explain the numbers from the first to the last. */
    @FunctionalInterface
    public interface Notes {
        boolean explain(int first, int last);
    }

    private final OptionalInt arrival;
    private final OptionalInt departure;
    private final List<NumberedRun> runs;
    private final List<OtherCycles> others;
    private final Notes notes;

    /**
     * @param arrival counter at arrival, the number of the last cycle before the visit; empty if not read
     * @param departure counter at departure, the number of the last cycle of the visit; empty if not read
     * @param runs of that steriliser in the order of the visit
     * @param others cycles of that steriliser that are no test run
     * @param notes what else explains numbers
     */
    public CycleLedger(
            OptionalInt arrival, OptionalInt departure, List<NumberedRun> runs, List<OtherCycles> others, Notes notes) {
        this.arrival = arrival;
        this.departure = departure;
        this.runs = List.copyOf(runs);
        this.others = List.copyOf(others);
        this.notes = notes;
    }

    /** The whole book in the order of the numbers; empty if no number is known at all. */
    public List<Line> lines() {
        TreeSet<Integer> known = new TreeSet<>();
        runs.forEach(run -> run.machineCycle().ifPresent(known::add));
        for (OtherCycles other : others) {
            known.add(other.first());
            known.add(other.last());
        }
        arrival.ifPresent(number -> known.add(number + 1));
        departure.ifPresent(known::add);
        if (known.isEmpty()) {
            return List.of();
        }
        return lines(known.first(), known.last());
    }

    /** The book from one number to another, both meant. */
    public List<Line> lines(int from, int to) {
        // what something is changes only where a claim begins or just after it ends
        TreeSet<Integer> starts = new TreeSet<>();
        starts.add(from);
        for (NumberedRun run : runs) {
            run.machineCycle().ifPresent(number -> {
                starts.add(number);
                starts.add(number + 1);
            });
        }
        for (OtherCycles other : others) {
            starts.add(other.first());
            starts.add(other.last() + 1);
        }
        List<Line> lines = new ArrayList<>();
        Integer start = from;
        while (start != null && start <= to) {
            Integer next = starts.higher(start);
            int end = next == null ? to : Math.min(next - 1, to);
            lines.add(line(start, end));
            start = next;
        }
        return List.copyOf(lines);
    }

    /** Numbers that nobody explains. */
    public List<Line> unexplained() {
        return lines().stream().filter(line -> line.kind() == Kind.UNEXPLAINED).toList();
    }

    /** Whether something stands between two runs, both with their numbers, that keeps them from following each other. */
    public boolean isBrokenBetween(NumberedRun before, NumberedRun after) {
        return breakBetween(before, after).isPresent();
    }

    /**
     * The first thing between two runs that nobody explains, that only a note tells of, which may say that it failed, or a cycle
     * that failed; empty if there is none.
     */
    public Optional<Line> breakBetween(NumberedRun before, NumberedRun after) {
        if (before.machineCycle().isEmpty() || after.machineCycle().isEmpty()) {
            return Optional.empty();
        }
        int first = before.machineCycle().getAsInt() + 1;
        int last = after.machineCycle().getAsInt() - 1;
        if (first > last) {
            return Optional.empty();
        }
        return lines(first, last).stream()
                .filter(line -> line.kind() == Kind.UNEXPLAINED || line.kind() == Kind.NOTED || isFailed(line))
                .findFirst();
    }

    private boolean isFailed(Line line) {
        return line.kind() == Kind.OTHER
                && others.stream()
                        .anyMatch(other -> other.kind() == OtherCycles.Kind.FAILED && other.covers(line.first()));
    }

    private Line line(int first, int last) {
        List<NumberedRun> theseRuns = runs.stream()
                .filter(run ->
                        run.machineCycle().isPresent() && run.machineCycle().getAsInt() == first)
                .toList();
        List<OtherCycles> theseOthers =
                others.stream().filter(other -> other.covers(first)).toList();
        if (theseRuns.size() + theseOthers.size() > 1) {
            List<String> claims = new ArrayList<>();
            theseRuns.forEach(run -> claims.add("run " + run.run()));
            theseOthers.forEach(other -> claims.add(other.words()));
            return new Line(first, last, Kind.TWICE, String.join("; ", claims));
        }
        if (!theseRuns.isEmpty()) {
            NumberedRun run = theseRuns.get(0);
            return new Line(first, last, Kind.RUN, "run " + run.run() + ", " + run.what());
        }
        if (!theseOthers.isEmpty()) {
            OtherCycles other = theseOthers.get(0);
            return new Line(
                    first,
                    last,
                    Kind.OTHER,
                    other.kind().words()
                            + (other.note().isBlank() ? "" : ": " + other.note().strip()));
        }
        List<Integer> unread = unreadBetween(first, last);
        if (unread.size() > last - first) {
            return new Line(
                    first, last, Kind.UNREAD, (unread.size() == 1 ? "run " : "one of the runs ") + joined(unread));
        }
        return notes.explain(first, last)
                ? new Line(
                        first,
                        last,
                        Kind.NOTED,
                        "explained only in a note or a deviation: choose among the other cycles what it was")
                : new Line(first, last, Kind.UNEXPLAINED, "not explained");
    }

    /** Runs without a number that stand between the runs whose numbers enclose this stretch. */
    private List<Integer> unreadBetween(int first, int last) {
        List<Integer> unread = new ArrayList<>();
        for (NumberedRun run : runs) {
            if (run.machineCycle().isPresent()) {
                int number = run.machineCycle().getAsInt();
                if (number < first) {
                    unread.clear();
                } else if (number > last) {
                    break;
                }
            } else {
                unread.add(run.run());
            }
        }
        return unread;
    }

    private static String joined(List<Integer> numbers) {
        return String.join(", ", numbers.stream().map(String::valueOf).toList());
    }
}
