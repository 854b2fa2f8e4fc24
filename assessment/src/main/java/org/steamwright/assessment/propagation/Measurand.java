package org.steamwright.assessment.propagation;

/** A figure to which doubt is propagated, and what its truth is. */
public enum Measurand {
    /** Time in which the true temperatures of all judged points stood in the band without a break. */
    HOLDING_TIME("holding time", "s", 1),
    /** From the moment at which the reference point truly reached the temperature to that of the last point. */
    EQUILIBRATION_TIME("equilibration time", "s", 1),
    /** The same to the slowest challenge pack. */
    PENETRATION_TIME("penetration time", "s", 1),
    /** Lowest true temperature of any judged point at the sampled moments of the stretch that was read. */
    LOWEST_TEMPERATURE("lowest temperature while all stood together", "°C", 2),
    /** Largest true difference of two judged points at a sampled moment of the holding time that was read. */
    TEMPERATURE_SPREAD("spread", "K", 2),
    /** Largest true difference, either way, of a measured point and the saturation temperature of the true pressure. */
    SATURATION_DIFFERENCE("difference to the theoretical temperature", "K", 2),
    /** True rise of pressure per minute between the two readings. */
    LEAK_RATE("leak rate", "kPa/min", 4),
    /** Lethality of the true temperature of one channel; in minutes. */
    LETHALITY("lethality F", "min", 2);

    private final String words;
    private final String unit;
    private final int decimals;

    Measurand(String words, String unit, int decimals) {
        this.words = words;
        this.unit = unit;
        this.decimals = decimals;
    }

    /** As printed. */
    public String words() {
        return words;
    }

    /** Unit of value and interval. */
    public String unit() {
        return unit;
    }

    /** Decimals with which value and ends are printed. */
    public int decimals() {
        return decimals;
    }
}
