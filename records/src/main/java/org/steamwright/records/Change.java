package org.steamwright.records;

import java.time.Instant;
import java.util.Optional;
import org.steamwright.records.json.JsonText;

/**
 * One fact that gets another value.
 *
 * @param kind what the subject is
 * @param subject whose fact
 * @param property path of the fact, such as {@code name} or {@code runs/3/load}; not blank, without control characters
 * @param value new value; null takes the fact away, its history stays
 * @param why reason, may be blank for a first value
 * @param stated when the fact held, where that is said; empty if it is the time of entry
 * @param expected value that is held to stand there now; the change is refused if another does
 */
public record Change(
        Kind kind,
        SubjectId subject,
        String property,
        JsonText value,
        String why,
        Optional<Instant> stated,
        Optional<JsonText> expected) {

    private static final int LONGEST_PROPERTY = 500;

    public Change {
        if (property.isBlank()
                || property.length() > LONGEST_PROPERTY
                || property.chars().anyMatch(Character::isISOControl)) {
            throw new IllegalArgumentException("a property is a path of 1 to %s printable characters, not '%s'"
                    .formatted(LONGEST_PROPERTY, property));
        }
        if (why.indexOf(0) >= 0) {
            throw new IllegalArgumentException("a reason is text, without the zero character");
        }
    }

    /** The fact gets that value. */
    public static Change set(Kind kind, SubjectId subject, String property, JsonText value) {
        return new Change(kind, subject, property, value, "", Optional.empty(), Optional.empty());
    }

    /** The fact gets that text, number or list. */
    public static Change set(Kind kind, SubjectId subject, String property, Object value) {
        return set(kind, subject, property, JsonText.of(value));
    }

    /** The same with a reason. */
    public Change because(String reason) {
        return new Change(kind, subject, property, value, reason, stated, expected);
    }

    /** The same, for a fact that held at another time than that of entry. */
    public Change statedAt(Instant when) {
        return new Change(kind, subject, property, value, why, Optional.of(when), expected);
    }

    /** The same, refused unless the fact has that value now; null means that there is none. */
    public Change expecting(JsonText now) {
        return new Change(kind, subject, property, value, why, stated, Optional.of(now));
    }
}
