package org.steamwright.intake.folder;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import org.steamwright.intake.folder.ClockStatement.Pair;
import org.steamwright.intake.folder.ClockStatement.Shown;

/** Reads what a visit file says about the clock of a logger. */
final class ClockFacts {

    private static final String EXAMPLE = "{before: {logger: 10:00:41, reference: 10:00:00}}";

    private ClockFacts() {}

    /** The statement; empty after a problem was added. */
    static Optional<ClockStatement> read(Entry entry) {
        if (!entry.isMapping()) {
            return entry.text().flatMap(text -> word(text, entry));
        }
        int before = entry.source().problems().count();
        Optional<Fields> opened = entry.fields(Shape.CLOCK);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<Entry> earlier = fields.find("before");
        Optional<Entry> later = fields.find("after");
        Optional<Entry> event = fields.find("event");
        Optional<Entry> offset = fields.find("offset");
        Optional<Entry> same = fields.find("same-as");
        Optional<Entry> halfWidth = fields.find("half-width");
        Optional<Entry> author = fields.find("by");
        Optional<Entry> because = fields.find("because");
        int ways = (earlier.isPresent() || later.isPresent() ? 1 : 0)
                + (event.isPresent() ? 1 : 0)
                + (offset.isPresent() ? 1 : 0)
                + (same.isPresent() ? 1 : 0);
        if (ways != 1) {
            entry.problem(
                    Mistake.CLOCK,
                    Flaw.of(
                                    "found " + (ways == 0 ? "no way" : "more than one way")
                                            + " to compare the clocks, expected one of before and after, event, offset, same-as.")
                            .inFile("Write for example: clock: " + EXAMPLE));
            return Optional.empty();
        }
        String who = author.flatMap(Entry::text).orElse("");
        Optional<ClockStatement> read;
        if (same.isPresent()) {
            Entry spot = same.get();
            read = spot.text().map(file -> new ClockStatement.SameAs(file, spot));
        } else if (event.isPresent()) {
            needed(fields, author, "by", "K. Sample");
            read = event.get().word(Words.EVENT).map(word -> new ClockStatement.ByEvent(who));
        } else if (offset.isPresent()) {
            needed(fields, author, "by", "K. Sample");
            needed(fields, because, "because", "read on both displays side by side");
            needed(fields, halfWidth, "half-width", "1 s");
            Optional<Double> seconds = offset.flatMap(one -> one.quantity(Measure.TIME_SHIFT));
            Optional<Double> half = halfWidth.flatMap(one -> one.quantity(Measure.DURATION));
            String reason = because.flatMap(Entry::text).orElse("");
            read = seconds.isEmpty() || half.isEmpty()
                    ? Optional.empty()
                    : Optional.of(new ClockStatement.ByStatement(seconds.get(), half.get(), who, reason));
        } else {
            Optional<Pair> early = earlier.flatMap(ClockFacts::pair);
            Optional<Pair> late = later.flatMap(ClockFacts::pair);
            read = Optional.of(new ClockStatement.ByCheck(early, late, who, entry));
        }
        return entry.source().problems().count() > before ? Optional.empty() : read;
    }

    private static Optional<ClockStatement> word(String text, Entry entry) {
        if (text.equals("reference")) {
            return Optional.of(new ClockStatement.IsReference());
        }
        entry.problem(
                Mistake.UNKNOWN_WORD,
                Flaw.of(
                                "found \"" + text
                                        + "\", expected reference (if the other clocks were compared with this one) or how this clock was compared.")
                        .inFile("Write for example: clock: " + EXAMPLE));
        return Optional.empty();
    }

    private static void needed(Fields fields, Optional<Entry> found, String key, String example) {
        if (found.isEmpty()) {
            fields.need(key, example);
        }
    }

    private static Optional<Pair> pair(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.CLOCK_READING);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Optional<Entry> loggerEntry = opened.get().need("logger", "10:00:41");
        Optional<Entry> referenceEntry = opened.get().need("reference", "10:00:00");
        Optional<Shown> logger = loggerEntry.flatMap(ClockFacts::shown);
        Optional<Shown> reference = referenceEntry.flatMap(ClockFacts::shown);
        return logger.isEmpty() || reference.isEmpty()
                ? Optional.empty()
                : Optional.of(new Pair(logger.get(), reference.get()));
    }

    private static Optional<Shown> shown(Entry entry) {
        return entry.text().flatMap(text -> shown(text, entry));
    }

    /** A time of day with or without its day; the digits written tell how finely it was read. */
    static Optional<Shown> shown(String text, Spot spot) {
        String calm = text.replace(' ', 'T');
        int time = calm.indexOf('T');
        try {
            Optional<LocalDate> day =
                    time < 0 ? Optional.empty() : Optional.of(LocalDate.parse(calm.substring(0, time)));
            String ofDay = calm.substring(time + 1);
            int point = ofDay.indexOf('.');
            double step = point >= 0
                    ? StrictMath.pow(10, point + 1 - ofDay.length())
                    : ofDay.indexOf(':') != ofDay.lastIndexOf(':') ? 1 : 60;
            return Optional.of(new Shown(day, LocalTime.parse(ofDay.indexOf(':') == 1 ? "0" + ofDay : ofDay), step));
        } catch (DateTimeException e) {
            spot.problem(
                    Mistake.NOT_A_DATE,
                    Flaw.of(
                            "found \"" + text
                                    + "\", expected what the clock showed, as a time of day with or without its day.",
                            "Write for example: 10:00:41 or 2026-03-02T10:00:41"));
            return Optional.empty();
        }
    }
}
