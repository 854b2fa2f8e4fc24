package org.steamwright.visit;

import java.util.Optional;

/**
 * What somebody saw of the load when it was taken out.
 *
 * @param isDry whether its packs were dry to the eye; empty if nobody said
 * @param isSealed whether the seals of its packs were intact; empty if nobody said
 * @param closedFor how long it had stood with the door closed after the cycle, in words; may be blank
 * @param by who looked; may be blank
 * @source RACGP infection prevention guidelines, unloading the steriliser (seen): wet, dropped or torn is unsterile
 */
public record AfterRun(Optional<Boolean> isDry, Optional<Boolean> isSealed, String closedFor, String by) {

    /** Whether packs were wet to the eye. */
    boolean isWet() {
        return isDry.filter(dry -> !dry).isPresent();
    }

    /** Whether seals were not intact. */
    boolean isTorn() {
        return isSealed.filter(intact -> !intact).isPresent();
    }
}
