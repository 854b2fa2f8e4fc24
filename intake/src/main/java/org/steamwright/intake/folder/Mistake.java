package org.steamwright.intake.folder;

/** The kinds of problems and remarks of a visit folder. The id stays for ever and has a page in docs/messages. */
enum Mistake {
    NO_VISIT("VISIT-001"),
    TOO_LARGE("VISIT-002"),
    NOT_YAML("VISIT-003"),
    TOO_DEEP("VISIT-004"),
    FORMAT_VERSION("VISIT-005"),
    UNKNOWN_KEY("VISIT-006"),
    DUPLICATE_KEY("VISIT-007"),
    MISSING_KEY("VISIT-008"),
    WRONG_SHAPE("VISIT-009"),
    NO_UNIT("VISIT-010"),
    NOT_A_QUANTITY("VISIT-011"),
    DECIMAL_COMMA("VISIT-012"),
    NOT_A_NUMBER("VISIT-013"),
    NOT_A_DATE("VISIT-014"),
    NOT_A_ZONE("VISIT-015"),
    UNKNOWN_WORD("VISIT-016"),
    OUT_OF_RANGE("VISIT-017"),
    UNKNOWN_NAME("VISIT-018"),
    AMBIGUOUS_NAME("VISIT-019"),
    NAME_TWICE("VISIT-020"),
    OUTSIDE_FOLDER("VISIT-021"),
    NO_FILE("VISIT-022"),
    UNREADABLE_RECORDING("VISIT-023"),
    RECORDING_TWICE("VISIT-024"),
    UNKNOWN_COLUMN("VISIT-025"),
    AMBIGUOUS_COLUMN("VISIT-026"),
    PRESSURE_CONTRADICTS("VISIT-027"),
    PRESSURE_UNSTATED("VISIT-028"),
    ROLE_DOES_NOT_FIT("VISIT-029"),
    NO_START("VISIT-030"),
    CRITERIA_SET("VISIT-031"),
    ROLES("VISIT-032"),
    UNREADABLE_CERTIFICATE("VISIT-045"),
    COLUMNS_LEFT_OUT("VISIT-050"),
    CLOCKS_NOT_CHECKED("VISIT-051"),
    BAROMETER_AND_ALTITUDE("VISIT-052"),
    PHOTO_MISSING("VISIT-053"),
    OBVIOUS_ROLES("VISIT-054"),
    ANOTHER_DAY("VISIT-055");

    private final String id;

    Mistake(String id) {
        this.id = id;
    }

    String id() {
        return id;
    }
}
