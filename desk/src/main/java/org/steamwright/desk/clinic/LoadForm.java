package org.steamwright.desk.clinic;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.UnaryOperator;
import org.steamwright.desk.web.Frame;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.validity.TodaysLoad;

/**
 * A load as it was typed, to be read and to be shown again. A row in which anything was typed has to be complete and readable:
 * nothing that was typed is left out of the answer.
 *
 * @param machine its id, or its serial number in an address that somebody kept
 * @param cycle that is to be run
 * @param counter cycle number that it will be
 * @param mass of the whole load
 * @param trays how many it takes
 * @param tests passed, failed, or blank if nobody said
 * @param rows of things, some of them blank
 * @param isMoreWanted whether more rows are wanted, and no answer yet
 */
public record LoadForm(
        String machine,
        String cycle,
        String counter,
        String mass,
        String trays,
        String tests,
        List<Row> rows,
        boolean isMoreWanted) {

    private static final int USUAL_ROWS = 6;
    private static final int MORE_ROWS = 6;
    private static final int MOST_ROWS = 120;
    private static final int MOST_THINGS = 10_000;

    /**
     * Things of one kind as typed.
     *
     * @param name what they are
     * @param count how many
     * @param family solid, hollow A, hollow B or porous; blank if nobody chose
     * @param packaging of each
     * @param tested how many of it the tested load had that the row was taken from; blank for a row of its own
     */
    public record Row(String name, String count, String family, String packaging, String tested) {

        private static final Row EMPTY = new Row("", "", "", "", "");

        /** Whether nothing was typed, or today there is none of what was tested. */
        boolean isBlank() {
            return tested.isBlank()
                    ? name.isBlank() && count.isBlank() && family.isBlank() && packaging.isBlank()
                    : count.isBlank() || count.equals("0");
        }
    }

    public LoadForm {
        rows = List.copyOf(rows);
    }

    /**
     * What was typed.
     *
     * @param typed what stands under a name, without blanks around it; empty text if nothing does
     */
    static LoadForm of(UnaryOperator<String> typed, Frame frame) {
        boolean isMoreWanted = !typed.apply("more").isBlank();
        int shown = Math.min(MOST_ROWS, whole(typed.apply("rows"), frame).orElse(USUAL_ROWS));
        List<Row> rows = new ArrayList<>();
        for (int i = 1; i <= MOST_ROWS; i++) {
            Row row = new Row(
                    typed.apply("name-" + i),
                    typed.apply("count-" + i),
                    typed.apply("family-" + i),
                    typed.apply("packaging-" + i),
                    typed.apply("tested-" + i));
            if (!row.isBlank() || !row.tested.isBlank() || i <= Math.max(USUAL_ROWS, shown)) {
                while (rows.size() < i - 1) {
                    rows.add(Row.EMPTY);
                }
                rows.add(row);
            }
        }
        for (int i = 0; isMoreWanted && i < MORE_ROWS && rows.size() < MOST_ROWS; i++) {
            rows.add(Row.EMPTY);
        }
        return new LoadForm(
                typed.apply("machine").isBlank() ? typed.apply("serial") : typed.apply("machine"),
                typed.apply("cycle"),
                typed.apply("counter"),
                typed.apply("mass"),
                typed.apply("trays"),
                typed.apply("tests"),
                rows,
                isMoreWanted);
    }

    /** Whether a cycle is named and nothing is said of the load yet. */
    boolean isBegun() {
        return !machine.isBlank()
                && !cycle.isBlank()
                && !isMoreWanted
                && rows.stream().allMatch(Row::isBlank);
    }

    /**
     * The form with a row for each item of a tested load, and one of its own.
     *
     * @param isAll whether all of it is in today's load too
     */
    LoadForm withTested(ReferenceLoad tested, boolean isAll) {
        List<Row> all = new ArrayList<>();
        for (ReferenceLoad.Item item : tested.items()) {
            String count = Integer.toString(item.count());
            all.add(new Row(
                    item.name(),
                    isAll ? count : "",
                    item.family(),
                    item.packaging().isBlank() ? tested.packaging() : item.packaging(),
                    count));
        }
        all.add(Row.EMPTY);
        return new LoadForm(machine, cycle, counter, mass, trays, tests, all, isMoreWanted);
    }

    /** The load; empty if something can't be read, which is told. */
    Optional<TodaysLoad> load(String serial, LocalDate day, Frame frame, List<String> problems) {
        OptionalInt number = whole(counter, frame);
        if (!counter.isBlank() && number.isEmpty()) {
            problems.add(frame.say("clinic.no-counter", counter));
        }
        Optional<Double> kilogram = kilogram(frame);
        if (!mass.isBlank() && kilogram.isEmpty()) {
            problems.add(frame.say("clinic.no-mass", mass));
        }
        OptionalInt counted = whole(trays, frame);
        if (!trays.isBlank() && counted.isEmpty()) {
            problems.add(frame.say("clinic.no-trays", trays));
        }
        List<TodaysLoad.Thing> things = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            if (row.isBlank()) {
                continue;
            }
            OptionalInt count = whole(row.count, frame);
            boolean isCounted = count.isPresent() && count.getAsInt() >= 1 && count.getAsInt() <= MOST_THINGS;
            if (row.name.isBlank()) {
                problems.add(frame.say("clinic.row-no-name", i + 1));
            }
            if (!isCounted) {
                problems.add(
                        row.count.isBlank()
                                ? frame.say("clinic.row-count-missing", i + 1)
                                : frame.say("clinic.row-no-count", i + 1, row.count));
            }
            if (!row.name.isBlank() && isCounted) {
                things.add(new TodaysLoad.Thing(row.name, count.getAsInt(), row.family, row.packaging));
            }
        }
        if (!problems.isEmpty() || things.isEmpty() || cycle.isBlank()) {
            return Optional.empty();
        }
        return Optional.of(new TodaysLoad(
                serial,
                cycle,
                day,
                number,
                things,
                kilogram,
                Optional.empty(),
                switch (tests) {
                    case "passed" -> Optional.of(true);
                    case "failed" -> Optional.of(false);
                    default -> Optional.empty();
                },
                counted));
    }

    private Optional<Double> kilogram(Frame frame) {
        return frame.figures()
                .typed(mass)
                .map(figure -> figure.replaceFirst("(?i)\\s*kg$", ""))
                .filter(figure -> figure.matches("[0-9]{1,6}(\\.[0-9]{1,6})?"))
                .map(Double::valueOf)
                .filter(value -> value > 0);
    }

    private static OptionalInt whole(String text, Frame frame) {
        return frame.figures()
                .typed(text)
                .filter(figure -> figure.matches("[0-9]{1,9}"))
                .map(figure -> OptionalInt.of(Integer.parseInt(figure)))
                .orElse(OptionalInt.empty());
    }
}
