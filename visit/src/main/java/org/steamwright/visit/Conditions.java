package org.steamwright.visit;

import java.util.Optional;

/**
 * Conditions of the day. Blank or empty was not stated.
 *
 * @param barometerKilopascal ambient pressure read at the site
 * @param barometerSource instrument or service
 * @param altitudeMetres of the site
 * @param roomCelsius room temperature
 * @param roomHumidityPercent relative humidity
 * @param supplyVoltage mains voltage in volt
 * @param waterConductivity of the feed water, in microsiemens per centimetre
 */
public record Conditions(
        Optional<Double> barometerKilopascal,
        String barometerSource,
        Optional<Double> altitudeMetres,
        Optional<Double> roomCelsius,
        Optional<Double> roomHumidityPercent,
        Optional<Double> supplyVoltage,
        Optional<Double> waterConductivity) {

    /** Nothing was stated. */
    public static final Conditions UNSTATED = new Conditions(
            Optional.empty(),
            "",
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
}
