package org.steamwright.intake;

import java.util.List;

/** A file that gives no recording: why, where, and what would mend it. Nothing of it was used. */
public final class UnreadableFileException extends Exception {

    private static final long serialVersionUID = 1L;

    private final IntakeMessage id;
    private final String file;
    private final String where;
    private final String text;
    private final transient List<Question> questions;

    /** Trouble that no answer can settle. */
    public UnreadableFileException(IntakeMessage id, String file, String where, String text) {
        this(id, file, where, text, List.of());
    }

    /**
     * @param id stable identity of the message
     * @param file name without folder
     * @param where row and column as far as known, empty if the whole file is meant
     * @param text what was found, what was expected, how to mend it
     * @param questions what has to be answered before the file can be read; empty if no answer helps
     */
    public UnreadableFileException(IntakeMessage id, String file, String where, String text, List<Question> questions) {
        super(id.id() + " " + file + (where.isEmpty() ? "" : ", " + where) + ": " + text);
        this.id = id;
        this.file = file;
        this.where = where;
        this.text = text;
        this.questions = List.copyOf(questions);
    }

    /** Identity of the message. */
    public IntakeMessage id() {
        return id;
    }

    /** Name of the file without folder. */
    public String file() {
        return file;
    }

    /** Row and column as far as known; empty if the whole file is meant. */
    public String where() {
        return where;
    }

    /** What was found, what was expected, how to mend it. */
    public String text() {
        return text;
    }

    /** Everything that is open, at once; empty if no answer helps. */
    public List<Question> questions() {
        return questions;
    }
}
