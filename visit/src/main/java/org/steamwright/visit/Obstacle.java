package org.steamwright.visit;

/**
 * Something beside the runs that keeps cycles from being run, however well the runs look.
 *
 * @param sterilizer key
 * @param cycle name of the cycle; blank for all cycles of that steriliser
 * @param where it is stated
 * @param sentence why
 */
public record Obstacle(String sterilizer, String cycle, Where where, String sentence) {

    /** Whether it stands in the way of that cycle. */
    public boolean concerns(String otherSterilizer, String otherCycle) {
        return sterilizer.equals(otherSterilizer)
                && (cycle.isBlank() || Words.key(cycle).equals(Words.key(otherCycle)));
    }
}
