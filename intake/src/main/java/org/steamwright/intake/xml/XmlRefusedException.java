package org.steamwright.intake.xml;

import javax.xml.stream.Location;
import javax.xml.stream.XMLStreamException;

/** XML that might be well formed and is not read all the same. */
public final class XmlRefusedException extends XMLStreamException {

    private static final long serialVersionUID = 1L;

    private final Reason reason;

    XmlRefusedException(Reason reason, String text, Location where) {
        super(text, where);
        this.reason = reason;
    }

    /** Refused before a place could be told. */
    XmlRefusedException(Reason reason, String text) {
        super(text);
        this.reason = reason;
    }

    /** What it was refused for. */
    public Reason reason() {
        return reason;
    }

    /** What XML is refused for. */
    public enum Reason {
        /** A document type declaration: the door to entities, other files and the network. */
        DOCUMENT_TYPE,
        /** More bytes than the limit. */
        TOO_LARGE,
        /** More elements, depth, attributes or longer names than the limit. */
        TOO_COMPLEX
    }
}
