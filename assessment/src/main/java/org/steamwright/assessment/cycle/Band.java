package org.steamwright.assessment.cycle;

/**
 * The sterilization temperature band, both ends inside.
 *
 * @param lowCelsius sterilization temperature
 * @param highCelsius upper limit; positive infinity where the criteria set states none
 */
public record Band(double lowCelsius, double highCelsius) {

    public Band {
        if (!Double.isFinite(lowCelsius) || !(highCelsius >= lowCelsius)) {
            throw new IllegalArgumentException("not a band: from %s to %s °C".formatted(lowCelsius, highCelsius));
        }
    }

    /** The band without its upper limit. */
    public Band open() {
        return new Band(lowCelsius, Double.POSITIVE_INFINITY);
    }

    /** Whether a temperature lies inside; NaN does not. */
    public boolean contains(double celsius) {
        return celsius >= lowCelsius && celsius <= highCelsius;
    }
}
