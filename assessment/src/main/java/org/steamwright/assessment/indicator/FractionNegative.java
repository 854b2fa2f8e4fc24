package org.steamwright.assessment.indicator;

import java.util.ArrayList;
import java.util.List;

/**
 * A fraction-negative experiment: groups of like indicators exposed for different times at one temperature, and how many of
 * each group did not grow. It yields the D-value where there are too few survivors to be counted.
 *
 * <p>Every method takes the population as exact; its doubt comes on top. The three answers are compared, never averaged.
 *
 * @param exposures in rising order of time
 */
public record FractionNegative(List<Exposure> exposures) {

    /**
     * Euler's constant over ln 10, rounded as the standard prints it: how far in decades the mean time to sterility lies
     * beyond the time that leaves one survivor per unit.
     *
     * @source ISO 11138-1, annex D (a national edition, ГОСТ ISO 11138-1-2012, excerpt seen)
     */
    private static final double BEYOND_ONE_DECADES = 0.2507;

    /** Half-width of an interval of 95 % in standard uncertainties, for a normal distribution. */
    private static final double NORMAL_95 = 1.959963984540054;

    private static final double OUTSIDE = 0.05;

    private static final double SAME_STEP = 1e-9;

    private static final double LN_10 = StrictMath.log(10);

    /**
     * A group of indicators exposed together.
     *
     * @param minutes at the temperature, not negative
     * @param replicates how many, at least one
     * @param negatives those without growth
     */
    public record Exposure(double minutes, int replicates, int negatives) {
        public Exposure {
            if (!(minutes >= 0)
                    || !Double.isFinite(minutes)
                    || replicates < 1
                    || negatives < 0
                    || negatives > replicates) {
                throw new IllegalArgumentException(
                        "%s of %s without growth after %s min; times are not negative, no more are without growth than there are"
                                .formatted(negatives, replicates, minutes));
            }
        }

        boolean isAllGrown() {
            return negatives == 0;
        }

        boolean isNoneGrown() {
            return negatives == replicates;
        }

        double share() {
            return (double) negatives / replicates;
        }
    }

    public FractionNegative {
        exposures = List.copyOf(exposures);
        for (int i = 1; i < exposures.size(); i++) {
            if (!(exposures.get(i).minutes > exposures.get(i - 1).minutes)) {
                throw new IllegalArgumentException(
                        "an exposure of %s min after one of %s min; each time once, in rising order"
                                .formatted(exposures.get(i).minutes, exposures.get(i - 1).minutes));
            }
        }
        if (exposures.stream().allMatch(Exposure::isAllGrown)
                || exposures.stream().allMatch(Exposure::isNoneGrown)) {
            throw new IllegalArgumentException(
                    "all grew or none did in every exposure; a D-value needs both growth and no growth");
        }
    }

    /**
     * D-value by the method of Holcomb, Spearman and Kärber, in minutes. Steps and numbers of replicates may differ.
     *
     * @param population spores per unit before exposure
     * @throws IllegalArgumentException if the row does not reach from 'all grew' to 'none grew', if no exposure lies between,
     *     or if one of those has a single replicate
     * @source U = Σ (t_i + t_{i+1})/2 · (p_{i+1} − p_i), D = U / (lg N0 + 0.2507): ISO 11138-1, annex D (seen in excerpt for
     *     the limited form; the general form on a secondary page); variance Σ ((t_{i+1} − t_{i−1})/2)² · r (n − r) / (n² (n −
     *     1)), the limited form's made general; interval of 1.96 standard deviations
     */
    public Estimate spearmanKarber(double population) {
        return meanTimeToSterility().dividedBy(decades(population) + BEYOND_ONE_DECADES);
    }

    /**
     * D-value by the limited method, in minutes: equal steps and equal numbers of replicates.
     *
     * @param population spores per unit before exposure
     * @throws IllegalArgumentException as {@link #spearmanKarber}, and if steps or numbers of replicates differ
     * @source U = U_k − d/2 − d/n · Σ r_i, V = d² / (n² (n − 1)) · Σ r_i (n − r_i): ISO 11138-1, annex D (a national
     *     edition, ГОСТ ISO 11138-1-2012, excerpt seen)
     */
    public Estimate limitedSpearmanKarber(double population) {
        List<Exposure> row = quantalRow();
        double step = row.get(1).minutes - row.get(0).minutes;
        int replicates = row.get(0).replicates;
        for (int i = 1; i < row.size(); i++) {
            if (Math.abs(row.get(i).minutes - row.get(i - 1).minutes - step) > SAME_STEP * step
                    || row.get(i).replicates != replicates) {
                throw new IllegalArgumentException(
                        "the limited method needs equal steps and equal numbers of replicates between %s and %s min"
                                .formatted(row.get(0).minutes, row.get(row.size() - 1).minutes));
            }
        }
        double sum = 0;
        double spread = 0;
        for (Exposure exposure : row.subList(0, row.size() - 1)) {
            sum += exposure.negatives;
            spread += (double) exposure.negatives * (replicates - exposure.negatives);
        }
        double mean = row.get(row.size() - 1).minutes - step / 2 - step / replicates * sum;
        double variance = step * step / ((double) replicates * replicates * (replicates - 1)) * spread;
        return Estimate.around(mean, NORMAL_95 * Math.sqrt(variance))
                .dividedBy(decades(population) + BEYOND_ONE_DECADES);
    }

    /** Mean time to sterility by Spearman and Kärber, in minutes, with its interval; see {@link #spearmanKarber}. */
    public Estimate meanTimeToSterility() {
        List<Exposure> row = quantalRow();
        double mean = 0;
        double variance = 0;
        for (int i = 0; i + 1 < row.size(); i++) {
            mean += (row.get(i).minutes + row.get(i + 1).minutes)
                    / 2
                    * (row.get(i + 1).share() - row.get(i).share());
        }
        for (int i = 1; i + 1 < row.size(); i++) {
            Exposure here = row.get(i);
            double half = (row.get(i + 1).minutes - row.get(i - 1).minutes) / 2;
            variance += half * half * here.share() * (1 - here.share()) / (here.replicates - 1);
        }
        return Estimate.around(mean, NORMAL_95 * Math.sqrt(variance));
    }

    /** From the longest exposure that all survived, none before having failed to, to the first after which none grew. */
    private List<Exposure> quantalRow() {
        int from = -1;
        while (from + 1 < exposures.size() && exposures.get(from + 1).isAllGrown()) {
            from++;
        }
        int to = exposures.size();
        while (to > 0 && exposures.get(to - 1).isNoneGrown()) {
            to--;
        }
        if (from < 0 || to == exposures.size()) {
            throw new IllegalArgumentException(
                    "the row has to begin with an exposure that all survived and to end with one that none did");
        }
        List<Exposure> row = exposures.subList(from, to + 1);
        if (row.subList(1, row.size() - 1).stream().noneMatch(e -> !e.isAllGrown() && !e.isNoneGrown())) {
            throw new IllegalArgumentException(
                    "no exposure between %s and %s min left some grown and some not, so the interval can't be told"
                            .formatted(row.get(0).minutes, row.get(row.size() - 1).minutes));
        }
        if (row.stream().anyMatch(e -> e.replicates < 2)) {
            throw new IllegalArgumentException("an exposure with a single replicate says nothing about the spread");
        }
        return row;
    }

    /**
     * D-value by the method of Stumbo, Murphy and Cochran, in minutes: the mean over the exposures that left some grown and
     * some not.
     *
     * @param population spores per unit before exposure
     * @throws IllegalArgumentException if there is no such exposure
     * @source D = t / (lg N0 − lg ln(n/r)), averaged over the exposures: J. C. Lewis, The estimation of decimal reduction
     *     times, Appl. Microbiol. 4 (1956) 211, equation (3) and text (first page seen). Its interval is our own: the exact
     *     one of each share r/n, carried through the formula and joined as independent
     */
    public Estimate stumboMurphyCochran(double population) {
        List<Estimate> single = new ArrayList<>();
        for (Exposure exposure : exposures) {
            if (!exposure.isAllGrown() && !exposure.isNoneGrown()) {
                double[] share = Beta.share(exposure.negatives, exposure.replicates, OUTSIDE);
                single.add(new Estimate(
                        single(exposure.minutes, exposure.share(), population),
                        single(exposure.minutes, share[1], population),
                        single(exposure.minutes, share[0], population)));
            }
        }
        if (single.isEmpty()) {
            throw new IllegalArgumentException("no exposure left some grown and some not");
        }
        double sum = 0;
        double below = 0;
        double above = 0;
        for (Estimate one : single) {
            sum += one.value();
            below += (one.value() - one.low()) * (one.value() - one.low());
            above += (one.high() - one.value()) * (one.high() - one.value());
        }
        double mean = sum / single.size();
        return new Estimate(mean, mean - Math.sqrt(below) / single.size(), mean + Math.sqrt(above) / single.size());
    }

    /** The larger the share without growth, the fewer survived, the smaller D. */
    private static double single(double minutes, double share, double population) {
        double fallen = decades(population) - StrictMath.log10(-StrictMath.log(share));
        if (!(fallen > 0)) {
            throw new IllegalArgumentException(
                    "after %s min more spores seem to live than the population of %s; the population is stated too low"
                            .formatted(minutes, population));
        }
        return minutes / fallen;
    }

    /**
     * D-value that makes all that was seen most probable, in minutes. It needs neither equal steps nor both ends of the row.
     *
     * @param population spores per unit before exposure
     * @source maximum likelihood of P(no growth) = exp(−N0 · 10^(−t/D)); interval of the likelihood ratio with 95 %
     */
    public Estimate mostLikely(double population) {
        double start = LN_10 * decades(population);
        QuantalLikelihood likelihood = new QuantalLikelihood(exposures.stream()
                .filter(e -> e.minutes > 0)
                .map(e -> new QuantalLikelihood.Group(start, -LN_10 * e.minutes, e.replicates, e.negatives))
                .toList());
        double longest = exposures.get(exposures.size() - 1).minutes;
        double shortest = exposures.stream()
                .mapToDouble(Exposure::minutes)
                .filter(t -> t > 0)
                .min()
                .orElseThrow(() -> new IllegalArgumentException("nothing was exposed for any time"));
        // decades per minute: from next to nothing to far more than would kill all in the shortest exposure
        double slowest = SAME_STEP / longest;
        double fastest = 10 * (decades(population) + 10) / shortest;
        double summit = likelihood.summit(slowest, fastest);
        return new Estimate(1 / summit, 1 / likelihood.end(summit, fastest), 1 / likelihood.end(summit, slowest));
    }

    private static double decades(double population) {
        if (!(population > 1) || !Double.isFinite(population)) {
            throw new IllegalArgumentException(
                    "a population of %s; more than one spore is needed".formatted(population));
        }
        return StrictMath.log10(population);
    }
}
