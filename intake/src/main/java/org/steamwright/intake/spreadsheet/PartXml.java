package org.steamwright.intake.spreadsheet;

import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.Sentence;
import org.steamwright.intake.xml.SafeXml;
import org.steamwright.intake.xml.XmlLimits;
import org.steamwright.intake.xml.XmlRefusedException;

/** A part read as XML, element by element; namespaces are not looked at, both editions of the format use the same names. */
final class PartXml implements AutoCloseable {

    /** A cell of 25 bytes has two elements: more than that do not fit into the bytes that are unpacked. */
    private static final XmlLimits LIMITS = new XmlLimits(ZipParts.LARGEST_UNPACKED_BYTES, 40_000_000L, 64, 100, 1_000);

    private final String file;
    private final ZipParts.Part part;
    private final PartStream stream;
    private final XMLStreamReader xml;

    PartXml(String file, ZipParts parts, ZipParts.Part part) throws UnreadableFileException {
        this.file = file;
        this.part = part;
        this.stream = parts.open(part);
        try {
            this.xml = SafeXml.stream(stream, LIMITS);
        } catch (XMLStreamException refused) {
            stream.close();
            throw refusal(refused);
        }
    }

    /** The next event as {@link XMLStreamConstants} counts them; {@code END_DOCUMENT} at the end. */
    int next() throws UnreadableFileException {
        try {
            return xml.hasNext() ? xml.next() : XMLStreamConstants.END_DOCUMENT;
        } catch (XMLStreamException refused) {
            throw refusal(refused);
        }
    }

    /** Goes on to the next start of an element; false at the end. */
    boolean nextStart() throws UnreadableFileException {
        int event = next();
        while (event != XMLStreamConstants.START_ELEMENT && event != XMLStreamConstants.END_DOCUMENT) {
            event = next();
        }
        return event == XMLStreamConstants.START_ELEMENT;
    }

    /** Name of the element without its prefix. */
    String name() {
        return xml.getLocalName();
    }

    /** An attribute by its name without prefix; empty text if it is not there. */
    String attribute(String name) {
        int count = xml.getAttributeCount();
        for (int i = 0; i < count; i++) {
            if (xml.getAttributeLocalName(i).equals(name)) {
                return xml.getAttributeValue(i);
            }
        }
        return "";
    }

    /** Whether an attribute says yes, by either spelling. */
    boolean isSet(String attribute) {
        String said = attribute(attribute);
        return said.equals("1") || said.equals("true");
    }

    /** Adds the text of this event. */
    void appendTo(StringBuilder text) {
        text.append(xml.getTextCharacters(), xml.getTextStart(), xml.getTextLength());
    }

    private UnreadableFileException refusal(XMLStreamException refused) {
        if (stream.refusal().isPresent()) {
            return stream.refusal().get();
        }
        String where = Sentence.of("part \"%s\"", ZipParts.shown(part.name()));
        if (refused.getLocation() != null && refused.getLocation().getLineNumber() > 0) {
            where += Sentence.of(
                    ", line %s, character %s",
                    refused.getLocation().getLineNumber(), refused.getLocation().getColumnNumber());
        }
        if (refused instanceof XmlRefusedException limit) {
            if (limit.reason() == XmlRefusedException.Reason.DOCUMENT_TYPE) {
                return new UnreadableFileException(
                        IntakeMessage.XML_WITH_DOCTYPE,
                        file,
                        where,
                        "found a document type declaration or an entity of its own. No spreadsheet program writes one; by it a file could make the reader open other files. Nothing was opened. Where does the file come from? Export the recording again.");
            }
            return new UnreadableFileException(
                    IntakeMessage.SPREADSHEET_TOO_LARGE,
                    file,
                    where,
                    "found " + limit.getMessage() + ". Export only the time of the run, or export CSV.");
        }
        return damaged(where, "this is no well-formed XML");
    }

    /** Trouble in this part. */
    UnreadableFileException damaged(String where, String what) {
        return new UnreadableFileException(
                IntakeMessage.SPREADSHEET_DAMAGED,
                file,
                where,
                what + ". Copy the file again, or open and save it with a spreadsheet program.");
    }

    @Override
    public void close() {
        stream.close();
    }
}
