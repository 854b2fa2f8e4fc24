package org.steamwright.assessment.leakage;

import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.TimeAxis;

/**
 * Finds isolation, settling and measuring in a recording of a vacuum test.
 *
 * <p>Isolation is the last sample of lowest pressure. Settling and measuring follow with their usual lengths; measuring
 * ends earlier if the chamber is aerated or the recording stops. Pressures are single samples, nothing is averaged.
 */
public final class LeakTestFinder {

    /**
     * Usual length of settling, in seconds.
     *
     * @source practice quoted on secondary pages (5 min; 300 to 600 s from memory), EN 285 and ISO 17665:2024 not seen
     */
    public static final double SETTLING_SECONDS = 300.0;

    /**
     * Usual length of measuring, in seconds.
     *
     * @source practice quoted on secondary pages (10 min; 600 ± 10 s from memory), EN 285 not seen
     */
    public static final double MEASURING_SECONDS = 600.0;

    /** A rise by this much within {@link #AERATION_SECONDS} is air let in, not a leak. Own choice, no source. */
    private static final double AERATION_KILOPASCAL = 3.0;

    private static final double AERATION_SECONDS = 10.0;

    private LeakTestFinder() {}

    /**
     * Looks for the periods in the trace.
     *
     * @param pressure absolute, corrected
     * @param temperature of the chamber; empty leaves the temperature-corrected rate out
     * @return empty if the pressure is never low enough to be a vacuum or nothing is left to measure
     */
    public static Optional<LeakTest> find(CorrectedChannel pressure, Optional<CorrectedChannel> temperature) {
        TimeAxis axis = pressure.axis();
        int isolation = -1;
        for (int i = 0; i < pressure.size(); i++) {
            if (!Double.isNaN(pressure.at(i)) && (isolation < 0 || pressure.at(i) <= pressure.at(isolation))) {
                isolation = i;
            }
        }
        if (isolation < 0) {
            return Optional.empty();
        }
        int last = lastBeforeAeration(pressure, isolation);
        int settled = axis.indexAtOrAfter(axis.at(isolation) + SETTLING_SECONDS);
        if (settled >= last) {
            return Optional.empty();
        }
        int end = Math.min(last, axis.indexAtOrBefore(axis.at(settled) + MEASURING_SECONDS));
        return test(pressure, temperature, isolation, settled, end, false);
    }

    /**
     * Takes declared periods; each moment is moved to the next sample.
     *
     * @return empty if the recording does not reach to the declared end or a pressure is missing there
     */
    public static Optional<LeakTest> declared(
            CorrectedChannel pressure,
            Optional<CorrectedChannel> temperature,
            double isolationSeconds,
            double settledSeconds,
            double endSeconds) {
        TimeAxis axis = pressure.axis();
        int isolation = axis.indexAtOrAfter(isolationSeconds);
        int settled = axis.indexAtOrAfter(settledSeconds);
        int end = axis.indexAtOrAfter(endSeconds);
        if (end >= pressure.size() || end <= settled || settled < isolation) {
            return Optional.empty();
        }
        return test(pressure, temperature, isolation, settled, end, true);
    }

    private static int lastBeforeAeration(CorrectedChannel pressure, int isolation) {
        TimeAxis axis = pressure.axis();
        for (int i = isolation + 1; i < pressure.size(); i++) {
            int before = Math.max(isolation, axis.indexAtOrBefore(axis.at(i) - AERATION_SECONDS));
            if (pressure.at(i) - pressure.at(before) > AERATION_KILOPASCAL
                    && axis.at(i) - axis.at(isolation) > SETTLING_SECONDS) {
                return before;
            }
        }
        return pressure.size() - 1;
    }

    private static Optional<LeakTest> test(
            CorrectedChannel pressure,
            Optional<CorrectedChannel> temperature,
            int isolation,
            int settled,
            int end,
            boolean isDeclared) {
        if (Double.isNaN(pressure.at(isolation))
                || Double.isNaN(pressure.at(settled))
                || Double.isNaN(pressure.at(end))) {
            return Optional.empty();
        }
        TimeAxis axis = pressure.axis();
        return Optional.of(new LeakTest(
                axis.at(isolation),
                axis.at(settled),
                axis.at(end),
                pressure.at(isolation),
                pressure.at(settled),
                pressure.at(end),
                temperature.map(t -> t.valueAt(axis.at(settled))).filter(Double::isFinite),
                temperature.map(t -> t.valueAt(axis.at(end))).filter(Double::isFinite),
                isDeclared));
    }
}
