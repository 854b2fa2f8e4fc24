package org.steamwright.assessment.quantity;

/**
 * A pressure rise per time under vacuum.
 *
 * @param kilopascalPerMinute finite; negative if the pressure fell
 */
public record LeakRate(double kilopascalPerMinute) {

    public LeakRate {
        if (!Double.isFinite(kilopascalPerMinute)) {
            throw new IllegalArgumentException("not a leak rate: " + kilopascalPerMinute + " kPa/min");
        }
    }

    /** In millibar per minute. */
    public double millibarPerMinute() {
        return PressureUnit.MILLIBAR.fromKilopascal(kilopascalPerMinute);
    }

    /** In millimetre of mercury per minute. */
    public double millimetreOfMercuryPerMinute() {
        return PressureUnit.MILLIMETRE_OF_MERCURY.fromKilopascal(kilopascalPerMinute);
    }

    @Override
    public String toString() {
        return kilopascalPerMinute + " kPa/min";
    }
}
