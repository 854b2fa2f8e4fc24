package org.steamwright.intake.xml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class Utf8CheckTest {

    @ParameterizedTest
    @ValueSource(strings = {"<a>x</a>", "<a>é</a>", "<a>€</a>", "<a>\uD83D\uDE00</a>", "\uFEFF<a/>"})
    void lets_utf_8_through(String text) throws IOException {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        assertThat(Utf8Check.of(new ByteArrayInputStream(bytes)).readAllBytes()).isEqualTo(bytes);
    }

    @ParameterizedTest
    @ValueSource(ints = {0x80, 0xC0, 0xC1, 0xE9, 0xF5, 0xFF})
    void stops_at_a_byte_that_is_none(int value) {
        byte[] bytes = {'<', 'a', '>', (byte) value, 'x', '<', '/', 'a', '>'};
        assertThatThrownBy(() -> Utf8Check.of(new ByteArrayInputStream(bytes)).readAllBytes())
                .hasMessage("a byte that is no UTF-8");
    }

    @ParameterizedTest
    @ValueSource(strings = {"E0 80 80", "ED A0 80", "F0 80 80 80", "F4 90 80 80"})
    void stops_at_what_only_looks_like_it(String hex) {
        byte[] bytes = java.util.HexFormat.ofDelimiter(" ").parseHex("3C " + hex);
        assertThatThrownBy(() -> Utf8Check.of(new ByteArrayInputStream(bytes)).readAllBytes())
                .isInstanceOf(IOException.class);
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-16", "UTF-16LE", "UTF-16BE", "ISO-8859-1"})
    void leaves_other_encodings_alone(String charset) throws IOException {
        byte[] bytes = ("<?xml version='1.0' encoding='" + charset + "'?><a>é</a>").getBytes(Charset.forName(charset));
        assertThat(Utf8Check.of(new ByteArrayInputStream(bytes)).readAllBytes()).isEqualTo(bytes);
    }

    @Test
    void the_parser_has_nothing_to_print() {
        PrintStream before = System.err;
        ByteArrayOutputStream printed = new ByteArrayOutputStream();
        System.setErr(new PrintStream(printed, true, StandardCharsets.UTF_8));
        try {
            for (int value = 0x80; value <= 0xFF; value++) {
                byte[] bytes = {'<', 'a', '>', (byte) value, 'x', '<', '/', 'a', '>'};
                assertThatThrownBy(() -> readToEnd(bytes)).isInstanceOf(XMLStreamException.class);
            }
        } finally {
            System.setErr(before);
        }
        assertThat(printed.toString(StandardCharsets.UTF_8)).isEmpty();
    }

    private static void readToEnd(byte[] bytes) throws XMLStreamException {
        XMLStreamReader reader = SafeXml.stream(new ByteArrayInputStream(bytes), XmlLimits.DOCUMENT);
        while (reader.hasNext()) {
            reader.next();
        }
    }
}
