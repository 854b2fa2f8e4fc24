package org.steamwright.intake.table;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/**
 * Puts the time cells of a file on one axis: dates, offsets, the hour that daylight saving repeats or leaves out, midnight
 * without a date. The order of the rows is never changed.
 */
final class TimeLine {

    private static final long SECOND = TimeCells.NANOS_PER_SECOND;
    private static final long DAY = TimeCells.NANOS_PER_DAY;

    /** No logger that is in use today recorded a run before; common sense, no source. */
    private static final Instant CLOCKS_ARE_SET = Instant.parse("2005-01-01T00:00:00Z");

    private final String file;
    private final Layout.Time time;
    private final TimeCells cells;
    private final ReadingChoices choices;
    private ZoneId zone;
    private final List<String> explanation = new ArrayList<>();
    private final List<Remark> remarks = new ArrayList<>();

    private TimeLine(String file, Layout.Time time, TimeCells cells, ReadingChoices choices) {
        this.file = file;
        this.time = time;
        this.cells = cells;
        this.choices = choices;
        this.zone = time.isUtc() ? ZoneOffset.UTC : choices.zone();
    }

    /** Moments of all rows, in rising order where not equal. */
    static final class Placed {
        /** Since 1970 in UTC, or since an unknown start. */
        final long[] nanos;
        /** Moment of the first row. */
        final Optional<Instant> start;
        /** In which the clock was read. */
        final ZoneId zone;

        final List<String> explanation;
        final List<Remark> remarks;

        private Placed(
                long[] nanos, Optional<Instant> start, ZoneId zone, List<String> explanation, List<Remark> remarks) {
            this.nanos = nanos;
            this.start = start;
            this.zone = zone;
            this.explanation = List.copyOf(explanation);
            this.remarks = List.copyOf(remarks);
        }
    }

    static Placed place(String file, Layout.Time time, TimeCells cells, ReadingChoices choices)
            throws UnreadableFileException {
        return new TimeLine(file, time, cells, choices).place();
    }

    private Placed place() throws UnreadableFileException {
        long[] nanos;
        Optional<Instant> start;
        switch (time.kind()) {
            case STAMP, DATE_AND_TIME -> {
                TimeCells.DatesRead dates = cells.readDates(choices);
                explanation.add(
                        Sentence.of("dates in the order %s, %s", dates.order().symbol(), dates.why()));
                nanos = toUtc(cells.localNanos(dates.order()));
                start = Optional.of(instant(nanos[0]));
            }
            case CLOCK -> {
                nanos = cells.toNanos();
                remarks.addAll(cells.midnightRemarks());
                long behind = nanos[0] - cells.firstClock();
                start = choices.start().map(first -> first.plusNanos(behind));
                explanation.add(
                        start.isPresent()
                                ? (behind == 0 ? "first sample at " : "first row of the file at ")
                                        + choices.start().get() + ", as chosen"
                                : "the file tells no date; the start is unknown");
            }
            case NUMBER -> {
                nanos = cells.toNanos();
                long first = nanos[0];
                if (time.unit().isMoment()) {
                    start = Optional.of(instant(first));
                } else {
                    start = choices.start().map(zero -> zero.plusNanos(first));
                    explanation.add(
                            start.isPresent()
                                    ? "elapsed time zero at " + choices.start().get() + ", as chosen"
                                    : "the file tells elapsed time only; the start is unknown");
                    if (first != 0) {
                        explanation.add(Sentence.of(
                                "elapsed time begins at %s s, which is moment zero of the axis",
                                first / (double) SECOND));
                    }
                }
            }
            default -> throw new IllegalStateException("no such kind of time: " + time.kind());
        }
        refuseDisorder(nanos);
        if (start.isPresent() && choices.start().isEmpty() && start.get().isBefore(CLOCKS_ARE_SET)) {
            remark(
                    IntakeMessage.CLOCK_NEVER_SET,
                    Rank.DOUBT,
                    "row " + cells.line(0),
                    Sentence.of(
                            "The file begins at %s: so clocks start that nobody has set, or whose battery was empty."
                                    + " Times within the run are as recorded, the date is not known.",
                            start.get()));
        }
        return new Placed(nanos, start, zone, explanation, remarks);
    }

    /** The offset that a clock of this zone keeps if nobody puts it forward in summer. */
    static ZoneOffset standardTime(ZoneId zone, Instant near) {
        return zone.getRules().getStandardOffset(near);
    }

    private static Instant instant(long nanos) {
        return Instant.ofEpochSecond(Math.floorDiv(nanos, SECOND), Math.floorMod(nanos, SECOND));
    }

    private void refuseDisorder(long[] nanos) throws UnreadableFileException {
        for (int i = 1; i < nanos.length; i++) {
            if (nanos[i] < nanos[i - 1]) {
                throw new UnreadableFileException(
                        IntakeMessage.OUT_OF_ORDER,
                        file,
                        "row " + cells.line(i),
                        Sentence.of(
                                "%s comes after %s (row %s). Rows must be in time order. Was the logger clock set"
                                        + " during the run, or the file sorted or joined? Export the run again; do not"
                                        + " sort it by hand.",
                                shown(nanos[i]), shown(nanos[i - 1]), cells.line(i - 1)));
            }
        }
    }

    /** A moment as a person finds it in the file: in its zone if it is one, else in seconds. */
    String shown(long nanos) {
        return shown(nanos, time, zone);
    }

    static String shown(long nanos, Layout.Time time, ZoneId zone) {
        return switch (time.kind()) {
            case STAMP, DATE_AND_TIME ->
                OffsetDateTime.ofInstant(instant(nanos), zone).toString();
            case CLOCK -> clockShown(nanos);
            case NUMBER -> time.unit().isMoment() ? instant(nanos).toString() : nanos / (double) SECOND + " s";
        };
    }

    static String clockShown(long nanos) {
        long seconds = Math.floorDiv(nanos, SECOND);
        long rest = Math.floorMod(nanos, SECOND);
        String shown = two(seconds / 3600) + ":" + two(seconds / 60 % 60) + ":" + two(seconds % 60);
        return rest == 0
                ? shown
                : shown + "." + Long.toString(SECOND + rest).substring(1).replaceAll("0+$", "");
    }

    private static String two(long number) {
        return number < 10 ? "0" + number : Long.toString(number);
    }

    // ---- zone

    private long[] toUtc(long[] local) throws UnreadableFileException {
        if (cells.hasOffsets()) {
            explanation.add("time stamps carry their offset from UTC");
            int i = 0;
            while (i < local.length) {
                long offset = cells.offset(i) * SECOND;
                int end = cells.endOfOffset(i);
                for (; i < end; i++) {
                    local[i] -= offset;
                }
            }
            return local;
        }
        if (choices.hasDaylightSaving() || time.isUtc()) {
            explanation.add("time stamps without offset, read in zone " + zone.getId());
        } else {
            zone = standardTime(zone, instant(local[0]));
            explanation.add(Sentence.of(
                    "time stamps without offset, from a clock without daylight saving as chosen: %s, the standard time"
                            + " of %s",
                    zone.getId(), choices.zone().getId()));
        }
        ZoneRules rules = zone.getRules();
        long low = Long.MAX_VALUE;
        long high = Long.MIN_VALUE;
        for (long moment : local) {
            low = Math.min(low, moment);
            high = Math.max(high, moment);
        }
        Instant from = instant(low - DAY);
        ZoneOffsetTransition next = rules.isFixedOffset() ? null : rules.nextTransition(from);
        if (next == null || next.getInstant().isAfter(instant(high + DAY))) {
            long offset = rules.getOffset(from).getTotalSeconds() * SECOND;
            for (int i = 0; i < local.length; i++) {
                local[i] -= offset;
            }
            return local;
        }
        return acrossTransition(local, rules);
    }

    private long[] acrossTransition(long[] local, ZoneRules rules) throws UnreadableFileException {
        long[] utc = new long[local.length];
        for (int i = 0; i < local.length; i++) {
            LocalDateTime moment = moment(local[i]);
            List<ZoneOffset> valid = rules.getValidOffsets(moment);
            if (valid.isEmpty()) {
                throw new UnreadableFileException(
                        IntakeMessage.TIME_DOES_NOT_EXIST,
                        file,
                        "row " + cells.line(i),
                        Sentence.of(
                                "%s does not exist in zone %s: the clocks went forward over it (%s). Counted with the"
                                        + " offset before it would be %s, with the offset after it %s. The logger's clock"
                                        + " probably has no daylight saving. Choose a fixed offset as its zone (such as"
                                        + " %s), or the zone the logger was set to.",
                                moment,
                                zone.getId(),
                                rules.getTransition(moment),
                                moment.toInstant(rules.getTransition(moment).getOffsetBefore()),
                                moment.toInstant(rules.getTransition(moment).getOffsetAfter()),
                                rules.getTransition(moment).getOffsetBefore()));
            }
            if (valid.size() == 1) {
                utc[i] = local[i] - valid.get(0).getTotalSeconds() * SECOND;
            } else {
                int end = i;
                while (end < local.length
                        && rules.getValidOffsets(moment(local[end])).size() > 1) {
                    end++;
                }
                placeFold(local, utc, i, end, valid);
                i = end - 1;
            }
        }
        return utc;
    }

    private static LocalDateTime moment(long local) {
        return LocalDateTime.ofEpochSecond(
                Math.floorDiv(local, SECOND), (int) Math.floorMod(local, SECOND), ZoneOffset.UTC);
    }

    /** Rows from..end lie in the hour that the clocks show twice. */
    private void placeFold(long[] local, long[] utc, int from, int end, List<ZoneOffset> valid) {
        long earlier = valid.get(0).getTotalSeconds() * SECOND;
        long later = valid.get(1).getTotalSeconds() * SECOND;
        int back = from + 1;
        while (back < end && local[back] >= local[back - 1]) {
            back++;
        }
        boolean isSeenBack = back < end;
        long step = usualStep(local);
        boolean runsIn = from > 0;
        boolean runsOut = end < local.length && local[end] - local[end - 1] <= 2 * step;
        int laterFrom = isSeenBack ? back : runsOut && !runsIn ? from : end;
        for (int i = from; i < end; i++) {
            utc[i] = local[i] - (i < laterFrom ? earlier : later);
        }
        String rows = "row " + cells.line(from) + " to row " + cells.line(end - 1);
        if (isSeenBack) {
            remark(
                    IntakeMessage.HOUR_REPEATED,
                    Rank.NOTE,
                    rows,
                    Sentence.of(
                            "The clocks went back in this stretch: row %s steps from %s to %s. The rows keep their"
                                    + " order; up to row %s the offset is %s, from row %s it is %s.",
                            cells.line(back),
                            moment(local[back - 1]),
                            moment(local[back]),
                            cells.line(back - 1),
                            valid.get(0),
                            cells.line(back),
                            valid.get(1)));
        } else if (runsOut && !runsIn) {
            remark(
                    IntakeMessage.HOUR_REPEATED,
                    Rank.NOTE,
                    rows,
                    Sentence.of(
                            "The clocks showed this hour twice. The rows run on into the time after it without a"
                                    + " break, so the second pass is taken (offset %s).",
                            valid.get(1)));
        } else if (runsOut) {
            remark(
                    IntakeMessage.HOUR_IN_DOUBT,
                    Rank.DOUBT,
                    rows,
                    Sentence.of(
                            "In zone %s the clocks show this hour twice, but the file runs through it once. Read with"
                                    + " offset %s, so that an hour is missing behind row %s. If the logger's clock has no"
                                    + " daylight saving, choose a fixed offset as its zone (such as %s).",
                            zone.getId(), valid.get(0), cells.line(end - 1), valid.get(0)));
        } else if (!runsIn) {
            remark(
                    IntakeMessage.HOUR_IN_DOUBT,
                    Rank.DOUBT,
                    rows,
                    Sentence.of(
                            "In zone %s the clocks show this hour twice and the file does not tell which pass it is:"
                                    + " the first row is %s with offset %s (taken), or an hour later with offset %s."
                                    + " Choose a fixed offset as zone to settle it.",
                            zone.getId(), moment(local[from]), valid.get(0), valid.get(1)));
        } else {
            remark(
                    IntakeMessage.HOUR_REPEATED,
                    Rank.NOTE,
                    rows,
                    Sentence.of(
                            "The clocks show this hour twice. The rows run into it from the time before without a"
                                    + " break, so the first pass is taken (offset %s).",
                            valid.get(0)));
        }
    }

    private static long usualStep(long[] local) {
        long[] steps = new long[local.length - 1];
        for (int i = 1; i < local.length; i++) {
            steps[i - 1] = local[i] - local[i - 1];
        }
        Arrays.sort(steps);
        return steps.length == 0 ? 0 : steps[steps.length / 2];
    }

    private void remark(IntakeMessage id, Rank rank, String where, String words) {
        remarks.add(new Remark(id.id(), rank, file + ", " + where, words));
    }
}
