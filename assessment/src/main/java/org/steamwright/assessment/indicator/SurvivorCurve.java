package org.steamwright.assessment.indicator;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Survivors counted after different times at one temperature, and the straight line through their logarithms.
 *
 * @param counts in any order; the same time may stand several times
 */
public record SurvivorCurve(List<Count> counts) {

    /** Probability below which a bend or a misfit is no longer taken for chance. Common practice, no source. */
    private static final double CHANCE = 0.05;

    private static final int LEAST_POINTS = 3;

    /** A sum of squares smaller than this share of the whole is binary noise. */
    private static final double NOISE = 1e-24;

    /**
     * One count.
     *
     * @param minutes at the temperature
     * @param decades logarithm to base ten of the survivors, or of their share of the start
     */
    public record Count(double minutes, double decades) {
        public Count {
            if (!(minutes >= 0) || !Double.isFinite(minutes) || !Double.isFinite(decades)) {
                throw new IllegalArgumentException(
                        "a count of %s decades after %s min; a count of none has no logarithm"
                                .formatted(decades, minutes));
            }
        }
    }

    /** How the curve departs from a straight line. */
    public enum Shape {
        /** No departure that chance would not explain. */
        STRAIGHT("straight"),
        /** Slow at first, faster later: a line reads D too short for the start. */
        SHOULDER("shoulder"),
        /** Fast at first, slower later: a line reads too hopeful for the end. */
        TAIL("tail"),
        /** Bent in both ways, or scattered more between times than within them. */
        MISFIT("misfit"),
        /** Too few times to tell. */
        NOT_TOLD("not told");

        private final String words;

        Shape(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /**
     * A straight line and what speaks for and against it.
     *
     * @param minutes D-value with its interval; the interval's high end is infinite if a level line can't be excluded
     * @param startDecades where the line begins
     * @param residual standard deviation of the counts about the line, in decades
     * @param degreesOfFreedom of it
     * @param bendProbability that chance alone bends as much; NaN if not told
     * @param misfitProbability that chance alone misses the means of repeated times as much; NaN without repeats
     * @param shape what follows from the two
     */
    public record Line(
            Estimate minutes,
            double startDecades,
            double residual,
            int degreesOfFreedom,
            double bendProbability,
            double misfitProbability,
            Shape shape) {}

    public SurvivorCurve {
        counts = List.copyOf(counts);
        if (counts.size() < LEAST_POINTS
                || counts.stream().mapToDouble(Count::minutes).distinct().count() < 2) {
            throw new IllegalArgumentException("a survivor curve needs three counts at two times at least");
        }
    }

    /**
     * The least-squares line with a free start.
     *
     * @throws IllegalArgumentException if the counts do not fall
     * @source ordinary least squares; D = −1/slope, the interval from that of the slope by Student's t
     */
    public Line line() {
        double n = counts.size();
        double meanTime = counts.stream().mapToDouble(Count::minutes).sum() / n;
        double meanDecades = counts.stream().mapToDouble(Count::decades).sum() / n;
        double squares = 0;
        double products = 0;
        for (Count count : counts) {
            double t = count.minutes - meanTime;
            squares += t * t;
            products += t * (count.decades - meanDecades);
        }
        double slope = products / squares;
        return line(slope, meanDecades - slope * meanTime, squares, counts.size() - 2);
    }

    /**
     * The least-squares line through a known start.
     *
     * @param startDecades logarithm of the population, 0 if the counts are shares of it
     * @throws IllegalArgumentException if the counts do not fall
     * @source least squares through a fixed point
     */
    public Line lineFrom(double startDecades) {
        double squares = 0;
        double products = 0;
        for (Count count : counts) {
            squares += count.minutes * count.minutes;
            products += count.minutes * (count.decades - startDecades);
        }
        return line(products / squares, startDecades, squares, counts.size() - 1);
    }

    private Line line(double slope, double start, double squares, int degrees) {
        if (!(slope < 0)) {
            throw new IllegalArgumentException(
                    "the counts do not fall (%s decades per minute), so there is no D-value".formatted(slope));
        }
        double sum = 0;
        for (Count count : counts) {
            double rest = count.decades - start - slope * count.minutes;
            sum += rest * rest;
        }
        double residual = Math.sqrt(sum / degrees);
        double half = Beta.studentQuantile(CHANCE, degrees) * residual / Math.sqrt(squares);
        Estimate minutes = new Estimate(
                -1 / slope, 1 / (-slope + half), -slope > half ? 1 / (-slope - half) : Double.POSITIVE_INFINITY);
        double bend = bend();
        double probability = bendProbability(bend);
        double misfit = misfitProbability(sum, degrees);
        return new Line(minutes, start, residual, degrees, probability, misfit, shape(bend, probability, misfit));
    }

    private static Shape shape(double bend, double bendProbability, double misfitProbability) {
        if (bendProbability < CHANCE) {
            return bend < 0 ? Shape.SHOULDER : Shape.TAIL;
        }
        if (misfitProbability < CHANCE) {
            return Shape.MISFIT;
        }
        return Double.isNaN(bendProbability) ? Shape.NOT_TOLD : Shape.STRAIGHT;
    }

    /** Times scaled to −1 … 1, and from them the part of their squares that no straight line holds. */
    private double[] bends() {
        double first = counts.stream().mapToDouble(Count::minutes).min().orElseThrow();
        double last = counts.stream().mapToDouble(Count::minutes).max().orElseThrow();
        int n = counts.size();
        double[] time = new double[n];
        double[] bent = new double[n];
        for (int i = 0; i < n; i++) {
            time[i] = 2 * (counts.get(i).minutes - first) / (last - first) - 1;
            bent[i] = time[i] * time[i];
        }
        return rest(time, bent);
    }

    /** What is left of {@code values} after their own straight line over {@code time}. */
    private static double[] rest(double[] time, double[] values) {
        int n = time.length;
        double meanTime = 0;
        double mean = 0;
        for (int i = 0; i < n; i++) {
            meanTime += time[i] / n;
            mean += values[i] / n;
        }
        double squares = 0;
        double products = 0;
        for (int i = 0; i < n; i++) {
            squares += (time[i] - meanTime) * (time[i] - meanTime);
            products += (time[i] - meanTime) * (values[i] - mean);
        }
        double[] left = new double[n];
        for (int i = 0; i < n; i++) {
            left[i] = values[i] - mean - products / squares * (time[i] - meanTime);
        }
        return left;
    }

    /** Coefficient of the square of time, scaled; negative bends down. */
    private double bend() {
        double[] bends = bends();
        double squares = 0;
        double products = 0;
        for (int i = 0; i < bends.length; i++) {
            squares += bends[i] * bends[i];
            products += bends[i] * counts.get(i).decades;
        }
        return squares < NOISE * bends.length ? 0 : products / squares;
    }

    /**
     * Probability that chance alone bends the counts as much: the t-test of the coefficient of the square.
     *
     * @source Frisch–Waugh: the coefficient equals that of the square's own residual; Student's t with n − 3 degrees
     */
    private double bendProbability(double bend) {
        int degrees = counts.size() - 3;
        if (degrees < 1
                || counts.stream().mapToDouble(Count::minutes).distinct().count() < LEAST_POINTS) {
            return Double.NaN;
        }
        double[] bends = bends();
        double[] time = counts.stream().mapToDouble(Count::minutes).toArray();
        double[] rest = rest(time, counts.stream().mapToDouble(Count::decades).toArray());
        double squares = 0;
        double left = 0;
        double whole = 0;
        for (int i = 0; i < bends.length; i++) {
            double own = rest[i] - bend * bends[i];
            squares += bends[i] * bends[i];
            left += own * own;
            whole += counts.get(i).decades * counts.get(i).decades;
        }
        double explained = bend * bend * squares;
        if (explained <= NOISE * whole) {
            return 1;
        }
        return left <= NOISE * whole ? 0 : Beta.studentTails(Math.sqrt(explained / (left / degrees)), degrees);
    }

    /**
     * Probability that chance alone misses the means of repeated times as much: the F-test of the lack of fit.
     *
     * @source residual sum split into pure error within times and lack of fit between them
     */
    private double misfitProbability(double residualSum, int degrees) {
        Map<Double, double[]> byTime = new TreeMap<>();
        for (Count count : counts) {
            double[] sums = byTime.computeIfAbsent(count.minutes, time -> new double[2]);
            sums[0] += 1;
            sums[1] += count.decades;
        }
        int pureDegrees = counts.size() - byTime.size();
        int lackDegrees = degrees - pureDegrees;
        if (pureDegrees < 1 || lackDegrees < 1) {
            return Double.NaN;
        }
        double pure = 0;
        for (Count count : counts) {
            double[] sums = byTime.getOrDefault(count.minutes, new double[] {1, count.decades});
            double own = count.decades - sums[1] / sums[0];
            pure += own * own;
        }
        double lack = Math.max(0, residualSum - pure);
        return pure == 0
                ? Double.NaN
                : Beta.fisherTail(lack / lackDegrees / (pure / pureDegrees), lackDegrees, pureDegrees);
    }
}
