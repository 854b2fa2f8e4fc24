package org.steamwright.visit.register;

import java.util.Optional;

/** Work on a sterilizer that comes back. */
public enum Duty {
    VALIDATION("validation", "Validation"),
    SERVICE("service", "Service"),
    PRESSURE_EXAMINATION("pressure-examination", "Examination of the pressure vessel"),
    ELECTRICAL_TEST("electrical-test", "Electrical safety test"),
    PERIODIC_TEST("periodic-test", "Periodic test by a test person"),
    LEAK_TEST("leak-test", "Leak test by the user"),
    PENETRATION_TEST("penetration-test", "Steam penetration test by the user");

    private final String word;
    private final String title;

    Duty(String word, String title) {
        this.word = word;
        this.title = title;
    }

    /** As files spell it. */
    public String word() {
        return word;
    }

    /** For people. */
    public String title() {
        return title;
    }

    public static Optional<Duty> find(String word) {
        for (Duty duty : values()) {
            if (duty.word.equals(word)) {
                return Optional.of(duty);
            }
        }
        return Optional.empty();
    }
}
