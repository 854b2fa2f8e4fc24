package org.steamwright.criteriasets;

/** The messages of this module. The id stays for ever and has a page of its own in {@code docs/messages}. */
public enum CriteriaMessage {
    UNKNOWN_PRESET("CRITERIA-001"),
    UNREADABLE_BYTES("CRITERIA-002"),
    NOT_YAML("CRITERIA-003"),
    NOT_A_CRITERIA_SET("CRITERIA-004"),
    UNKNOWN_FORMAT_VERSION("CRITERIA-005"),
    UNKNOWN_KEY("CRITERIA-006"),
    MISSING_KEY("CRITERIA-007"),
    WRONG_SHAPE("CRITERIA-008"),
    EMPTY_TEXT("CRITERIA-009"),
    UNKNOWN_WORD("CRITERIA-010"),
    UNREADABLE_QUANTITY("CRITERIA-011"),
    WRONG_UNIT("CRITERIA-012"),
    IMPLAUSIBLE_VALUE("CRITERIA-013"),
    WRONG_SIDE("CRITERIA-014"),
    MISSING_LIMIT("CRITERIA-015"),
    LIMIT_NOT_TAKEN("CRITERIA-016"),
    KEY_TWICE("CRITERIA-017"),
    MISSING_SOURCE("CRITERIA-018"),
    UNKNOWN_BASE("CRITERIA-019"),
    NAME_NOT_FREE("CRITERIA-020"),
    CYCLE_TWICE("CRITERIA-021"),
    EVIDENCE_NOT_DECIDING("CRITERIA-022"),
    PRESET_CHANGED("CRITERIA-023");

    private final String id;

    CriteriaMessage(String id) {
        this.id = id;
    }

    /** Such as 'CRITERIA-012'. */
    public String id() {
        return id;
    }
}
