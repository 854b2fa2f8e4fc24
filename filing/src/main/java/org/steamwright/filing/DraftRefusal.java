package org.steamwright.filing;

import java.util.Optional;

/** A change of a visit that is being written was not kept; nothing of it was. */
public final class DraftRefusal extends Exception {

    private static final long serialVersionUID = 1L;

    /** Why. */
    public enum Reason {
        /** The visit is signed. */
        SIGNED,
        /** Somebody else, or another window, changed the fact since it was seen. */
        CHANGED_MEANWHILE,
        /** The path leads nowhere; the entry was removed, or never there. */
        NO_SUCH_PLACE,
        /** What was to be kept is no value for a fact. */
        NOT_A_VALUE,
        /** A visit needs a report number. */
        NUMBER_MISSING,
        /** Another visit has the report number. */
        NUMBER_TAKEN,
        /** Invented recordings and real ones would come together. */
        MIXED,
        /** It is not clear which clinic or machine of the record the visit means. */
        UNCLEAR,
        /** A training visit would come into another record, or another visit into the record of training. */
        TRAINING,
        /** The file can't have this name. */
        FILE_NAME,
        /** A file of this name is there already, with other content. */
        FILE_THERE,
        /** The visit would grow beyond what can be read again. */
        TOO_LARGE,
        /** There is no change to take back. */
        NOTHING_TO_UNDO
    }

    /**
     * What a change met.
     *
     * @param path of the fact or file
     * @param seen value that was held to stand there; empty if none
     * @param standing value that stands there; empty if none
     * @param wanted value that was not kept; empty if the fact was to be taken away
     */
    public record Clash(String path, Optional<Object> seen, Optional<Object> standing, Optional<Object> wanted) {}

    private final Reason reason;
    private final String remedy;
    private final transient Optional<Clash> clash;

    DraftRefusal(Reason reason, String text, String remedy) {
        this(reason, text, remedy, Optional.empty());
    }

    DraftRefusal(Reason reason, String text, String remedy, Optional<Clash> clash) {
        super(text);
        this.reason = reason;
        this.remedy = remedy;
        this.clash = clash;
    }

    /** Why. */
    public Reason reason() {
        return reason;
    }

    /** What to do. */
    public String remedy() {
        return remedy;
    }

    /** Both values, where two differ. */
    public Optional<Clash> clash() {
        return clash;
    }
}
