package org.steamwright.intake.xml;

import java.nio.charset.CharacterCodingException;
import java.util.MissingResourceException;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import javax.xml.stream.util.StreamReaderDelegate;
import org.steamwright.intake.xml.XmlRefusedException.Reason;

/** Counts what comes by and refuses what passes a limit or declares a document type. */
final class GuardedReader extends StreamReaderDelegate {

    /** By this the parser of the Java runtime marks its own limits. */
    private static final String LIMIT_OF_THE_RUNTIME = "JAXP0001";

    private final BoundedStream bytes;
    private final XmlLimits limits;
    private long elements;
    private int depth;

    GuardedReader(XMLStreamReader events, BoundedStream bytes, XmlLimits limits) {
        super(events);
        this.bytes = bytes;
        this.limits = limits;
    }

    @Override
    public int next() throws XMLStreamException {
        int event = advance();
        switch (event) {
            case START_ELEMENT -> {
                depth++;
                if (depth > limits.depth()) {
                    throw tooComplex("elements stand more than " + limits.depth() + " deep inside each other");
                }
                if (getAttributeCount() > limits.attributes()) {
                    throw tooComplex("an element has more than " + limits.attributes() + " attributes");
                }
                countElement();
            }
            case END_ELEMENT -> depth--;
            case COMMENT, PROCESSING_INSTRUCTION -> countElement();
            case DTD, ENTITY_DECLARATION, NOTATION_DECLARATION, ENTITY_REFERENCE ->
                throw new XmlRefusedException(
                        Reason.DOCUMENT_TYPE,
                        "a document type declaration (<!DOCTYPE …>) or an entity of one's own, by which a document can name other files",
                        getLocation());
            default -> {
                // text of any kind is bounded by the number of bytes
            }
        }
        return event;
    }

    private int advance() throws XMLStreamException {
        try {
            return super.next();
        } catch (XMLStreamException e) {
            if (bytes.isExceeded()) {
                throw bytes.refusal();
            }
            if (e.getNestedException() instanceof CharacterCodingException) {
                throw new XMLStreamException(
                        "a byte does not fit the encoding of the document", getLocation(), e.getNestedException());
            }
            String text = String.valueOf(e.getMessage());
            throw text.contains(LIMIT_OF_THE_RUNTIME) ? tooComplex("a name or an element passes a limit") : e;
        } catch (MissingResourceException e) {
            // the parser of the Java runtime found a fault for which it has no words: a control character in a
            // declaration
            throw new XMLStreamException("a sign that no XML may hold", getLocation(), e);
        }
    }

    private void countElement() throws XmlRefusedException {
        elements++;
        if (elements > limits.elements()) {
            throw tooComplex("more than " + limits.elements() + " elements, comments and instructions");
        }
    }

    private XmlRefusedException tooComplex(String text) {
        return new XmlRefusedException(Reason.TOO_COMPLEX, text, getLocation());
    }

    @Override
    public int nextTag() throws XMLStreamException {
        int event = next();
        while (event == SPACE
                || event == COMMENT
                || event == PROCESSING_INSTRUCTION
                || (event == CHARACTERS && isWhiteSpace())
                || (event == CDATA && isWhiteSpace())) {
            event = next();
        }
        if (event != START_ELEMENT && event != END_ELEMENT) {
            throw new XMLStreamException("expected an element, found text", getLocation());
        }
        return event;
    }

    @Override
    public String getElementText() throws XMLStreamException {
        if (getEventType() != START_ELEMENT) {
            throw new XMLStreamException("the text of an element is asked where none begins", getLocation());
        }
        StringBuilder text = new StringBuilder();
        for (int event = next(); event != END_ELEMENT; event = next()) {
            switch (event) {
                case CHARACTERS, CDATA, SPACE -> text.append(getText());
                case COMMENT, PROCESSING_INSTRUCTION -> {
                    // not text
                }
                default -> throw new XMLStreamException("expected text alone, found an element", getLocation());
            }
        }
        return text.toString();
    }
}
