package org.steamwright.visit.plan;

import java.util.Optional;

/** Pieces of a visit, in the order in which they are done if nothing speaks against it. */
public enum StepKind {
    ARRIVAL("arrival", "Arrival, identity of the machine, clocks, counter, log book", Hands.MACHINE),
    LEAK_AS_FOUND("leak-as-found", "Leak test as found, before anything is touched", Hands.CHAMBER),
    SERVICE("service", "Service by the maker's task list", Hands.MACHINE),
    PRESSURE_PERSON("pressure-person", "Examination by the competent person for pressure", Hands.MACHINE),
    INSTALLATION("installation", "Installation qualification", Hands.BENCH),
    ELECTRICAL("electrical", "Electrical safety test, machine idle and isolated as its procedure asks", Hands.MACHINE),
    LEAK_WITHOUT_SENSORS("leak-without-sensors", "Leak test without sensors, chamber dry and cool", Hands.CHAMBER),
    FIT_SENSORS("fit-sensors", "Fit the sensors", Hands.MACHINE),
    LEAK_WITH_SENSORS("leak-with-sensors", "Leak test with sensors, if a cable passes port or seal", Hands.CHAMBER),
    PENETRATION("penetration", "Steam penetration test", Hands.CHAMBER),
    EMPTY_CHAMBER("empty-chamber", "Empty chamber, thermometric", Hands.CHAMBER),
    DESCRIBE_LOAD("describe-load", "Reference load with the clinic: list, weigh, photograph, agree", Hands.BENCH),
    LOADED("loaded", "Reference load, thermometric, with challenge pack and indicators", Hands.CHAMBER),
    REMOVE_SENSORS("remove-sensors", "Remove the sensors, close the port", Hands.MACHINE),
    LEAK_AFTER("leak-after", "Leak test after, without sensors", Hands.CHAMBER),
    LOG_BOOK("log-book", "Log book: daily and weekly tests, failed cycles, gaps", Hands.BENCH),
    STAFF("staff", "Questions of the staff, how to read label and load card", Hands.BENCH),
    DRAFT("draft", "Draft of the report, parts and lots used", Hands.BENCH),
    HANDOVER("handover", "Handover: result in plain words, label, signatures, log book entry", Hands.MACHINE);

    /** What a step keeps busy. */
    enum Hands {
        /** The machine and the technician. */
        MACHINE,
        /** The machine; the technician only at its beginning and end. */
        CHAMBER,
        /** The technician alone: it can be done while a cycle runs. */
        BENCH
    }

    private final String word;
    private final String title;
    private final Hands hands;

    StepKind(String word, String title, Hands hands) {
        this.word = word;
        this.title = title;
        this.hands = hands;
    }

    /** As files spell it. */
    public String word() {
        return word;
    }

    /** For people. */
    public String title() {
        return title;
    }

    /** Whether it can be done while a cycle runs. */
    public boolean isForTheWait() {
        return hands == Hands.BENCH;
    }

    /** Whether the machine works by itself in it. */
    public boolean isCycle() {
        return hands == Hands.CHAMBER;
    }

    public static Optional<StepKind> find(String word) {
        for (StepKind kind : values()) {
            if (kind.word.equals(word)) {
                return Optional.of(kind);
            }
        }
        return Optional.empty();
    }
}
