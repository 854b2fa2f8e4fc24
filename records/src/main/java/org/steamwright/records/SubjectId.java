package org.steamwright.records;

import java.util.UUID;

/**
 * Identity of a subject, the same in every copy of the record.
 *
 * @param value in the order in which subjects were made
 * @source RFC 9562, section 5.7 (UUID version 7)
 */
public record SubjectId(UUID value) {

    /**
     * Identity from its text.
     *
     * @throws IllegalArgumentException if the text is none
     */
    public static SubjectId parse(String text) {
        return new SubjectId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
