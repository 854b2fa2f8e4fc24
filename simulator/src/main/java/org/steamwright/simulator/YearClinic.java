package org.steamwright.simulator;

/** The clinics of the invented year. */
enum YearClinic {
    DENTAL("Example Dental Practice (invented)", "2 Example Road, Sampleton SA", "Lee Placeholder (invented)"),
    SURGERY("Sample Street Surgery (invented)", "14 Sample Street, Sampleton SA", "Jo Specimen (invented)"),
    FOOT("Placeholder Foot Clinic (invented)", "7 Placeholder Lane, Exampleford SA", "Max Pattern (invented)");

    private final String title;
    private final String address;
    private final String manager;

    YearClinic(String title, String address, String manager) {
        this.title = title;
        this.address = address;
        this.manager = manager;
    }

    String title() {
        return title;
    }

    String address() {
        return address;
    }

    String manager() {
        return manager;
    }

    /** Id in the register. */
    String id() {
        return "example-" + name().toLowerCase(java.util.Locale.ROOT);
    }

    /** Id of its one room. */
    String room() {
        return id() + "-steri";
    }
}
