package org.steamwright.records;

/** Every message of the record, with its stable identity. Each has a page of that name in docs/messages. */
public enum RecordsMessage {
    STORE_UNREACHABLE(1),
    FOLDER_ON_NETWORK(2),
    NOT_DURABLE(3),
    STORE_NEWER(4),
    NOT_A_STORE(5),
    NOT_KEPT(6),
    OUTCOME_UNKNOWN(7),
    STORE_STOPPED(8),
    SUBJECT_UNKNOWN(9),
    KIND_DIFFERS(10),
    CHANGED_MEANWHILE(11),
    SEALED(12),
    SUBMISSION_DIFFERS(13),
    FILE_NOT_KEPT(15),
    FILE_MISSING(16),
    FILE_DAMAGED(17),
    STORE_DAMAGED(18),
    FOLDER_SYNCHRONISED(19),
    STORE_BUSY(20),

    SIMULATED_NOT_SIGNED(31),
    SECRET_WRONG(32),
    SECRET_TOO_SHORT(33),
    KEY_MISSING(34),
    ALREADY_SIGNED(35),
    NOT_AN_ISSUE(36),
    REASON_MISSING(37),
    NOT_IN_FORCE(38),
    VISIT_CHANGED(39),
    KEY_IN_USE(40),

    BACKUP_TARGET_EXISTS(51),
    BACKUP_NOT_GOOD(52),
    NOT_A_BACKUP(53),
    EXPORT_UNREADABLE(54),
    HEADS_DIFFER(55),
    STORE_NOT_EMPTY(56);

    private final int number;

    RecordsMessage(int number) {
        this.number = number;
    }

    /** For example RECORD-012. */
    public String id() {
        String digits = Integer.toString(number);
        return "RECORD-" + "0".repeat(3 - digits.length()) + digits;
    }
}
