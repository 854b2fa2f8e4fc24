package org.steamwright.desk.runs;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.report.plot.Decimation;
import org.steamwright.report.plot.Moments;

/**
 * How a recording was read, without its values: they may be millions.
 *
 * @param explanation how it was understood
 * @param start clock at the first sample; blank if it has elapsed time only
 * @param samples how many
 * @param minutes how long
 * @param interval usual step in seconds
 * @param gaps longer steps, how many
 * @param columns what each holds
 * @param rows first samples, the time first
 * @param remarks what was odd
 * @param begin moment of the first sample by its own clock; empty if it has elapsed time only
 * @param sketches curves to lay over those of other recordings
 */
record ReadSummary(
        List<String> explanation,
        String start,
        int samples,
        String minutes,
        String interval,
        int gaps,
        List<Held> columns,
        List<List<String>> rows,
        List<Remark> remarks,
        Optional<Instant> begin,
        List<Sketch> sketches) {

    private static final int ROWS = 6;
    private static final int MOST_POINTS = 4_000;
    private static final int POINTS_OF_SLICE = 4;
    private static final double SECONDS = 60;

    ReadSummary {
        explanation = List.copyOf(explanation);
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
        remarks = List.copyOf(remarks);
        sketches = List.copyOf(sketches);
    }

    /**
     * A curve thinned for drawing; every extreme stays.
     *
     * @param quantity of the column
     * @param seconds moments on the recording's own axis
     * @param values missing ones are not a number
     */
    record Sketch(Quantity quantity, List<Double> seconds, List<Double> values) {

        Sketch {
            seconds = List.copyOf(seconds);
            values = List.copyOf(values);
        }

        /** The first column of each quantity. */
        static List<Sketch> of(Recording recording) {
            List<Sketch> sketches = new ArrayList<>();
            for (Quantity quantity : List.of(Quantity.PRESSURE, Quantity.TEMPERATURE)) {
                recording.columns().stream()
                        .filter(column -> column.quantity() == quantity)
                        .findFirst()
                        .ifPresent(column -> sketches.add(of(recording, column)));
            }
            return sketches;
        }

        private static Sketch of(Recording recording, Column column) {
            int size = column.size();
            double[] seconds = new double[size];
            double[] values = new double[size];
            for (int i = 0; i < size; i++) {
                seconds[i] = recording.axis().at(i);
                values[i] = column.at(i);
            }
            if (size <= MOST_POINTS) {
                return new Sketch(column.quantity(), boxed(seconds), boxed(values));
            }
            double length = recording.axis().last() - recording.axis().first();
            Decimation thin =
                    Decimation.of(seconds, values, Double.POSITIVE_INFINITY, POINTS_OF_SLICE * length / MOST_POINTS);
            return new Sketch(column.quantity(), boxed(thin.seconds()), boxed(thin.values()));
        }

        private static List<Double> boxed(double[] figures) {
            return Arrays.stream(figures).boxed().toList();
        }
    }

    /**
     * What a column holds.
     *
     * @param name as in the file
     * @param unit as in the file
     * @param isPressure whether it is one
     * @param fileReference from what it counts as the file says, {@code absolute} or {@code gauge}; blank if it leaves that open
     * @param lowest value with its unit; blank if there is none
     * @param highest value with its unit; blank if there is none
     * @param empty samples without value, how many
     */
    record Held(
            String name,
            String unit,
            boolean isPressure,
            String fileReference,
            String lowest,
            String highest,
            int empty) {

        static Held of(Column column) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            int empty = 0;
            for (int i = 0; i < column.size(); i++) {
                double value = column.at(i);
                empty += Double.isNaN(value) ? 1 : 0;
                low = value < low ? value : low;
                high = value > high ? value : high;
            }
            boolean isPressure = column.quantity() == Quantity.PRESSURE;
            String unit = " " + column.quantity().unit();
            return new Held(
                    column.name(),
                    column.unitInFile(),
                    isPressure,
                    column.reference()
                            .map(one -> one.name().toLowerCase(Locale.ROOT))
                            .orElse(""),
                    low <= high ? Figures.nearest(low, 2) + unit : "",
                    low <= high ? Figures.nearest(high, 2) + unit : "",
                    empty);
        }
    }

    static ReadSummary of(Recording recording) {
        double seconds = recording.axis().last() - recording.axis().first();
        return new ReadSummary(
                recording.explanation(),
                recording
                        .start()
                        .map(start -> start.atZone(recording.zone()).toLocalDate() + " "
                                + Moments.clock(start, recording.zone()) + " "
                                + recording.zone().getId())
                        .orElse(""),
                recording.axis().size(),
                Figures.nearest(seconds / SECONDS, 1),
                Figures.plain(Figures.cleaned(recording.axis().interval()), Unit.SECONDS),
                recording.axis().gaps().size(),
                recording.columns().stream().map(Held::of).toList(),
                rows(recording),
                recording.remarks(),
                recording.start(),
                Sketch.of(recording));
    }

    private static List<List<String>> rows(Recording recording) {
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < Math.min(ROWS, recording.axis().size()); i++) {
            List<String> row = new ArrayList<>();
            row.add(Moments.minutes(recording.axis().at(i)));
            for (Column column : recording.columns()) {
                row.add(Double.isNaN(column.at(i)) ? "–" : Figures.nearest(column.at(i), 2));
            }
            rows.add(List.copyOf(row));
        }
        return rows;
    }
}
