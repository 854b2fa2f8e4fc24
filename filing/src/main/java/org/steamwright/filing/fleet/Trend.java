package org.steamwright.filing.fleet;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.uncertainty.CoverageFactor;

/**
 * Where the figures of one steriliser are going: the straight line through them, and when it meets the limit.
 *
 * <p>A line by least squares with the days as exact. The forecast is the day on which the line meets the limit in force at the
 * last visit; the earliest day is that on which the limit enters the interval of about 95 % for one further figure. A reason
 * to look at the machine before it fails, never a verdict.
 *
 * @source simple linear regression with the prediction interval of a single further value; textbook statistics, from memory;
 *     compared with a library in the tests
 * @param readings by day, one a day
 * @param perYear change of the figure in a year; NaN with fewer than two days
 * @param course where it goes
 */
public record Trend(List<FigureReading> readings, double perYear, Course course) {

    /** Days with a figure that a forecast takes at least. */
    public static final int FEWEST = 3;

    private static final double DAYS_PER_YEAR = 365.25;
    private static final int FARTHEST_DAYS = 3_653;

    /** Where a figure goes. */
    public sealed interface Course {

        /** Too little is known. */
        record NotKnown(String why) implements Course {}

        /** It lies outside the limit already. */
        record Over() implements Course {}

        /** It does not come nearer to the limit within ten years. */
        record Away() implements Course {}

        /**
         * It comes nearer.
         *
         * @param meets day on which the line meets the limit; empty if not within ten years
         * @param earliest day from which a figure outside is no surprise; empty if not within ten years
         */
        record Nearing(Optional<LocalDate> meets, Optional<LocalDate> earliest) implements Course {}
    }

    public Trend {
        readings = List.copyOf(readings);
        if (readings.isEmpty()) {
            throw new IllegalArgumentException("a trend needs a reading");
        }
    }

    private record Line(double meanDay, double meanValue, double slope, double square, double scatter, int count) {

        static Line through(double[] days, double[] values) {
            int n = days.length;
            double meanDay = 0;
            double meanValue = 0;
            for (int i = 0; i < n; i++) {
                meanDay += days[i] / n;
                meanValue += values[i] / n;
            }
            double square = 0;
            double product = 0;
            for (int i = 0; i < n; i++) {
                square += (days[i] - meanDay) * (days[i] - meanDay);
                product += (days[i] - meanDay) * (values[i] - meanValue);
            }
            double slope = product / square;
            double left = 0;
            for (int i = 0; i < n; i++) {
                double off = values[i] - meanValue - slope * (days[i] - meanDay);
                left += off * off;
            }
            return new Line(meanDay, meanValue, slope, square, n > 2 ? StrictMath.sqrt(left / (n - 2)) : 0, n);
        }

        double at(double day) {
            return meanValue + slope * (day - meanDay);
        }

        /** Half-width of the interval for one further figure. */
        double doubt(double day) {
            double away = day - meanDay;
            return CoverageFactor.of(count - 2.0) * scatter * StrictMath.sqrt(1 + 1.0 / count + away * away / square);
        }
    }

    /**
     * The trend of readings of one figure of one steriliser.
     *
     * @param all in any order, at least one; of several on one day the worst counts
     */
    public static Trend of(List<FigureReading> all) {
        TreeMap<LocalDate, FigureReading> byDay = new TreeMap<>();
        for (FigureReading reading : all) {
            byDay.merge(
                    reading.day(),
                    reading,
                    (one, other) ->
                            one.limit().margin(one.value()) <= other.limit().margin(other.value()) ? one : other);
        }
        List<FigureReading> readings = byDay.values().stream()
                .sorted(Comparator.comparing(FigureReading::day))
                .toList();
        FigureReading last = readings.get(readings.size() - 1);
        LocalDate first = readings.get(0).day();
        double[] days = readings.stream()
                .mapToDouble(reading -> ChronoUnit.DAYS.between(first, reading.day()))
                .toArray();
        double[] values = readings.stream().mapToDouble(FigureReading::value).toArray();
        if (readings.size() < 2) {
            return new Trend(
                    readings,
                    Double.NaN,
                    last.isOver() ? new Course.Over() : new Course.NotKnown("one visit only, three are needed"));
        }
        Line line = Line.through(days, values);
        double perYear = line.slope() * DAYS_PER_YEAR;
        if (last.isOver()) {
            return new Trend(readings, perYear, new Course.Over());
        }
        if (readings.size() < FEWEST) {
            return new Trend(readings, perYear, new Course.NotKnown("two visits only, three are needed"));
        }
        return new Trend(readings, perYear, course(line, last, first));
    }

    private static Course course(Line line, FigureReading last, LocalDate first) {
        double sign = last.isWorseAbove() ? 1 : -1;
        double limit = last.limit().value();
        long start = ChronoUnit.DAYS.between(first, last.day()) + 1;
        Optional<LocalDate> meets = Optional.empty();
        Optional<LocalDate> earliest = Optional.empty();
        for (long day = start; day < start + FARTHEST_DAYS && (meets.isEmpty() || earliest.isEmpty()); day++) {
            double likely = sign * (line.at(day) - limit);
            if (meets.isEmpty() && sign * line.slope() > 0 && likely >= 0) {
                meets = Optional.of(first.plusDays(day));
            }
            if (earliest.isEmpty() && likely + line.doubt(day) >= 0) {
                earliest = Optional.of(first.plusDays(day));
            }
        }
        return meets.isEmpty() && (earliest.isEmpty() || sign * line.slope() <= 0)
                ? new Course.Away()
                : new Course.Nearing(meets, earliest);
    }

    /** The last reading. */
    public FigureReading last() {
        return readings.get(readings.size() - 1);
    }
}
