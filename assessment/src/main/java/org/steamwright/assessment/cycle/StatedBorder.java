package org.steamwright.assessment.cycle;

import java.util.Locale;

/**
 * A border of a phase that somebody states where the finder erred, with the reason. It stands beside the border that was found
 * and never in its place.
 *
 * <p>Only phases that decide about no limit of the band can be stated: begin and end of the plateau, and with them the holding
 * time, come from samples alone.
 *
 * @param phase whose border it is
 * @param end which of its two
 * @param atSeconds its moment, in seconds from the start of the run
 * @param by who states it
 * @param because why
 * @source docs/decisions/0065; our own rule
 */
public record StatedBorder(Phase.Kind phase, End end, double atSeconds, String by, String because) {

    /** One of the two borders of a phase. */
    public enum End {
        /** Its begin. */
        FROM,
        /** Its end. */
        TO;

        /** Begin or end. */
        public String words() {
            return this == FROM ? "begin" : "end";
        }
    }

    /** @throws IllegalArgumentException for the plateau, without a moment, an author or a reason */
    public StatedBorder {
        if (!isStatable(phase)) {
            throw new IllegalArgumentException(
                    "begin and end of the plateau are found in the samples and can't be stated");
        }
        if (!Double.isFinite(atSeconds)) {
            throw new IllegalArgumentException("a border at " + atSeconds + " s");
        }
        if (by.isBlank() || because.isBlank()) {
            throw new IllegalArgumentException("a stated border needs the name of who states it, and a reason");
        }
    }

    /** Whether borders of such a phase can be stated. */
    public static boolean isStatable(Phase.Kind phase) {
        return phase != Phase.Kind.PLATEAU;
    }

    /** Such as {@code end of drying}. */
    public String words() {
        return end.words() + " of " + phase.words();
    }

    /** Whether this is that border of that phase. */
    public boolean isOf(Phase.Kind kind, End which) {
        return phase == kind && end == which;
    }

    @Override
    public String toString() {
        return String.format(Locale.ROOT, "%s at %.3f s, by %s: %s", words(), atSeconds, by, because);
    }
}
