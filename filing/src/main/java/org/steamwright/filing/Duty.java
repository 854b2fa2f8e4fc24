package org.steamwright.filing;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What somebody is in a visit for, and therefore all that their signature can say. */
public enum Duty {
    TECHNICIAN("performed and recorded", List.of("techni", "engineer", "ingenieur", "ingénieur")),
    REVIEWER("reviewed and approved", List.of("review", "prüfer", "relect")),
    REPRESENTATIVE("received and understood", List.of());

    private final String meaning;
    private final List<String> stems;

    Duty(String meaning, List<String> stems) {
        this.meaning = meaning;
        this.stems = stems;
    }

    /** What a signature in this duty says, as it stands in the record. */
    public String meaning() {
        return meaning;
    }

    /** The word by which texts know it. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The duty that follows from a role as the visit has it: whoever neither performs nor reviews is there for the clinic. */
    public static Duty of(String role) {
        String word = role.toLowerCase(Locale.ROOT);
        return Arrays.stream(values())
                .filter(duty -> duty.stems.stream().anyMatch(word::contains))
                .findFirst()
                .orElse(REPRESENTATIVE);
    }

    /** The duty whose signature says that. */
    public static Optional<Duty> ofMeaning(String meaning) {
        return Arrays.stream(values())
                .filter(duty -> duty.meaning.equals(meaning))
                .findFirst();
    }
}
