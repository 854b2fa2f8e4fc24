package org.steamwright.intake.xml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.stream.Stream;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.intake.xml.XmlRefusedException.Reason;

class SafeXmlTest {

    private static final XmlLimits SMALL = new XmlLimits(2_000, 20, 5, 4, 50);

    @TempDir
    Path folder;

    @Test
    void gives_the_text_of_an_ordinary_document() throws XMLStreamException {
        XMLStreamReader reader = stream("<?xml version='1.0'?><!-- c --><a x='1'>T &amp; <![CDATA[<p>]]></a>", SMALL);
        assertThat(reader.nextTag()).isEqualTo(XMLStreamConstants.START_ELEMENT);
        assertThat(reader.getAttributeValue(null, "x")).isEqualTo("1");
        assertThat(reader.getElementText()).isEqualTo("T & <p>");
        assertThat(reader.next()).isEqualTo(XMLStreamConstants.END_DOCUMENT);
        assertThat(reader.hasNext()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "UTF-16", "UTF-16LE", "ISO-8859-1", "windows-1252"})
    void reads_the_encoding_that_the_document_declares(String encoding) throws XMLStreamException {
        String mark = encoding.equals("UTF-16LE") ? "\uFEFF" : "";
        byte[] xml = (mark + "<?xml version='1.0' encoding='" + encoding + "'?><a>Größe</a>")
                .getBytes(Charset.forName(encoding));
        assertThat(SafeXml.document(xml, SMALL).getDocumentElement().getTextContent())
                .isEqualTo("Größe");
        XMLStreamReader reader = SafeXml.stream(new ByteArrayInputStream(xml), SMALL);
        reader.nextTag();
        assertThat(reader.getElementText()).isEqualTo("Größe");
    }

    /** Attempts to make a parser open another file, a connection, or endless memory. */
    static Stream<Arguments> hostile() {
        return Stream.of(
                Arguments.of("<!DOCTYPE a><a/>", "an empty document type"),
                Arguments.of("<!DOCTYPE a [<!ENTITY e SYSTEM '%s'>]><a>&e;</a>", "an entity from elsewhere"),
                Arguments.of("<!DOCTYPE a [<!ENTITY e SYSTEM '%s'>]><a x='&e;'/>", "the same in an attribute"),
                Arguments.of("<!DOCTYPE a [<!ENTITY e PUBLIC 'p' '%s'>]><a>&e;</a>", "a public entity"),
                Arguments.of("<!DOCTYPE a SYSTEM '%s'><a/>", "an external document type"),
                Arguments.of("<!DOCTYPE a PUBLIC 'p' '%s'><a/>", "a public document type"),
                Arguments.of("<!DOCTYPE a [<!ENTITY %% p SYSTEM '%s'> %%p;]><a/>", "a parameter entity"),
                Arguments.of("<!DOCTYPE a [<!NOTATION n SYSTEM '%s'>]><a/>", "a notation"),
                Arguments.of("<!DOCTYPE a [<!ATTLIST a x CDATA 'default'>]><a/>", "a default attribute"),
                Arguments.of(
                        "<!DOCTYPE a [<!ENTITY b 'x'><!ENTITY c '&b;&b;&b;&b;&b;&b;'><!ENTITY d '&c;&c;&c;&c;'>]><a>&d;</a>",
                        "entities that multiply"),
                Arguments.of("<!DOCTYPE a [<!ENTITY a '&b;'><!ENTITY b '&a;'>]><a>&a;</a>", "entities in a circle"));
    }

    @ParameterizedTest(name = "{1}")
    @MethodSource("hostile")
    void refuses_a_document_type_and_opens_nothing(String pattern, String why) throws IOException {
        Path secret = Files.writeString(folder.resolve("secret.txt"), "SECRET");
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            server.setSoTimeout(1);
            String connection =
                    "http://" + server.getInetAddress().getHostAddress() + ":" + server.getLocalPort() + "/x";
            for (String target : new String[] {secret.toUri().toString(), connection}) {
                String xml = pattern.formatted(target);
                assertThatThrownBy(() -> readToEnd(xml, SMALL))
                        .as(why)
                        .isInstanceOf(XmlRefusedException.class)
                        .asInstanceOf(InstanceOfAssertFactories.type(XmlRefusedException.class))
                        .returns(Reason.DOCUMENT_TYPE, XmlRefusedException::reason);
                assertThatThrownBy(() -> SafeXml.document(utf8(xml), SMALL))
                        .as(why)
                        .isInstanceOf(XmlRefusedException.class)
                        .hasMessageNotContaining("SECRET");
            }
            assertThatThrownBy(server::accept).as("nobody came").isInstanceOf(java.net.SocketTimeoutException.class);
        }
    }

    @Test
    void neither_a_schema_location_nor_an_inclusion_nor_a_style_sheet_is_fetched()
            throws IOException, XMLStreamException {
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            server.setSoTimeout(1);
            String at = "http://" + server.getInetAddress().getHostAddress() + ":" + server.getLocalPort() + "/x";
            String xml = """
                    <?xml-stylesheet href='%1$s' type='text/xsl'?>
                    <a xmlns:xsi='http://www.w3.org/2001/XMLSchema-instance' xsi:schemaLocation='urn:a %1$s'
                       xsi:noNamespaceSchemaLocation='%1$s'>
                      <xi:include xmlns:xi='http://www.w3.org/2001/XInclude' href='%1$s'/>
                    </a>""".formatted(at);
            assertThat(readToEnd(xml, SMALL)).isPositive();
            assertThat(SafeXml.document(utf8(xml), SMALL)
                            .getElementsByTagNameNS("http://www.w3.org/2001/XInclude", "include")
                            .getLength())
                    .as("the inclusion stays an element like any other")
                    .isEqualTo(1);
            assertThatThrownBy(server::accept).as("nobody came").isInstanceOf(java.net.SocketTimeoutException.class);
        }
    }

    @Test
    void an_entity_that_nobody_declared_is_no_xml() {
        assertThatThrownBy(() -> readToEnd("<a>&e;</a>", SMALL)).isInstanceOf(XMLStreamException.class);
        assertThatThrownBy(() -> SafeXml.document(utf8("<a>&e;</a>"), SMALL)).isInstanceOf(XMLStreamException.class);
    }

    static Stream<Arguments> limits() {
        return Stream.of(
                Arguments.of("<a>" + "x".repeat(1_993) + "</a>", "", "2000 bytes"),
                Arguments.of("<a>" + "x".repeat(1_994) + "</a>", "TOO_LARGE", "2001 bytes"),
                Arguments.of("<a>" + "<b/>".repeat(19) + "</a>", "", "20 elements"),
                Arguments.of("<a>" + "<b/>".repeat(20) + "</a>", "TOO_COMPLEX", "21 elements"),
                Arguments.of("<a>" + "<!---->".repeat(20) + "</a>", "TOO_COMPLEX", "comments count as elements"),
                Arguments.of("<a>" + "<?p ?>".repeat(20) + "</a>", "TOO_COMPLEX", "instructions count as elements"),
                Arguments.of("<a><a><a><a><a/></a></a></a></a>", "", "five deep"),
                Arguments.of("<a><a><a><a><a><a/></a></a></a></a></a>", "TOO_COMPLEX", "six deep"),
                Arguments.of("<a p='1' q='1' r='1' s='1'/>", "", "four attributes"),
                Arguments.of("<a p='1' q='1' r='1' s='1' t='1'/>", "TOO_COMPLEX", "five attributes"),
                Arguments.of("<" + "n".repeat(51) + "/>", "TOO_COMPLEX", "a name of 51 signs"));
    }

    @ParameterizedTest(name = "{2}")
    @MethodSource("limits")
    void keeps_the_limits(String xml, String refused, String why) throws XMLStreamException {
        if (refused.isEmpty()) {
            assertThat(readToEnd(xml, SMALL)).as(why).isPositive();
            assertThat(SafeXml.document(utf8(xml), SMALL)).isNotNull();
            return;
        }
        assertThatThrownBy(() -> readToEnd(xml, SMALL))
                .as(why)
                .asInstanceOf(InstanceOfAssertFactories.type(XmlRefusedException.class))
                .returns(Reason.valueOf(refused), XmlRefusedException::reason);
        assertThatThrownBy(() -> SafeXml.document(utf8(xml), SMALL)).isInstanceOf(XmlRefusedException.class);
    }

    @Test
    void an_endless_document_is_given_up_quickly() {
        byte[] endless = utf8("<a>" + "<b c='d'>".repeat(3_000_000));
        org.junit.jupiter.api.Assertions.assertTimeout(
                Duration.ofSeconds(1),
                () -> assertThatThrownBy(() -> SafeXml.document(endless, XmlLimits.DOCUMENT))
                        .isInstanceOf(XmlRefusedException.class));
    }

    @Test
    void leaves_the_stream_open_for_whoever_opened_it() throws XMLStreamException {
        boolean[] closed = {false};
        ByteArrayInputStream in = new ByteArrayInputStream(utf8("<a/>")) {
            @Override
            public void close() {
                closed[0] = true;
            }
        };
        XMLStreamReader reader = SafeXml.stream(in, SMALL);
        while (reader.hasNext()) {
            reader.next();
        }
        reader.close();
        assertThat(closed[0]).isFalse();
    }

    /** The parser of the Java runtime has no words for this fault and falls over its own message. */
    @Test
    void a_control_character_in_a_declaration_is_refused_like_any_other_fault() {
        String xml = "<!DOCTYPE a [<!ELEMENT a (#PCDATA)>" + (char) 1 + "]><a/>";
        assertThatThrownBy(() -> {
                    XMLStreamReader reader = stream(xml, SMALL);
                    while (reader.hasNext()) {
                        reader.next();
                    }
                })
                .isInstanceOf(XMLStreamException.class);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "no xml", "<a>", "<a></b>", "<a x=1/>", "<a/><b/>", "<p:a/>", "<a>\u0001</a>"})
    void what_is_not_well_formed_is_told_as_such(String xml) {
        assertThatThrownBy(() -> readToEnd(xml, SMALL))
                .isInstanceOf(XMLStreamException.class)
                .isNotInstanceOf(XmlRefusedException.class);
        assertThatThrownBy(() -> SafeXml.document(utf8(xml), SMALL)).isInstanceOf(XMLStreamException.class);
    }

    private static int readToEnd(String xml, XmlLimits limits) throws XMLStreamException {
        XMLStreamReader reader = stream(xml, limits);
        int events = 0;
        while (reader.hasNext()) {
            reader.next();
            events++;
        }
        return events;
    }

    private static XMLStreamReader stream(String xml, XmlLimits limits) throws XMLStreamException {
        return SafeXml.stream(new ByteArrayInputStream(utf8(xml)), limits);
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
