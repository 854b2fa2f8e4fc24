package org.steamwright.visit.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The first three questions of an installation qualification: was anything moved, added or changed since last time?
 *
 * @param sterilizer key
 * @param moved whether it stands elsewhere; empty if nobody was asked
 * @param added whether another steriliser or a source of heat came beside it; empty if nobody was asked
 * @param changed whether supply, water, drain, firmware or parts changed; empty if nobody was asked
 * @param note what and when; needed where an answer is yes
 */
public record ChangesSince(
        String sterilizer, Optional<Boolean> moved, Optional<Boolean> added, Optional<Boolean> changed, String note) {

    public ChangesSince {
        boolean isAnyYes = moved.orElse(false) || added.orElse(false) || changed.orElse(false);
        if (isAnyYes && note.isBlank()) {
            throw new IllegalArgumentException("something was moved, added or changed, and nobody says what");
        }
    }

    /** Whether the installation is another one than last time. */
    public boolean isAnother() {
        return moved.orElse(false) || changed.orElse(false);
    }

    /** Questions that nobody answered. */
    public List<String> unanswered() {
        List<String> open = new ArrayList<>();
        if (moved.isEmpty()) {
            open.add("moved");
        }
        if (added.isEmpty()) {
            open.add("added");
        }
        if (changed.isEmpty()) {
            open.add("changed");
        }
        return List.copyOf(open);
    }
}
