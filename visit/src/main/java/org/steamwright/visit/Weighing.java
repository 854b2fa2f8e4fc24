package org.steamwright.visit;

/**
 * A pack weighed before and after a run.
 *
 * @param item what was weighed
 * @param kind which limit applies
 * @param beforeGram dry mass
 * @param afterGram mass after the run
 */
public record Weighing(String item, Kind kind, double beforeGram, double afterGram) {

    /** Kinds of load that have limits of their own. */
    public enum Kind {
        SOLID,
        POROUS
    }
}
