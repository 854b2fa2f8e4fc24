package org.steamwright.visit;

import java.util.List;

/**
 * A named list of checks of one sterilizer.
 *
 * @param section which part of the visit
 * @param sterilizer key of the sterilizer
 * @param items in order
 */
public record Checklist(Section section, String sterilizer, List<CheckItem> items) {

    /** Parts of a visit that are kept as lists. */
    public enum Section {
        AS_FOUND("As found"),
        MAINTENANCE("Preventive maintenance"),
        INSTALLATION("Installation qualification (IQ)"),
        SAFETY("Electrical and pressure safety"),
        VERIFICATION("Verification of the steriliser's own indication"),
        STEAM_PENETRATION("Steam penetration tests");

        private final String title;

        Section(String title) {
            this.title = title;
        }

        public String title() {
            return title;
        }
    }

    public Checklist {
        items = List.copyOf(items);
    }
}
