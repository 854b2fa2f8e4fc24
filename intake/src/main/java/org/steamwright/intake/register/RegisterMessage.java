package org.steamwright.intake.register;

import org.steamwright.intake.folder.MessageId;

/** The kinds of problems of a register, its data files and its tables. The id stays for ever and has a page in docs/messages. */
enum RegisterMessage implements MessageId {
    NO_REGISTER("REGISTER-001"),
    FORMAT_VERSION("REGISTER-002"),
    CONTRADICTS_ITSELF("REGISTER-003"),
    NOT_A_PERIOD("REGISTER-004"),
    NOT_AN_EXPIRY("REGISTER-005"),
    COUNTER("REGISTER-006"),
    INSTRUMENTS_UNREADABLE("REGISTER-007"),
    NOT_A_TABLE("REGISTER-020"),
    NO_COLUMN("REGISTER-021"),
    COLUMN_TWICE("REGISTER-022"),
    UNKNOWN_COLUMN("REGISTER-023"),
    CELL("REGISTER-024"),
    CELL_COUNT("REGISTER-025"),
    MAPPING("REGISTER-027");

    private final String id;

    RegisterMessage(String id) {
        this.id = id;
    }

    @Override
    public String id() {
        return id;
    }
}
