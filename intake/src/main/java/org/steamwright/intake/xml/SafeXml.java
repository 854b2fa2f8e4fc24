package org.steamwright.intake.xml;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.w3c.dom.Document;
import org.xml.sax.ErrorHandler;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import org.xml.sax.SAXParseException;

/**
 * The only place of the program that makes an XML parser.
 *
 * <p>What it hands out is the parser of the Java runtime, never one found on the class path, and it neither opens a second
 * file nor a connection: a document type declaration is refused where it stands, so that no entity can be declared; schema
 * locations and inclusions are text like any other. Everything is read within {@link XmlLimits}.
 */
public final class SafeXml {

    private SafeXml() {}

    /**
     * A document as a stream of events, for large documents. The stream is not closed by the reader.
     *
     * @throws XMLStreamException if not even the beginning is XML; {@link XmlRefusedException} where a limit is passed
     */
    public static XMLStreamReader stream(InputStream in, XmlLimits limits) throws XMLStreamException {
        BoundedStream bounded = new BoundedStream(in, limits.bytes());
        try {
            return new GuardedReader(events(limits).createXMLStreamReader(EncodedText.of(bounded)), bounded, limits);
        } catch (XMLStreamException e) {
            throw bounded.isExceeded() ? bounded.refusal() : e;
        } catch (IOException e) {
            throw new XMLStreamException("its beginning can't be read: " + e.getMessage(), e);
        }
    }

    /**
     * A document as a tree, aware of namespaces, for what needs the whole: signatures. It is read twice, the first time
     * only to see that it keeps the limits.
     *
     * @throws XMLStreamException if it is not well formed; {@link XmlRefusedException} where a limit is passed
     */
    public static Document document(byte[] xml, XmlLimits limits) throws XMLStreamException {
        XMLStreamReader events = stream(new ByteArrayInputStream(xml), limits);
        while (events.hasNext()) {
            events.next();
        }
        events.close();
        try {
            DocumentBuilder builder = trees(limits).newDocumentBuilder();
            builder.setEntityResolver((publicId, systemId) -> {
                throw new SAXException("nothing outside the document is opened");
            });
            builder.setErrorHandler(Strict.INSTANCE);
            return builder.parse(new InputSource(EncodedText.of(new ByteArrayInputStream(xml))));
        } catch (SAXException e) {
            throw new XMLStreamException(String.valueOf(e.getMessage()), e);
        } catch (IOException e) {
            throw new XMLStreamException("the text does not fit its encoding: " + e.getMessage(), e);
        } catch (ParserConfigurationException e) {
            throw new IllegalStateException("the XML parser of this Java runtime lacks a protection", e);
        }
    }

    private static XMLInputFactory events(XmlLimits limits) {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, true);
        factory.setProperty(XMLInputFactory.IS_VALIDATING, false);
        factory.setProperty(XMLInputFactory.IS_COALESCING, false);
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
        factory.setXMLResolver((publicId, systemId, base, namespace) -> {
            throw new XMLStreamException("nothing outside the document is opened");
        });
        factory.setProperty("jdk.xml.entityExpansionLimit", "1");
        factory.setProperty("jdk.xml.totalEntitySizeLimit", "1024");
        factory.setProperty("jdk.xml.elementAttributeLimit", String.valueOf(limits.attributes()));
        factory.setProperty("jdk.xml.maxXMLNameLimit", String.valueOf(limits.nameLength()));
        return factory;
    }

    private static DocumentBuilderFactory trees(XmlLimits limits) throws ParserConfigurationException {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultNSInstance();
        factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
        factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
        factory.setFeature("http://xml.org/sax/features/external-general-entities", false);
        factory.setFeature("http://xml.org/sax/features/external-parameter-entities", false);
        factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
        factory.setAttribute(XMLConstants.ACCESS_EXTERNAL_DTD, "");
        factory.setAttribute(XMLConstants.ACCESS_EXTERNAL_SCHEMA, "");
        factory.setAttribute("jdk.xml.entityExpansionLimit", "1");
        factory.setAttribute("jdk.xml.totalEntitySizeLimit", "1024");
        factory.setAttribute("jdk.xml.maxElementDepth", String.valueOf(limits.depth()));
        factory.setAttribute("jdk.xml.elementAttributeLimit", String.valueOf(limits.attributes()));
        factory.setXIncludeAware(false);
        factory.setExpandEntityReferences(false);
        factory.setValidating(false);
        return factory;
    }

    private enum Strict implements ErrorHandler {
        INSTANCE;

        @Override
        public void warning(SAXParseException e) {
            // a warning is about what a schema or a document type would say; there is none
        }

        @Override
        public void error(SAXParseException e) throws SAXException {
            throw e;
        }

        @Override
        public void fatalError(SAXParseException e) throws SAXException {
            throw e;
        }
    }
}
