package org.steamwright.visit.due;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steamwright.assessment.uncertainty.CoverageFactor;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Week;

/**
 * Foretells from the readings of a counter when a total is reached.
 *
 * <p>The cycles between two readings are held to be independent of those between two others, with a mean and a variance in
 * proportion to the working days between them. The average use is then the line through the readings that weights each
 * stretch by its length, and the counter after so many more working days lies within Student's factor times the scatter of the
 * stretches about that line. The total is reached within the interval in which that band crosses it. The scatter is never
 * taken smaller than that of single cycles begun at random.
 *
 * @source weighted least squares of a line through the origin, with its prediction interval, turned round for the date; textbook
 *     statistics, from memory. That the scatter has a floor: common practice, no source
 */
public final class CounterForecast {

    /** Fewer readings than these give no date. */
    public static final int FEWEST_READINGS = 3;

    /** Older readings than these before the last one no longer say how the machine is used. */
    static final int WINDOW_DAYS = 400;

    /** Working days beyond which nothing is foretold: some ten years. */
    private static final double FARTHEST = 2_500;

    private static final int MONTHS_BACK = 12;

    private final Counter counter;
    private final Week week;

    /** How a machine has been used lately; variance and mean are of one working day. */
    private record Pace(double mean, double variance, double workingDays, int stretches) {}

    public CounterForecast(Counter counter, Week week) {
        this.counter = counter;
        this.week = week;
    }

    /** When the counter reaches a total, counted through resets. */
    public Forecast reach(long total) {
        Optional<Counter.Total> seen = counter.firstAtLeast(total);
        if (seen.isPresent()) {
            return new Forecast.Reached(seen.get().on(), seen.get().cycles());
        }
        Optional<Pace> known = pace();
        if (known.isEmpty()) {
            return new Forecast.NotKnown(whyNot());
        }
        Pace pace = known.get();
        Counter.Total last = counter.last().orElseThrow();
        double distance = total - last.cycles();
        double factor = CoverageFactor.of(pace.stretches() - 1);
        // the band  mean·w ± factor·√(variance·(w + w²/W))  crosses the distance where  a·w² + b·w + c = 0
        double spread = factor * factor * pace.variance();
        double a = pace.mean() * pace.mean() - spread / pace.workingDays();
        double b = -(2 * pace.mean() * distance + spread);
        double c = distance * distance;
        double root = Math.sqrt(Math.max(0, b * b - 4 * a * c));
        double likely = distance / pace.mean();
        if (likely > FARTHEST) {
            return new Forecast.NotKnown("at the use seen so far it lies more than ten years ahead");
        }
        // where the band never gets above the distance it is reached at infinity
        double latest = Math.ceil((root - b) / (2 * Math.max(0, a)));
        return new Forecast.Expected(
                day(last.on(), likely),
                day(last.on(), 2 * c / (root - b)),
                latest > FARTHEST ? Optional.empty() : Optional.of(day(last.on(), latest)),
                pace.mean(),
                pace.stretches() + 1,
                last.on());
    }

    /** Cycles that a year of such use comes to; empty if the readings don't say. */
    public OptionalDouble cyclesPerYear() {
        Optional<Pace> known = pace();
        if (known.isEmpty()) {
            return OptionalDouble.empty();
        }
        LocalDate last = counter.last().orElseThrow().on();
        return OptionalDouble.of(known.get().mean() * week.workingDays(last.minusMonths(MONTHS_BACK), last));
    }

    private LocalDate day(LocalDate from, double workingDays) {
        return week.later(from, (long) Math.ceil(workingDays));
    }

    private Optional<Pace> pace() {
        List<double[]> stretches = stretches();
        if (stretches.size() < FEWEST_READINGS - 1) {
            return Optional.empty();
        }
        double days = 0;
        double cycles = 0;
        for (double[] stretch : stretches) {
            days += stretch[0];
            cycles += stretch[1];
        }
        if (cycles <= 0) {
            return Optional.empty();
        }
        double mean = cycles / days;
        double scatter = 0;
        for (double[] stretch : stretches) {
            double off = stretch[1] - mean * stretch[0];
            scatter += off * off / stretch[0];
        }
        double variance = Math.max(mean, scatter / (stretches.size() - 1));
        return Optional.of(new Pace(mean, variance, days, stretches.size()));
    }

    /** Working days and cycles between each two readings of the last year or so; days without work join the next stretch. */
    private List<double[]> stretches() {
        List<Counter.Total> totals = counter.totals();
        List<double[]> stretches = new ArrayList<>();
        LocalDate first =
                counter.last().map(total -> total.on().minusDays(WINDOW_DAYS)).orElse(LocalDate.MAX);
        Counter.Total before = null;
        for (Counter.Total total : totals) {
            if (total.on().isBefore(first)) {
                continue;
            }
            if (before == null) {
                before = total;
                continue;
            }
            long days = week.workingDays(before.on(), total.on());
            if (days > 0) {
                stretches.add(new double[] {days, total.cycles() - before.cycles()});
                before = total;
            }
        }
        return stretches;
    }

    private String whyNot() {
        int readings = counter.readings().size();
        if (readings < FEWEST_READINGS) {
            return readings == 1
                    ? "only 1 counter reading, at least " + FEWEST_READINGS + " are needed"
                    : "only " + readings + " counter readings, at least " + FEWEST_READINGS + " are needed";
        }
        return stretches().size() < FEWEST_READINGS - 1
                ? "fewer than " + FEWEST_READINGS + " counter readings of different working days in the " + WINDOW_DAYS
                        + " days up to the last"
                : "no cycle was run between the counter readings of the last " + WINDOW_DAYS + " days";
    }
}
