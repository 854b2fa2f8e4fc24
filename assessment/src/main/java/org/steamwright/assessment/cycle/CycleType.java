package org.steamwright.assessment.cycle;

/** What a cycle is made for, by the letters that standards for small sterilizers use. */
public enum CycleType {
    /** All loads that the sterilizer claims, wrapped and hollow too. */
    B,
    /** Unwrapped solid items only. */
    N,
    /** The loads that the maker names. */
    S
}
