package org.steamwright.intake.table;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.intake.DateOrder;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Collects the time of every row as written; which number is the day is decided when all rows are known. */
final class TimeCells {

    static final long NANOS_PER_SECOND = 1_000_000_000L;
    static final long NANOS_PER_DAY = 86_400 * NANOS_PER_SECOND;

    /** More nanoseconds than that don't fit: about 290 years. */
    private static final double MOST_SECONDS = 9.2e9;

    private final String file;
    private final Layout layout;
    private final Layout.Time time;
    private final StampText stamp = new StampText();
    private final StampText dateStamp = new StampText();
    private final NumberText number = new NumberText();

    private long[] nanos = new long[1024];
    private long[] dates = new long[1024];
    private int[] offsets = new int[1024];
    private int[] lines = new int[1024];
    private int count;
    private int droppedLine;
    private boolean hasSeconds;
    private int withOffset;
    private int firstLineOffset;
    private int firstLineNoOffset;

    private Set<DateOrder> possible = EnumSet.allOf(DateOrder.class);
    private long previousDate = -1;
    private String proof = "";

    TimeCells(String file, Layout layout) {
        this.file = file;
        this.layout = layout;
        this.time = layout.time();
    }

    /** Adds the time of a row; false if its cells hold none. */
    boolean add(Row row) throws UnreadableFileException {
        int cell = time.column();
        if (row.isEmpty(cell)) {
            return false;
        }
        if (count == nanos.length) {
            int larger = count * 2;
            nanos = Arrays.copyOf(nanos, larger);
            dates = Arrays.copyOf(dates, larger);
            offsets = Arrays.copyOf(offsets, larger);
            lines = Arrays.copyOf(lines, larger);
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
            nanos[count] = stamp.nanos;
            offsets[count] = stamp.offsetSeconds;
            hasSeconds |= stamp.hasSeconds;
            if (stamp.offsetSeconds == StampText.NO_OFFSET) {
                firstLineNoOffset = firstLineNoOffset == 0 ? row.line : firstLineNoOffset;
            } else {
                withOffset++;
                firstLineOffset = firstLineOffset == 0 ? row.line : firstLineOffset;
            }
        }
        lines[count++] = row.line;
        return true;
    }

    private boolean addNumber(Row row, int cell) {
        hasSeconds = true;
        if (!number.read(row.chars, row.from[cell], row.to[cell], layout.decimal(), layout.isGroupingProven())
                || number.end != row.to[cell]) {
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
        dates[count] = packed;
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

    void dropLast() {
        count--;
        droppedLine = lines[count];
    }

    int droppedLine() {
        return droppedLine;
    }

    int size() {
        return count;
    }

    /** Line of the file on which a row stands. */
    int line(int row) {
        return lines[row];
    }

    /** Whether seconds are written anywhere. */
    boolean hasSeconds() {
        return hasSeconds;
    }

    /** Nanoseconds as written: of the day, elapsed, or since 1970. */
    long nanos(int row) {
        return nanos[row];
    }

    /** Offset of a row, {@link StampText#NO_OFFSET} if none is written. */
    int offset(int row) {
        return offsets[row];
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
                            "some rows carry an offset from UTC (row %s) and others none (row %s). Expected one kind. Export again with one time setting.",
                            firstLineOffset, firstLineNoOffset));
        }
        return withOffset > 0;
    }

    /** The order of day, month and year with its reason; asks if the file leaves it open. */
    DatesRead readDates(ReadingChoices choices) throws UnreadableFileException {
        Optional<DateOrder> chosen = choices.dateOrder();
        if (chosen.isPresent() && !possible.contains(chosen.get())) {
            throw new UnreadableFileException(
                    IntakeMessage.DATE_ORDER_DOES_NOT_FIT,
                    file,
                    "",
                    Sentence.of(
                            "the chosen order of dates %s does not fit: the dates can only be read as %s (%s). Leave the choice date-order out.",
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
        long from = dates[0];
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
                "row " + lines[0],
                "the file does not tell which number of a date is the day. Say it once (date-order).",
                List.of(new Question(
                        "date-order",
                        "In which order are day, month and year written?",
                        Sentence.of(
                                "The first date is %s (row %s): %s. No date in the file has a day above 12.",
                                written(from), lines[0], readings),
                        options)));
    }

    private String written(long packed) {
        return (packed >> 40) + "/" + ((packed >> 20) & 0xFFFFF) + "/" + (packed & 0xFFFFF);
    }

    private boolean isSameInAll() {
        long before = -1;
        for (int i = 0; i < count; i++) {
            if (dates[i] != before) {
                before = dates[i];
                long same = Long.MIN_VALUE;
                for (DateOrder order : possible) {
                    long day = epochDay(before, order);
                    if (same != Long.MIN_VALUE && day != same) {
                        return false;
                    }
                    same = day;
                }
            }
        }
        return true;
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
        long before = -1;
        long day = 0;
        for (int i = 0; i < count; i++) {
            if (dates[i] != before) {
                before = dates[i];
                day = epochDay(before, order);
            }
            local[i] = day * NANOS_PER_DAY + nanos[i];
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
