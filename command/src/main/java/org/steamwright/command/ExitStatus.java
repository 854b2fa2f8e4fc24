package org.steamwright.command;

/**
 * How the program ends. What the sterilizer did and what the program could not do never share a number.
 *
 * <p>The page docs/reference/exit-statuses.md is made from these texts.
 */
public enum ExitStatus {
    /** Done. After an assessment: the sterilizer passed. */
    PASS(0, "The command did its work. After an assessment: everything that decides is met. After a question: yes."),
    /** The assessment was made and the answer is fail. */
    FAIL(
            1,
            "The assessment was made and the sterilizer did not pass; or the answer asked for is no: the load is not covered, the visit may not go, rows were refused."),
    /** The arguments can't be understood, or an answer is missing that no file can give. */
    USAGE(2, "The arguments cannot be understood, or an answer is missing that no file can give."),
    /** A file can't be read as what it should be. */
    UNREADABLE(3, "A file is missing, cannot be read, or is not what it should be. Nothing was assessed."),
    /** The assessment was made and gives no answer either way. */
    OPEN(4, "The assessment was made and gives no answer either way: undecided, invalid, incomplete or awaited."),
    /** A record is not as it was kept. */
    ALTERED(5, "A record was verified, and something in it is not as it was kept."),
    /** Java or Maven is missing, or the program can't be built; given by the launcher. */
    NOT_INSTALLED(69, "Java or Maven is missing, or the program could not be built (the launcher says which)."),
    /** A fault of the program. */
    FAULT(70, "A fault of the program. The message says how to report it."),
    /** Reading or writing failed on the way: disk full, no permission. */
    SURROUNDINGS(74, "Reading or writing failed on the way: disk full, no permission, broken device."),
    /** Stopped from the keyboard. */
    STOPPED(130, "Stopped from the keyboard (Ctrl-C).");

    private final int number;
    private final String meaning;

    ExitStatus(int number, String meaning) {
        this.number = number;
        this.meaning = meaning;
    }

    public int number() {
        return number;
    }

    /** One sentence for people. */
    public String meaning() {
        return meaning;
    }
}
