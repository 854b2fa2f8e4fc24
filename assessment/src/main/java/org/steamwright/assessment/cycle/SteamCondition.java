package org.steamwright.assessment.cycle;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.steam.ResidualAir;
import org.steamwright.assessment.steam.SaturationCurve;

/**
 * Measured against theoretical temperature at the worst instants of the holding time.
 *
 * @param coldestDifference most negative (measured − theoretical) in kelvin
 * @param coldestChannel where
 * @param coldestSeconds when
 * @param residualAirPercent air share of the gas there that would explain it by Dalton's law, in percent of the pressure;
 *     0 if nothing is missing
 * @param hottestDifference most positive (measured − theoretical) in kelvin: superheat if it is large
 * @param hottestChannel where
 * @param hottestSeconds when
 */
public record SteamCondition(
        double coldestDifference,
        String coldestChannel,
        double coldestSeconds,
        double residualAirPercent,
        double hottestDifference,
        String hottestChannel,
        double hottestSeconds) {

    /**
     * Compares every point with the theoretical temperature at the points' own samples.
     *
     * @param measured points in the chamber
     * @param theoretical saturation temperature of the measured pressure
     * @param pressure absolute, in kilopascal
     * @param curve formula in use
     * @param holding where to look
     * @return empty if no point has a value beside a theoretical one
     */
    public static Optional<SteamCondition> of(
            List<CorrectedChannel> measured,
            CorrectedChannel theoretical,
            CorrectedChannel pressure,
            SaturationCurve curve,
            Stretch holding) {
        double coldest = Double.POSITIVE_INFINITY;
        double hottest = Double.NEGATIVE_INFINITY;
        String coldestChannel = "";
        String hottestChannel = "";
        double coldestSeconds = 0;
        double hottestSeconds = 0;
        double air = 0;
        for (CorrectedChannel channel : measured) {
            int to = channel.axis().indexAtOrBefore(holding.toSeconds());
            for (int i = channel.axis().indexAtOrAfter(holding.fromSeconds()); i <= to; i++) {
                double moment = channel.axis().at(i);
                double difference = channel.at(i) - theoretical.valueAt(moment);
                if (difference < coldest) {
                    coldest = difference;
                    coldestChannel = channel.name();
                    coldestSeconds = moment;
                    air = ResidualAir.percent(pressure.valueAt(moment), channel.at(i), curve);
                }
                if (difference > hottest) {
                    hottest = difference;
                    hottestChannel = channel.name();
                    hottestSeconds = moment;
                }
            }
        }
        if (coldestChannel.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new SteamCondition(
                coldest, coldestChannel, coldestSeconds, air, hottest, hottestChannel, hottestSeconds));
    }

    /** The larger of the two distances from the theoretical temperature, in kelvin. */
    public double largestDifference() {
        return Math.max(-coldestDifference, hottestDifference);
    }

    /** Whether the coldest point is farther from the theoretical temperature than the hottest. */
    public boolean isColdWorse() {
        return -coldestDifference >= hottestDifference;
    }
}
