package org.steamwright.simulator;

/**
 * The true error of a sensor today: a straight line over the quantity, a gain and what has drifted since calibration.
 *
 * @param offset at {@code centre}
 * @param slope per unit
 * @param centre of the line, in the unit of the quantity
 * @param drift since calibration
 */
record SensorError(double offset, double slope, double centre, double drift) {

    /** What the sensor shows too much at that true value. */
    double at(double value) {
        return atCalibration(value) + drift;
    }

    /** The same on the day of calibration. */
    double atCalibration(double value) {
        return offset + slope * (value - centre);
    }
}
