package org.steamwright.assessment.quantity;

/** What a pressure is counted from. Never guessed: 202.9 kPa gauge read as absolute looks like a perfect 121 °C cycle. */
public enum PressureReference {
    /** Counted from vacuum. */
    ABSOLUTE,
    /** Counted from the ambient pressure of the moment; negative under vacuum. */
    GAUGE
}
