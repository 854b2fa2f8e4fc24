package org.steamwright.intake.folder;

/** A kind of problem. Its id stays for ever and has a page in docs/messages. */
public interface MessageId {

    String id();
}
