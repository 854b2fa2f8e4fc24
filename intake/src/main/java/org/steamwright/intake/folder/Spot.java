package org.steamwright.intake.folder;

/** A place in what somebody wrote, to which a problem can be pinned. */
public interface Spot {

    /** Adds a problem at this place. */
    void problem(MessageId mistake, String text);

    /** Adds the problem that a file is not there. */
    default void noFile(String name, MessageId mistake, String text) {
        problem(mistake, text);
    }
}
