package org.steamwright.assessment.indicator;

import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.lethality.Lethality;

/**
 * What the temperature measured beside an indicator would have done to its spores in saturated steam. A supporting figure:
 * a thermometer sees neither air nor dryness, and no verdict rests on this.
 *
 * @param channel whose temperature was taken
 * @param lethality of it over the whole recording, at the reference temperature and z of the spores
 * @param decades expected fall of the spores, as logarithm to base ten
 * @param survivors expected number per unit; empty without a population
 * @param growth probability that a unit grows; empty without a population
 * @param isResistanceDoubtCounted whether the interval holds the doubt of the D-value too; else that of the temperature alone
 */
public record ExpectedReduction(
        String channel,
        Lethality lethality,
        Estimate decades,
        Optional<Estimate> survivors,
        Optional<Estimate> growth,
        boolean isResistanceDoubtCounted) {

    /** Half-width of the intervals in standard uncertainties. */
    private static final double COVERAGE = 2.0;

    private static final double ROOT_3 = Math.sqrt(3);

    /**
     * The expectation for an indicator beside a channel.
     *
     * <p>The doubt is combined on the logarithm of F / D, so that no end falls below zero: that of the channel from F with
     * every reading raised and lowered by its expanded uncertainty, that of sampling from F's own bounds as rectangular,
     * that of the D-value as stated. The doubt of the population is not in it.
     *
     * @param channel corrected, in the same place or declared for it
     * @param resistance as stated for the lot
     * @param population spores per unit; empty if not stated
     * @source F / D, N0 · 10^(−F/D), P = 1 − exp(−N) (Poisson): handbook sections 4 and 5; combination by JCGM 100:2008,
     *     equation (10), on logarithms
     */
    public static ExpectedReduction of(CorrectedChannel channel, Resistance resistance, Optional<Double> population) {
        Lethality measured = lethality(channel, resistance);
        double k = channel.expanded().coverageFactor();
        double raised = lethality(channel.shifted(channel.expanded().value()), resistance)
                .minutes();
        double lowered = lethality(channel.shifted(-channel.expanded().value()), resistance)
                .minutes();
        double relative = measured.minutes() > 0
                ? StrictMath.hypot(
                        StrictMath.hypot(
                                StrictMath.log(raised / lowered) / 2 / k,
                                (measured.highMinutes() - measured.lowMinutes()) / 2 / measured.minutes() / ROOT_3),
                        resistance.relativeUncertainty())
                : 0;
        double decades = measured.minutes() / resistance.decimalReductionMinutes();
        double factor = StrictMath.exp(COVERAGE * relative);
        Estimate fall = new Estimate(decades, decades / factor, decades * factor);
        Optional<Estimate> survivors = population.map(
                n -> new Estimate(survivors(n, fall.value()), survivors(n, fall.high()), survivors(n, fall.low())));
        return new ExpectedReduction(
                channel.name(),
                measured,
                fall,
                survivors,
                survivors.map(n -> new Estimate(grows(n.value()), grows(n.low()), grows(n.high()))),
                resistance.uncertainty().isPresent());
    }

    private static Lethality lethality(CorrectedChannel channel, Resistance resistance) {
        return Lethality.of(
                channel,
                resistance.referenceCelsius(),
                resistance.z(),
                channel.axis().first(),
                channel.axis().last());
    }

    private static double survivors(double population, double decades) {
        return population * StrictMath.pow(10, -decades);
    }

    private static double grows(double survivors) {
        return -StrictMath.expm1(-survivors);
    }
}
