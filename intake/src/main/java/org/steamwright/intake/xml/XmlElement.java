package org.steamwright.intake.xml;

import java.io.ByteArrayInputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** An element of a small document, with its place in the file. Comments and instructions are not kept here. */
public final class XmlElement {

    private final String namespace;
    private final String name;
    private final int line;
    private final Map<String, String> attributes;
    private final List<XmlElement> children = new ArrayList<>();
    private final StringBuilder text = new StringBuilder();

    private XmlElement(String namespace, String name, int line, Map<String, String> attributes) {
        this.namespace = namespace;
        this.name = name;
        this.line = line;
        this.attributes = attributes;
    }

    /**
     * A document read whole.
     *
     * @param root its outermost element
     * @param comments outside and inside of it, in the order of the file
     */
    public record Document(XmlElement root, List<String> comments) {

        public Document {
            comments = List.copyOf(comments);
        }
    }

    /**
     * Reads a document.
     *
     * @throws XMLStreamException if it is not well formed; {@link XmlRefusedException} where a limit is passed
     */
    public static Document read(byte[] xml, XmlLimits limits) throws XMLStreamException {
        XMLStreamReader events = SafeXml.stream(new ByteArrayInputStream(xml), limits);
        Deque<XmlElement> open = new ArrayDeque<>();
        List<String> comments = new ArrayList<>();
        Optional<XmlElement> root = Optional.empty();
        while (events.hasNext()) {
            switch (events.next()) {
                case XMLStreamConstants.START_ELEMENT -> {
                    XmlElement element = element(events);
                    if (open.isEmpty()) {
                        root = Optional.of(element);
                    } else {
                        open.peek().children.add(element);
                    }
                    open.push(element);
                }
                case XMLStreamConstants.END_ELEMENT -> open.pop();
                case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
                    if (!open.isEmpty()) {
                        open.peek().text.append(events.getText());
                    }
                }
                case XMLStreamConstants.COMMENT -> comments.add(events.getText());
                default -> {
                    // instructions and the end of the document say nothing here
                }
            }
        }
        events.close();
        return new Document(root.orElseThrow(() -> new XMLStreamException("no element at all")), comments);
    }

    private static XmlElement element(XMLStreamReader events) {
        Map<String, String> attributes = new LinkedHashMap<>();
        for (int i = 0; i < events.getAttributeCount(); i++) {
            attributes.put(events.getAttributeLocalName(i), events.getAttributeValue(i));
        }
        String namespace = events.getNamespaceURI();
        return new XmlElement(
                namespace == null ? "" : namespace,
                events.getLocalName(),
                events.getLocation().getLineNumber(),
                attributes);
    }

    /** Name without prefix. */
    public String name() {
        return name;
    }

    /** Namespace; empty if it has none. */
    public String namespace() {
        return namespace;
    }

    /** Line of the file in which its first tag ends, from 1. */
    public int line() {
        return line;
    }

    /** An attribute by its name without prefix, without outer blanks. */
    public Optional<String> attribute(String attribute) {
        return Optional.ofNullable(attributes.get(attribute)).map(String::strip);
    }

    /** Every element directly inside, in the order of the file. */
    public List<XmlElement> children() {
        return List.copyOf(children);
    }

    /** Elements of that name directly inside. */
    public List<XmlElement> children(String childName) {
        return children.stream().filter(child -> child.name.equals(childName)).toList();
    }

    /** The first element of that name directly inside. */
    public Optional<XmlElement> child(String childName) {
        return children.stream().filter(child -> child.name.equals(childName)).findFirst();
    }

    /** Follows the first element of each name. */
    public Optional<XmlElement> find(String... way) {
        Optional<XmlElement> here = Optional.of(this);
        for (String step : way) {
            here = here.flatMap(element -> element.child(step));
        }
        return here;
    }

    /** Its own text, without that of the elements inside and without outer blanks. */
    public String text() {
        return text.toString().strip();
    }

    /** This element and all inside it, in the order of the file. */
    public List<XmlElement> all() {
        List<XmlElement> all = new ArrayList<>();
        collect(all);
        return all;
    }

    private void collect(List<XmlElement> all) {
        all.add(this);
        for (XmlElement child : children) {
            child.collect(all);
        }
    }
}
