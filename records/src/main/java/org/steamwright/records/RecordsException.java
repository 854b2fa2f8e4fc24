package org.steamwright.records;

import org.jspecify.annotations.Nullable;

/** Something that could not be kept, found or trusted: which, where, and what would mend it. */
public final class RecordsException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final RecordsMessage id;
    private final String text;

    /**
     * @param id stable identity of the message
     * @param text what was found, where, and what to do
     */
    public RecordsException(RecordsMessage id, String text) {
        this(id, text, null);
    }

    /**
     * @param id stable identity of the message
     * @param text what was found, where, and what to do
     * @param cause what the surroundings said
     */
    public RecordsException(RecordsMessage id, String text, @Nullable Throwable cause) {
        super(id.id() + " " + text, cause);
        this.id = id;
        this.text = text;
    }

    /** What was found, where, and what to do, without the identity of the message. */
    public String text() {
        return text;
    }

    /** Identity of the message. */
    public RecordsMessage id() {
        return id;
    }
}
