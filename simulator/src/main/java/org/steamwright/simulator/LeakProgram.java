package org.steamwright.simulator;

import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;

/**
 * An air leakage test: evacuate, isolate, settle, measure, let air in.
 *
 * @param name as the sterilizer calls it
 * @param depthKilopascal absolute pressure at isolation
 * @param settlingSeconds from isolation to the start of measuring
 * @param measuringSeconds length of measuring
 * @param leakKilopascalPerMinute rise of the pressure by leaking air at a constant temperature
 * @param waterKilopascal rise by water that evaporates while settling
 * @param waterSeconds time constant of that evaporation
 * @param startCelsius temperature of the chamber at isolation
 * @param kelvinPerMinute its change from then on; negative while it cools
 * @param pumpSeconds time constant of the vacuum pump
 * @param idleSeconds open door before and after the test
 */
public record LeakProgram(
        String name,
        double depthKilopascal,
        double settlingSeconds,
        double measuringSeconds,
        double leakKilopascalPerMinute,
        double waterKilopascal,
        double waterSeconds,
        double startCelsius,
        double kelvinPerMinute,
        double pumpSeconds,
        double idleSeconds)
        implements Program {

    public LeakProgram {
        if (!(depthKilopascal >= 2) || !(settlingSeconds > 0) || !(measuringSeconds > 0) || !(waterSeconds > 0)) {
            throw new IllegalArgumentException("leak test %s: %s kPa, settling %s s, measuring %s s"
                    .formatted(name, depthKilopascal, settlingSeconds, measuringSeconds));
        }
    }

    /** Dry chamber at a steady temperature, 5 + 10 minutes, with so much leak. */
    public static LeakProgram ofRate(double kilopascalPerMinute) {
        return new LeakProgram("Vacuum test", 5.0, 300, 600, kilopascalPerMinute, 0.15, 45, 35, 0, 18, 30);
    }

    public LeakProgram withRate(double kilopascalPerMinute) {
        return new LeakProgram(
                name,
                depthKilopascal,
                settlingSeconds,
                measuringSeconds,
                kilopascalPerMinute,
                waterKilopascal,
                waterSeconds,
                startCelsius,
                kelvinPerMinute,
                pumpSeconds,
                idleSeconds);
    }

    /** Water left in the chamber. */
    public LeakProgram withWater(double kilopascal, double seconds) {
        return new LeakProgram(
                name,
                depthKilopascal,
                settlingSeconds,
                measuringSeconds,
                leakKilopascalPerMinute,
                kilopascal,
                seconds,
                startCelsius,
                kelvinPerMinute,
                pumpSeconds,
                idleSeconds);
    }

    /** Another vacuum and other periods. */
    public LeakProgram withPeriods(double depth, double settling, double measuring) {
        return new LeakProgram(
                name,
                depth,
                settling,
                measuring,
                leakKilopascalPerMinute,
                waterKilopascal,
                waterSeconds,
                startCelsius,
                kelvinPerMinute,
                pumpSeconds,
                idleSeconds);
    }

    /** A chamber that warms or cools. */
    public LeakProgram withTemperature(double celsius, double changePerMinute) {
        return new LeakProgram(
                name,
                depthKilopascal,
                settlingSeconds,
                measuringSeconds,
                leakKilopascalPerMinute,
                waterKilopascal,
                waterSeconds,
                celsius,
                changePerMinute,
                pumpSeconds,
                idleSeconds);
    }

    @Override
    public CycleDefinition definition() {
        return CycleDefinition.of(name, CycleType.B, 134);
    }
}
