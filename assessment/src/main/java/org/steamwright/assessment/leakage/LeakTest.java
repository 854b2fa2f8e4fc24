package org.steamwright.assessment.leakage;

import java.util.Optional;
import org.steamwright.assessment.quantity.LeakRate;
import org.steamwright.assessment.quantity.Temperature;

/**
 * An air leakage test: the pressures at isolation, after settling and at the end, and the rise between the last two.
 *
 * @param isolationSeconds end of evacuation, seconds from the start of the run
 * @param settledSeconds end of settling, start of measuring
 * @param endSeconds end of measuring
 * @param isolationKilopascal absolute pressure at isolation
 * @param settledKilopascal absolute pressure after settling
 * @param endKilopascal absolute pressure at the end
 * @param settledCelsius chamber temperature after settling; empty if not recorded
 * @param endCelsius chamber temperature at the end; empty if not recorded
 * @param isDeclared whether somebody declared the periods; otherwise they were found in the trace
 * @source formula as in the check values 93 to 98; correction by the ideal gas law
 */
public record LeakTest(
        double isolationSeconds,
        double settledSeconds,
        double endSeconds,
        double isolationKilopascal,
        double settledKilopascal,
        double endKilopascal,
        Optional<Double> settledCelsius,
        Optional<Double> endCelsius,
        boolean isDeclared) {

    /** Seconds of a minute. */
    public static final double SECONDS_PER_MINUTE = 60.0;

    public LeakTest {
        if (!(settledSeconds >= isolationSeconds) || !(endSeconds > settledSeconds)) {
            throw new IllegalArgumentException("leak test out of order: isolated %s s, settled %s s, end %s s"
                    .formatted(isolationSeconds, settledSeconds, endSeconds));
        }
    }

    /** Length of settling in seconds. */
    public double settlingPeriodSeconds() {
        return settledSeconds - isolationSeconds;
    }

    /** Length of measuring in seconds. */
    public double measuringPeriodSeconds() {
        return endSeconds - settledSeconds;
    }

    /** Rise while settling, in kilopascal: a large one is the sign of a wet chamber. */
    public double settlingRiseKilopascal() {
        return settledKilopascal - isolationKilopascal;
    }

    /** Rise per minute as measured. */
    public LeakRate rate() {
        return new LeakRate(SECONDS_PER_MINUTE * (endKilopascal - settledKilopascal) / measuringPeriodSeconds());
    }

    /** Rise per minute with the end pressure brought to the temperature after settling; empty without temperatures. */
    public Optional<LeakRate> temperatureCorrectedRate() {
        if (settledCelsius.isEmpty() || endCelsius.isEmpty()) {
            return Optional.empty();
        }
        double corrected = endKilopascal
                * Temperature.ofCelsius(settledCelsius.get()).kelvin()
                / Temperature.ofCelsius(endCelsius.get()).kelvin();
        return Optional.of(
                new LeakRate(SECONDS_PER_MINUTE * (corrected - settledKilopascal) / measuringPeriodSeconds()));
    }
}
