package org.steamwright.report.result;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Collection;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;

/** Writes named fields in the order of the calls; what is blank, empty or not finite is left out. */
final class Fields {
    private final JsonGenerator json;

    Fields(JsonGenerator json) {
        this.json = json;
    }

    /** Begins an object without a name: the document itself, or an element of a list. */
    void element() throws IOException {
        json.writeStartObject();
    }

    void object(String name) throws IOException {
        json.writeObjectFieldStart(name);
    }

    void endObject() throws IOException {
        json.writeEndObject();
    }

    void list(String name) throws IOException {
        json.writeArrayFieldStart(name);
    }

    void endList() throws IOException {
        json.writeEndArray();
    }

    /** A text, left out if it is blank. */
    void text(String name, String value) throws IOException {
        if (!value.isBlank()) {
            json.writeStringField(name, value);
        }
    }

    /** A number, unrounded; left out if it is not finite. */
    void number(String name, double value) throws IOException {
        if (Double.isFinite(value)) {
            json.writeNumberField(name, value);
        }
    }

    void number(String name, Optional<Double> value) throws IOException {
        if (value.isPresent()) {
            number(name, value.get());
        }
    }

    void count(String name, long value) throws IOException {
        json.writeNumberField(name, value);
    }

    void count(String name, OptionalInt value) throws IOException {
        if (value.isPresent()) {
            json.writeNumberField(name, value.getAsInt());
        }
    }

    void flag(String name, boolean value) throws IOException {
        json.writeBooleanField(name, value);
    }

    /** A list of texts, written even if it is empty: looked and found none. */
    void texts(String name, Collection<String> values) throws IOException {
        json.writeArrayFieldStart(name);
        for (String value : values) {
            json.writeString(value);
        }
        json.writeEndArray();
    }

    void counts(String name, Collection<Integer> values) throws IOException {
        json.writeArrayFieldStart(name);
        for (int value : values) {
            json.writeNumber(value);
        }
        json.writeEndArray();
    }

    /** A word of an enumeration: lower case, with hyphens. */
    void word(String name, Enum<?> value) throws IOException {
        json.writeStringField(name, word(value));
    }

    static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
