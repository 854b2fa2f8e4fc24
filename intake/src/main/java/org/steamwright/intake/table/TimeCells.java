package org.steamwright.intake.table;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.DateOrder;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Collects the time of every row as written; which number is the day is decided when all rows are known. */
final class TimeCells {

    static final long NANOS_PER_SECOND = 1_000_000_000L;
    static final long NANOS_PER_DAY = 86_400 * NANOS_PER_SECOND;

    private static final int MIDNIGHTS_TOLD = 5;

    /** More nanoseconds than that don't fit: about 290 years. */
    private static final double MOST_SECONDS = 9.2e9;

    private final String file;
    private final Layout layout;
    private final Layout.Time time;
    private final StampText stamp = new StampText();
    private final StampText dateStamp = new StampText();
    private final NumberText number = new NumberText();

    private long[] nanos = new long[1024];
    private final Stretches dates = new Stretches();
    private final Stretches offsets = new Stretches();
    /** Lines less the number of the row: the same for all rows between two lines that are no rows. */
    private final Stretches linesAhead = new Stretches();

    private int count;
    private long firstDate = -1;
    private int firstDateLine;
    private boolean isFirstClock = true;
    private long firstClock;
    private long clockBefore;
    private long midnight;
    private int midnights;
    private final List<Remark> midnightRemarks = new ArrayList<>();
    private int droppedLine;
    private boolean hasSeconds;
    private int withOffset;
    private int firstLineOffset;
    private int firstLineNoOffset;

    private Set<DateOrder> possible = EnumSet.allOf(DateOrder.class);
    private long previousDate = -1;
    private String proof = "";
    private final Map<DateOrder, Set<DateOrder>> differing = new EnumMap<>(DateOrder.class);
    private long dayFor = -1;
    private DateOrder dayOrder = DateOrder.YEAR_MONTH_DAY;
    private long day;

    TimeCells(String file, Layout layout) {
        this.file = file;
        this.layout = layout;
        this.time = layout.time();
    }

    /** Makes room for so many rows. */
    void reserve(int rows) {
        if (rows > nanos.length) {
            nanos = Arrays.copyOf(nanos, rows);
        }
    }

    /** Adds the time of a row; false if its cells hold none. */
    boolean add(Row row) throws UnreadableFileException {
        int cell = time.column();
        if (row.isEmpty(cell)) {
            return false;
        }
        if (count == nanos.length) {
            nanos = Arrays.copyOf(nanos, Readings.larger(count));
        }
        boolean isRead = switch (time.kind()) {
            case NUMBER -> addNumber(row, cell);
            case CLOCK -> stamp.read(row.chars, row.from[cell], row.to[cell]) && !stamp.hasDate;
            case STAMP ->
                stamp.read(row.chars, row.from[cell], row.to[cell])
                        && stamp.hasDate
                        && stamp.hasTime
                        && addDate(stamp, row.line);
            case DATE_AND_TIME -> addDateAndTime(row, cell);
        };
        if (!isRead) {
            return false;
        }
        if (time.kind() != Layout.TimeKind.NUMBER) {
            nanos[count] = time.kind() == Layout.TimeKind.CLOCK ? unrolled(row.line) : stamp.nanos;
            offsets.add(stamp.offsetSeconds);
            hasSeconds |= stamp.hasSeconds;
            if (stamp.offsetSeconds == StampText.NO_OFFSET) {
                firstLineNoOffset = firstLineNoOffset == 0 ? row.line : firstLineNoOffset;
            } else {
                withOffset++;
                firstLineOffset = firstLineOffset == 0 ? row.line : firstLineOffset;
            }
        }
        if (time.hasDate()) {
            dates.add(previousDate);
        }
        linesAhead.add(row.line - count);
        count++;
        return true;
    }

    /** The time of day with the midnights before it. */
    private long unrolled(int line) {
        long clock = stamp.nanos;
        if (isFirstClock) {
            isFirstClock = false;
            firstClock = clock;
        } else if (clock < NANOS_PER_DAY && clock < clockBefore - NANOS_PER_DAY / 2) {
            midnight += NANOS_PER_DAY;
            midnights++;
            if (midnights <= MIDNIGHTS_TOLD) {
                midnightRemarks.add(new Remark(
                        IntakeMessage.MIDNIGHT_PASSED.id(),
                        Rank.NOTE,
                        file + ", row " + line,
                        Sentence.of(
                                "The time goes from %s to %s without a date: read as midnight passed.%s",
                                TimeLine.clockShown(clockBefore),
                                TimeLine.clockShown(clock),
                                midnights == MIDNIGHTS_TOLD ? " Any further midnight is read alike." : "")));
            }
        }
        clockBefore = clock;
        return clock + midnight;
    }

    /** Where midnight was read between two rows. */
    List<Remark> midnightRemarks() {
        return midnightRemarks;
    }

    /** Time of day in the first row of the file, whether it was kept or not. */
    long firstClock() {
        return firstClock;
    }

    private boolean addNumber(Row row, int cell) {
        hasSeconds = true;
        if (!number.read(row, cell, layout.decimal(), layout.isGroupingProven()) || number.end != row.to[cell]) {
            return false;
        }
        double seconds = number.value * time.unit().seconds();
        if (!(Math.abs(seconds) < MOST_SECONDS)) {
            return false;
        }
        nanos[count] = Math.round(seconds * NANOS_PER_SECOND);
        return true;
    }

    private boolean addDateAndTime(Row row, int cell) {
        int dateCell = time.dateColumn();
        return !row.isEmpty(dateCell)
                && stamp.read(row.chars, row.from[cell], row.to[cell])
                && stamp.hasTime
                && !stamp.hasDate
                && stamp.nanos < NANOS_PER_DAY
                && dateStamp.read(row.chars, row.from[dateCell], row.to[dateCell])
                && dateStamp.hasDate
                && !dateStamp.hasTime
                && addDate(dateStamp, row.line);
    }

    private boolean addDate(StampText read, int line) {
        long packed = ((long) read.first << 40) | ((long) read.second << 20) | read.third;
        if (packed != previousDate) {
            Set<DateOrder> still = EnumSet.noneOf(DateOrder.class);
            for (DateOrder order : possible) {
                if (fits(read, order)) {
                    still.add(order);
                }
            }
            if (still.isEmpty()) {
                return false;
            }
            if (still.size() == 1 && possible.size() > 1) {
                proof = "proven by row " + line;
            }
            possible = still;
            previousDate = packed;
            if (firstDate < 0) {
                firstDate = packed;
                firstDateLine = line;
            }
            compareOrders(packed);
        }
        return true;
    }

    private boolean fits(StampText read, DateOrder order) {
        int day = order == DateOrder.DAY_MONTH_YEAR
                ? read.first
                : order == DateOrder.MONTH_DAY_YEAR ? read.second : read.third;
        int month = order == DateOrder.MONTH_DAY_YEAR ? read.first : read.second;
        int year = order == DateOrder.YEAR_MONTH_DAY ? read.first : read.third;
        int monthDigits = order == DateOrder.MONTH_DAY_YEAR ? read.firstDigits : read.secondDigits;
        int digits = order == DateOrder.YEAR_MONTH_DAY ? read.firstDigits : read.thirdDigits;
        int dayDigits = order == DateOrder.DAY_MONTH_YEAR
                ? read.firstDigits
                : order == DateOrder.MONTH_DAY_YEAR ? read.secondDigits : read.thirdDigits;
        boolean isNamed = read.firstDigits == 0 || read.secondDigits == 0;
        if (isNamed && monthDigits != 0) {
            return false;
        }
        if ((digits != 4 && digits != 2) || monthDigits > 2 || dayDigits > 2 || dayDigits == 0) {
            return false;
        }
        return month >= 1
                && month <= 12
                && fullYear(year) >= 1970
                && fullYear(year) <= 2200
                && day >= 1
                && day <= daysIn(fullYear(year), month);
    }

    private static int daysIn(int year, int month) {
        return switch (month) {
            case 2 -> year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) ? 29 : 28;
            case 4, 6, 9, 11 -> 30;
            default -> 31;
        };
    }

    private static int fullYear(int year) {
        return year < 100 ? 2000 + year : year;
    }

    /** Which of the orders that are still possible have always given the same date. */
    private void compareOrders(long packed) {
        for (DateOrder one : possible) {
            for (DateOrder other : possible) {
                if (one.compareTo(other) < 0 && epochDay(packed, one) != epochDay(packed, other)) {
                    differing
                            .computeIfAbsent(one, unseen -> EnumSet.noneOf(DateOrder.class))
                            .add(other);
                }
            }
        }
    }

    private boolean isSameInAll() {
        for (DateOrder one : possible) {
            for (DateOrder other : possible) {
                if (one.compareTo(other) < 0
                        && differing.getOrDefault(one, Set.of()).contains(other)) {
                    return false;
                }
            }
        }
        return true;
    }

    void dropLast() {
        droppedLine = line(count - 1);
        count--;
        linesAhead.dropLast();
        if (time.hasDate()) {
            dates.dropLast();
        }
        if (time.kind() != Layout.TimeKind.NUMBER) {
            if (offsets.at(count) != StampText.NO_OFFSET) {
                withOffset--;
            }
            offsets.dropLast();
        }
    }

    /** Local nanoseconds of the last row by an order of dates; with its offset taken off if it has one. */
    long lastMoment(DateOrder order) {
        long local = dayOf(dates.at(count - 1), order) * NANOS_PER_DAY + nanos[count - 1];
        return hasLastOffset() ? local - offsets.at(count - 1) * NANOS_PER_SECOND : local;
    }

    boolean hasLastOffset() {
        return offsets.at(count - 1) != StampText.NO_OFFSET;
    }

    private long dayOf(long packed, DateOrder order) {
        if (packed != dayFor || order != dayOrder) {
            dayFor = packed;
            dayOrder = order;
            day = epochDay(packed, order);
        }
        return day;
    }

    int droppedLine() {
        return droppedLine;
    }

    int size() {
        return count;
    }

    /** Line of the file on which a row stands. */
    int line(int row) {
        return (int) linesAhead.at(row) + row;
    }

    /** Whether seconds are written anywhere. */
    boolean hasSeconds() {
        return hasSeconds;
    }

    /** Nanoseconds of the last row as written: of the day, elapsed, or since 1970. */
    long lastNanos() {
        return nanos[count - 1];
    }

    /** Nanoseconds of all rows as written, midnights counted. */
    long[] toNanos() {
        return Arrays.copyOf(nanos, count);
    }

    /** Offset of a row, {@link StampText#NO_OFFSET} if none is written. */
    int offset(int row) {
        return (int) offsets.at(row);
    }

    /** The first row behind those that have the offset of a row. */
    int endOfOffset(int row) {
        return offsets.endOfStretch(row);
    }

    /** What a cell should look like, for a message. */
    String expected() {
        return switch (time.kind()) {
            case NUMBER -> "a number of " + time.unit().symbol();
            case CLOCK -> "a time as 09:15:00";
            case STAMP -> "a date and time";
            case DATE_AND_TIME -> "a date and a time in their columns";
        };
    }

    /** Whether stamps carry their offset; refuses a mixture. */
    boolean hasOffsets() throws UnreadableFileException {
        if (withOffset > 0 && withOffset < count) {
            throw new UnreadableFileException(
                    IntakeMessage.TIME_UNREADABLE,
                    file,
                    "row " + Math.max(firstLineOffset, firstLineNoOffset),
                    Sentence.of(
                            "some rows carry an offset from UTC (row %s) and others none (row %s). Expected one kind."
                                    + " Export again with one time setting.",
                            firstLineOffset, firstLineNoOffset));
        }
        return withOffset > 0;
    }

    /** The order of day, month and year with its reason; asks if the file leaves it open. */
    DatesRead readDates(ReadingChoices choices) throws UnreadableFileException {
        Optional<DateOrder> chosen = choices.dateOrder();
        if (chosen.isPresent() && !possible.contains(chosen.get())) {
            if (choices.isByProfile("date-order")) {
                throw TableRecordings.contradicted(
                        file,
                        "",
                        choices,
                        "date-order",
                        chosen.get().symbol(),
                        Sentence.of(
                                "its dates can only be read as %s (%s)",
                                possible.iterator().next().symbol(), proof));
            }
            throw new UnreadableFileException(
                    IntakeMessage.DATE_ORDER_DOES_NOT_FIT,
                    file,
                    "",
                    Sentence.of(
                            "the chosen order of dates %s does not fit: the dates can only be read as %s (%s). Leave"
                                    + " the choice date-order out.",
                            chosen.get().symbol(), possible.iterator().next().symbol(), proof));
        }
        if (chosen.isPresent()) {
            return new DatesRead(chosen.get(), "as chosen");
        }
        DateOrder first = possible.iterator().next();
        if (possible.size() == 1) {
            return new DatesRead(first, proof);
        }
        if (isSameInAll()) {
            return new DatesRead(first, "all orders give the same date");
        }
        long from = firstDate;
        StringBuilder readings = new StringBuilder();
        for (DateOrder order : possible) {
            readings.append(readings.isEmpty() ? "" : ", ")
                    .append(order.symbol())
                    .append(" makes it ")
                    .append(LocalDate.ofEpochDay(epochDay(from, order)));
        }
        List<String> options = possible.stream().map(DateOrder::symbol).toList();
        throw new UnreadableFileException(
                IntakeMessage.QUESTIONS_OPEN,
                file,
                "row " + firstDateLine,
                "the file does not tell which number of a date is the day. Say it once (date-order).",
                List.of(new Question(
                        "date-order",
                        "In which order are day, month and year written?",
                        Sentence.of(
                                "The first date is %s (row %s): %s. No date in the file has a day above 12.",
                                written(from), firstDateLine, readings),
                        options)));
    }

    private String written(long packed) {
        return (packed >> 40) + "/" + ((packed >> 20) & 0xFFFFF) + "/" + (packed & 0xFFFFF);
    }

    private static long epochDay(long packed, DateOrder order) {
        int first = (int) (packed >> 40);
        int second = (int) ((packed >> 20) & 0xFFFFF);
        int third = (int) (packed & 0xFFFFF);
        return switch (order) {
            case DAY_MONTH_YEAR -> LocalDate.of(fullYear(third), second, first).toEpochDay();
            case MONTH_DAY_YEAR -> LocalDate.of(fullYear(third), first, second).toEpochDay();
            case YEAR_MONTH_DAY -> LocalDate.of(fullYear(first), second, third).toEpochDay();
        };
    }

    /** Local nanoseconds since 1970-01-01T00:00 by the clock of the file. */
    long[] localNanos(DateOrder order) {
        long[] local = new long[count];
        int i = 0;
        while (i < count) {
            long start = epochDay(dates.at(i), order) * NANOS_PER_DAY;
            int end = dates.endOfStretch(i);
            for (; i < end; i++) {
                local[i] = start + nanos[i];
            }
        }
        return local;
    }

    /**
     * The order of dates.
     *
     * @param order how they are read
     * @param why the reason
     */
    record DatesRead(DateOrder order, String why) {}
}
