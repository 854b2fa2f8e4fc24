package org.steamwright.records;

/**
 * Who makes an entry, as known at that time.
 *
 * @param name as it stands on documents; not blank
 * @param role technician, reviewer, office; may be blank
 */
public record Author(String name, String role) {

    public Author {
        if (name.isBlank()) {
            throw new IllegalArgumentException("every entry names its author");
        }
        if (name.indexOf(0) >= 0 || role.indexOf(0) >= 0) {
            throw new IllegalArgumentException("a name and a role are text, without the zero character");
        }
    }
}
