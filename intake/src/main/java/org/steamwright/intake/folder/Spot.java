package org.steamwright.intake.folder;

/** A place in what somebody wrote, to which a problem can be pinned. */
public interface Spot {

    /** Adds a problem at this place. */
    void problem(MessageId mistake, Flaw flaw);
}
