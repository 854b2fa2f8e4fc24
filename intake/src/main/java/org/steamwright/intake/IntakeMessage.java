package org.steamwright.intake;

/**
 * Every message of the readers of recordings, with its stable identity. Each has a page of that name in docs/messages; a
 * test holds both lists equal.
 */
public enum IntakeMessage {
    FILE_MISSING(1),
    NOT_A_FILE(2),
    FILE_CLOSED_TO_US(3),
    FILE_EMPTY(4),
    FILE_TOO_LARGE(5),
    FILE_BINARY(6),
    ZERO_BYTES(7),
    WRONG_CHARSET(8),
    DELIMITER_NOT_FOUND(9),
    QUOTE_NOT_CLOSED(10),
    TOO_FEW_ROWS(11),
    HEADER_DOES_NOT_FIT(12),
    NO_TIME_COLUMN(13),
    NO_MEASURING_COLUMN(14),
    UNKNOWN_UNIT(15),
    TEXT_IN_NUMBERS(16),
    OUT_OF_ORDER(17),
    TIME_STAMP_REPEATED(18),
    TIME_UNREADABLE(19),
    TIME_DOES_NOT_EXIST(20),
    QUESTIONS_OPEN(21),
    DATE_ORDER_DOES_NOT_FIT(22),
    CHOICE_DOES_NOT_FIT(23),
    TOO_MANY_CELLS(24),

    CELL_IS_TEXT(31),
    CELLS_EMPTY(32),
    LAST_LINE_CUT(33),
    ROW_SHORT(34),
    GAP(35),
    ROW_REPEATED(36),
    NAME_REPEATED(37),
    NAME_MISSING(38),
    COLUMN_NOT_USED(39),
    LINE_NOT_USED(40),
    HOUR_REPEATED(41),
    HOUR_IN_DOUBT(42),
    MIDNIGHT_PASSED(43),
    CHOICE_AGAINST_FILE(44),
    OLD_ENCODING(45),
    HEADER_MISSING(46),
    COLUMN_WITHOUT_VALUE(47),
    PRESSURE_REFERENCE_OPEN(48),
    SIMULATED(49),

    FILE_CHANGED(60),
    ROW_TOO_LONG(61),
    FILE_GREW(62),
    ROWS_OUTSIDE_TIME(63),
    PROFILE_CONTRADICTED(64),
    PROFILE_UNREADABLE(65),

    READING_IMPOSSIBLE(66),
    COUNTER_AT_ITS_END(67),
    UNIT_IN_DOUBT(68),
    TOP_IS_FLAT(69),

    SPREADSHEET_DAMAGED(70),
    SPREADSHEET_TOO_LARGE(71),
    ARCHIVE_NOT_HONEST(72),
    SPREADSHEET_LOCKED(73),
    OTHER_SPREADSHEET(74),
    XML_WITH_DOCTYPE(75),
    NO_SUCH_SHEET(76),
    SHEETS_BLANK(77),

    FORMULA_VALUES(80),
    FORMULA_WITHOUT_VALUE(81),
    ROWS_HIDDEN(82),
    SHEETS_NOT_READ(83),
    NUMBERS_AS_TEXT(84),
    TIME_ROUNDED(85),
    CELLS_MERGED(86),

    STATUS_SAYS_ERROR(87),
    CLOCK_NEVER_SET(88),

    READING_REPEATED(89),
    CHANNEL_CONTRADICTS_ITSELF(90),
    READINGS_MISSING(91),
    CHANNELS_HAVE_OTHER_TIMES(92),
    HEADER_IN_LINES(93);

    private final int number;

    IntakeMessage(int number) {
        this.number = number;
    }

    /** Such as {@code INTAKE-017}; never changes its meaning. */
    public String id() {
        return (number < 10 ? "INTAKE-00" : "INTAKE-0") + number;
    }
}
