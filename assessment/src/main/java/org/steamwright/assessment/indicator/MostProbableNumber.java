package org.steamwright.assessment.indicator;

import java.util.List;

/**
 * How many living cells there are, judged from growth and no growth in a row of dilutions.
 *
 * @param dilutions groups of tubes, each group with its own amount
 */
public record MostProbableNumber(List<Dilution> dilutions) {

    private static final double SEARCH = 60;

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
    }

    /**
     * Number per unit of amount that makes what was seen most probable, with the interval of the likelihood ratio. Zero if
     * no tube grew, infinite if every tube did; the other end of the interval is told even then.
     *
     * @source maximum likelihood of the Poisson model; check value 221. The interval is that of the likelihood ratio with
     *     95 %, an approximation for few tubes: published tables differ among themselves by up to a factor of two
     */
    public Estimate estimate() {
        QuantalLikelihood likelihood = new QuantalLikelihood(dilutions.stream()
                .map(d -> new QuantalLikelihood.Group(StrictMath.log(d.amount), 1, d.tubes, d.tubes - d.positives))
                .toList());
        double middle = -StrictMath.log(
                dilutions.stream().mapToDouble(Dilution::amount).max().orElseThrow());
        double least = middle - SEARCH;
        double most = middle + SEARCH;
        boolean isNone = dilutions.stream().allMatch(d -> d.positives == 0);
        boolean isAll = dilutions.stream().allMatch(d -> d.positives == d.tubes);
        // at the far ends the likelihood of what was seen is 1
        if (isNone) {
            return new Estimate(0, 0, StrictMath.exp(likelihood.end(0, least, most)));
        }
        if (isAll) {
            return new Estimate(
                    Double.POSITIVE_INFINITY, StrictMath.exp(likelihood.end(0, most, least)), Double.POSITIVE_INFINITY);
        }
        double summit = likelihood.summit(least, most);
        return new Estimate(
                StrictMath.exp(summit),
                StrictMath.exp(likelihood.end(summit, least)),
                StrictMath.exp(likelihood.end(summit, most)));
    }
}
