package org.steamwright.simulator;

import org.steamwright.assessment.verdict.Ambient;

/**
 * The air around the sterilizer.
 *
 * @param ambientKilopascal true ambient pressure during the run
 * @param declared what the technician wrote down about it
 */
public record Surroundings(double ambientKilopascal, Ambient declared) {

    public Surroundings {
        if (!(ambientKilopascal >= 50 && ambientKilopascal <= 110)) {
            throw new IllegalArgumentException("an ambient pressure of " + ambientKilopascal + " kPa");
        }
    }

    /** A barometer that is right. */
    public static Surroundings of(double ambientKilopascal) {
        return new Surroundings(ambientKilopascal, Ambient.barometer(ambientKilopascal));
    }
}
