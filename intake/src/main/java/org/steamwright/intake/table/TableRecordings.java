package org.steamwright.intake.table;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Gap;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.intake.DateOrder;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/**
 * Makes recordings of tables.
 *
 * <p>Decimal mark, header, units and the form of time stamps are found in the cells and explained line by line in {@link
 * Recording#explanation()}. What the cells leave open is not guessed: the exception carries the questions. What is odd but
 * readable becomes a remark; no row or reading is dropped without one.
 */
public final class TableRecordings {

    /** How the first line of a file begins that a simulator wrote. */
    public static final String SIMULATED_MARK = "# Steamwright simulated recording";

    /**
     * Readings that are kept at once; the time of a row counts as two. 2.5 million rows of six channels, 28 days at one
     * sample a second, about 160 MB. Beyond that the time of the run has to be chosen.
     */
    public static final int MOST_VALUES = 20_000_000;

    private static final int GAPS_SHOWN = 5;
    private static final double[] NONE = {};

    private TableRecordings() {}

    /**
     * Reads one table.
     *
     * @param table the rows
     * @param opening what its reader has found already; its lines come first
     * @param choices what a person has said about this file; the zone at least
     * @return at least two samples and one column; columns in the order of the table, values in °C and kPa as counted in
     *     the file
     * @throws UnreadableFileException if the table gives no recording, or not before its questions are answered
     * @throws IOException if the disk fails
     */
    public static Recording read(Table table, Opening opening, ReadingChoices choices)
            throws IOException, UnreadableFileException {
        return read(table, opening, choices, MOST_VALUES);
    }

    /**
     * By what files like this one are known again, before anything is asked.
     *
     * @param choices of which at most the delimiter and the charset should be told
     * @throws UnreadableFileException if there is no table in it
     * @throws IOException if the disk fails
     */
    public static FileKind kind(Table table, ReadingChoices choices) throws IOException, UnreadableFileException {
        return LayoutFinder.kind(table, choices);
    }

    /** The refusal of a reading profile whose answer the file contradicts. */
    public static UnreadableFileException contradicted(
            String file, String where, ReadingChoices choices, String key, String answer, String evidence) {
        return new UnreadableFileException(
                IntakeMessage.PROFILE_CONTRADICTED,
                file,
                where,
                Sentence.of(
                        "the reading profile \"%s\" says %s = %s, but %s. Was the logger set otherwise? Answer for"
                                + " this file (%s), or leave the profile out (profile = none).",
                        choices.profileName(), key, answer, evidence, key));
    }

    static Recording read(Table rows, Opening opening, ReadingChoices choices, int mostValues)
            throws IOException, UnreadableFileException {
        String file = rows.fileName();
        List<String> explanation = new ArrayList<>(opening.explanation());
        List<Remark> remarks = new ArrayList<>(opening.remarks());
        if (opening.isSimulated()) {
            remarks.add(new Remark(
                    IntakeMessage.SIMULATED.id(),
                    Rank.NOTE,
                    file + ", row 1",
                    "The file says that it was simulated: invented data, not a real cycle."));
        }
        if (!choices.profileNote().isEmpty()) {
            explanation.add(choices.profileNote());
        }
        LayoutFinder.Found found = LayoutFinder.find(rows, choices);
        Table table = found.table();
        Layout layout = found.layout();
        explanation.addAll(layout.explanation());
        remarks.addAll(layout.remarks());

        Readings readings = new Readings(table, layout, chosenTime(table, layout, choices), mostValues);
        Table.Ending ending = table.each(readings);
        Table.Fingerprint fingerprint = table.fingerprint();
        Readings.Finished finished = readings.finish(ending == Table.Ending.OPEN);
        remarks.addAll(finished.remarks);
        TimeLine.Placed placed = TimeLine.place(file, layout.time(), finished.time, choices);
        explanation.addAll(placed.explanation);
        remarks.addAll(placed.remarks);

        int kept = mergeRepeated(file, layout, finished, placed, remarks);
        TimeAxis axis = axis(placed.nanos, kept);
        remarkGaps(file, axis, remarks);
        explanation.add(Sentence.of(
                "%s samples over %s s, interval %s s", axis.size(), number(axis.last()), number(axis.interval())));
        return new Recording(
                file,
                fingerprint.bytes(),
                fingerprint.sha256(),
                placed.start,
                placed.zone,
                axis,
                columns(layout, finished, kept),
                remarks,
                explanation,
                opening.isSimulated());
    }

    /**
     * The wanted part of the time. Where the order of day and month decides which rows that is, it is found in a pass of
     * its own.
     */
    private static Optional<ChosenTime> chosenTime(Table table, Layout layout, ReadingChoices choices)
            throws IOException, UnreadableFileException {
        if (!choices.isTimeChosen()) {
            return Optional.empty();
        }
        DateOrder order = DateOrder.YEAR_MONTH_DAY;
        if (layout.time().hasDate()) {
            TimeCells dates = new TimeCells(table.fileName(), layout);
            if (choices.dateOrder().isEmpty()) {
                table.each(row -> {
                    if (row.line >= layout.firstDataLine() && dates.add(row)) {
                        dates.dropLast();
                    }
                    return true;
                });
            }
            order = dates.readDates(choices).order();
        }
        return Optional.of(new ChosenTime(table.fileName(), layout.time(), choices, order));
    }

    private static List<Column> columns(Layout layout, Readings.Finished finished, int kept) {
        List<Column> columns = new ArrayList<>();
        for (int i = 0; i < finished.values.length; i++) {
            Layout.Reading reading = layout.readings().get(i);
            columns.add(new Column(
                    reading.name(),
                    reading.unit().quantity(),
                    reading.reference(),
                    reading.unit().symbol(),
                    finished.values[i],
                    kept,
                    finished.resolution[i]));
            finished.values[i] = NONE;
        }
        return columns;
    }

    private static TimeAxis axis(long[] nanos, int kept) {
        double[] seconds = new double[kept];
        for (int i = 0; i < kept; i++) {
            seconds[i] = (nanos[i] - nanos[0]) / (double) TimeCells.NANOS_PER_SECOND;
        }
        return TimeAxis.ofSeconds(seconds);
    }

    /**
     * Moves the rows together where the same row stands twice.
     *
     * @return how many rows are left
     */
    private static int mergeRepeated(
            String file, Layout layout, Readings.Finished finished, TimeLine.Placed placed, List<Remark> remarks)
            throws UnreadableFileException {
        long[] nanos = placed.nanos;
        int kept = 1;
        int firstLine = 0;
        for (int i = 1; i < finished.rows; i++) {
            if (nanos[i] == nanos[kept - 1]) {
                if (!isSame(finished.values, i, kept - 1)) {
                    throw new UnreadableFileException(
                            IntakeMessage.TIME_STAMP_REPEATED,
                            file,
                            "row " + finished.time.line(i),
                            Sentence.of(
                                    "%s stands in this row and in the row before with other readings. Each moment may"
                                            + " stand once.%s",
                                    TimeLine.shown(nanos[i], layout.time(), placed.zone),
                                    finished.time.hasSeconds()
                                            ? " Export with fractions of a second, or one file per logger."
                                            : " The times have no seconds: export with seconds."));
                }
                firstLine = firstLine == 0 ? finished.time.line(i) : firstLine;
            } else {
                if (kept < i) {
                    nanos[kept] = nanos[i];
                    for (double[] column : finished.values) {
                        column[kept] = column[i];
                    }
                }
                kept++;
            }
        }
        int repeated = finished.rows - kept;
        if (kept < 2) {
            throw new UnreadableFileException(
                    IntakeMessage.TOO_FEW_ROWS,
                    file,
                    "",
                    Sentence.of(
                            "all %s rows have the same time and the same readings. Expected at least two moments.",
                            finished.rows));
        }
        if (repeated > 0) {
            remarks.add(new Remark(
                    IntakeMessage.ROW_REPEATED.id(),
                    Rank.DOUBT,
                    file + ", row " + firstLine,
                    Sentence.of(
                            "%s row%s, the first in row %s, %s the time and all readings of the row before and %s"
                                    + " taken once. Was the file joined from parts that overlap?",
                            repeated,
                            repeated == 1 ? "" : "s",
                            firstLine,
                            repeated == 1 ? "repeats" : "repeat",
                            repeated == 1 ? "is" : "are")));
        }
        return kept;
    }

    private static boolean isSame(double[][] values, int one, int other) {
        for (double[] column : values) {
            if (Double.doubleToLongBits(column[one]) != Double.doubleToLongBits(column[other])) {
                return false;
            }
        }
        return true;
    }

    private static void remarkGaps(String file, TimeAxis axis, List<Remark> remarks) {
        List<Gap> gaps = axis.gaps();
        if (gaps.isEmpty()) {
            return;
        }
        List<String> shown = new ArrayList<>();
        for (Gap gap : gaps.subList(0, Math.min(gaps.size(), GAPS_SHOWN))) {
            shown.add(Sentence.of(
                    "%s s from %s s to %s s",
                    number(gap.seconds()), number(gap.fromSeconds()), number(gap.toSeconds())));
        }
        remarks.add(new Remark(
                IntakeMessage.GAP.id(),
                Rank.NOTE,
                file,
                Sentence.of(
                        "%s gap%s in an interval of %s s: %s%s (counted from the first sample). Nothing was filled in;"
                                + " a finding that needs the time within is not made from it.",
                        gaps.size(),
                        gaps.size() == 1 ? "" : "s",
                        number(axis.interval()),
                        String.join(", ", shown),
                        gaps.size() > GAPS_SHOWN ? ", …" : "")));
    }

    private static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }
}
