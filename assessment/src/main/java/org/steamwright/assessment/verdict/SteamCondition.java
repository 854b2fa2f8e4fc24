package org.steamwright.assessment.verdict;

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
        double hottestSeconds) {}
