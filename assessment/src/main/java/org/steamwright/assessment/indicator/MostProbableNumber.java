package org.steamwright.assessment.indicator;

import java.util.List;

/**
 * How many living cells there are, judged from growth and no growth in a row of dilutions.
 *
 * @param dilutions groups of tubes, each group with its own amount
 */
public record MostProbableNumber(List<Dilution> dilutions) {

    /** How far around the largest amount the number is looked for, as its natural logarithm. */
    private static final double SEARCH = 60;

    /** Probability left outside on either side. */
    private static final double OUTSIDE = 0.025;

    private static final double ROUNDING = 1e-9;
    private static final int HALVINGS = 60;

    /** More outcomes than this would take minutes to go through. */
    private static final double MOST_OUTCOMES = 200_000;

    /**
     * A group of tubes with the same amount of the sample.
     *
     * @param amount in each tube, in any unit, positive; the number found counts per this unit
     * @param tubes how many, at least one
     * @param positives those with growth
     */
    public record Dilution(double amount, int tubes, int positives) {
        public Dilution {
            if (!(amount > 0) || !Double.isFinite(amount) || tubes < 1 || positives < 0 || positives > tubes) {
                throw new IllegalArgumentException(
                        "%s of %s tubes grew with %s in each; amounts and tubes are positive, no more grow than there are"
                                .formatted(positives, tubes, amount));
            }
        }
    }

    public MostProbableNumber {
        dilutions = List.copyOf(dilutions);
        if (dilutions.isEmpty()) {
            throw new IllegalArgumentException("no dilution, so no number");
        }
        double outcomes = 1;
        for (Dilution dilution : dilutions) {
            outcomes *= dilution.tubes + 1.0;
        }
        if (outcomes > MOST_OUTCOMES) {
            throw new IllegalArgumentException(
                    "so many tubes have more than 200000 outcomes; leave out dilutions in which all or none grew");
        }
    }

    /**
     * Number per unit of amount that makes what was seen most probable, with its exact interval: beyond either end, what was
     * seen or anything farther would happen in less than 2.5 % of all cases. Zero if no tube grew, infinite if every tube
     * did; the other end is told even then.
     *
     * @source maximum likelihood of the Poisson model; check value 221. The interval is that of Clopper and Pearson with the
     *     outcomes in the order of their most probable numbers; published tables use other conventions, so their ends differ
     */
    public Estimate estimate() {
        boolean isNone = dilutions.stream().allMatch(d -> d.positives == 0);
        boolean isAll = dilutions.stream().allMatch(d -> d.positives == d.tubes);
        double middle = -StrictMath.log(
                dilutions.stream().mapToDouble(Dilution::amount).max().orElseThrow());
        double summit = isNone || isAll
                ? middle
                : new QuantalLikelihood(dilutions.stream()
                                .map(d -> new QuantalLikelihood.Group(
                                        StrictMath.log(d.amount), 1, d.tubes, d.tubes - d.positives))
                                .toList())
                        .summit(middle - SEARCH, middle + SEARCH);
        double number = StrictMath.exp(summit);
        double[] weights = dilutions.stream()
                .mapToDouble(d -> d.amount * number / -StrictMath.expm1(-d.amount * number))
                .toArray();
        double score = 0;
        for (int i = 0; i < weights.length; i++) {
            score += weights[i] * dilutions.get(i).positives;
        }
        double low = isNone ? 0 : end(middle, weights, score, true);
        double high = isAll ? Double.POSITIVE_INFINITY : end(middle, weights, score, false);
        return new Estimate(isNone ? 0 : isAll ? Double.POSITIVE_INFINITY : number, low, high);
    }

    private double end(double middle, double[] weights, double score, boolean isLow) {
        double below = middle - SEARCH;
        double above = middle + SEARCH;
        for (int i = 0; i < HALVINGS; i++) {
            double half = (below + above) / 2;
            double chance = chance(StrictMath.exp(half), weights, score, isLow);
            // what was seen or more becomes likelier with the number, what was seen or less rarer
            if (isLow == chance < OUTSIDE) {
                below = half;
            } else {
                above = half;
            }
        }
        return StrictMath.exp((below + above) / 2);
    }

    /** Chance of an outcome at least as far up, or down, as what was seen. */
    private double chance(double number, double[] weights, double score, boolean isUp) {
        double[][] shares = new double[dilutions.size()][];
        for (int i = 0; i < shares.length; i++) {
            shares[i] = binomial(dilutions.get(i).tubes, -StrictMath.expm1(-dilutions.get(i).amount * number));
        }
        // outcomes that differ only by rounding count as equal
        double edge = isUp ? score * (1 - ROUNDING) : score * (1 + ROUNDING);
        return sum(shares, weights, 0, 0, 1, edge, isUp);
    }

    private static double sum(
            double[][] shares, double[] weights, int group, double score, double chance, double edge, boolean isUp) {
        if (group == shares.length) {
            return (isUp ? score >= edge : score <= edge) ? chance : 0;
        }
        double sum = 0;
        for (int grown = 0; grown < shares[group].length; grown++) {
            sum += sum(
                    shares,
                    weights,
                    group + 1,
                    score + weights[group] * grown,
                    chance * shares[group][grown],
                    edge,
                    isUp);
        }
        return sum;
    }

    /** Probabilities of 0 to n hits, each from its logarithm, so that none is lost on the way. */
    private static double[] binomial(int n, double hit) {
        double[] shares = new double[n + 1];
        double logChoices = 0;
        for (int k = 0; k <= n; k++) {
            double hits = k == 0 ? 0 : k * StrictMath.log(hit);
            double misses = k == n ? 0 : (n - k) * StrictMath.log1p(-hit);
            shares[k] = StrictMath.exp(logChoices + hits + misses);
            logChoices += StrictMath.log((double) (n - k) / (k + 1));
        }
        return shares;
    }
}
