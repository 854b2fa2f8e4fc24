package org.steamwright.records.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.erdtman.jcs.JsonCanonicalizer;
import org.jspecify.annotations.Nullable;

/**
 * A JSON value in canonical form.
 *
 * @param text the canonical text: members in order, no blanks, numbers in their shortest form
 * @source RFC 8785 (JSON Canonicalization Scheme)
 */
public record JsonText(String text) {

    private static final ObjectMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    /** A double carries any decimal number of so many digits there and back. */
    private static final int DIGITS_OF_A_DOUBLE = 17;

    private static final HexFormat HEX = HexFormat.of();

    private static final BigDecimal LARGEST_WHOLE = BigDecimal.valueOf(1L << 53);

    /** No value. */
    public static final JsonText NULL = new JsonText("null");

    /** Kept text that is canonical already, taken without looking: only from where {@link #parse} wrote it. */
    public JsonText {}

    /**
     * Reads any JSON and puts it into canonical form.
     *
     * @throws IllegalArgumentException if the text is no JSON, names a member twice, or holds a number that a double can't
     *     carry
     */
    public static JsonText parse(String json) {
        JsonNode node = read(json);
        checkNumbers(node);
        if (node.isNull()) {
            return NULL;
        }
        try {
            // the library takes objects and arrays only
            String wrapped = new JsonCanonicalizer("[" + json + "]").getEncodedString();
            checkCharacters(wrapped);
            return new JsonText(wrapped.substring(1, wrapped.length() - 1));
        } catch (IOException e) {
            throw new IllegalArgumentException("not JSON: " + e.getMessage(), e);
        }
    }

    /**
     * A text as JSON, without a parser: the usual case.
     *
     * @throws IllegalArgumentException if the text holds half of a character
     */
    public static JsonText quote(String plain) {
        checkCharacters(plain);
        StringBuilder quoted = new StringBuilder(plain.length() + 2).append('"');
        for (int i = 0; i < plain.length(); i++) {
            char sign = plain.charAt(i);
            switch (sign) {
                case '"' -> quoted.append("\\\"");
                case '\\' -> quoted.append("\\\\");
                case '\b' -> quoted.append("\\b");
                case '\t' -> quoted.append("\\t");
                case '\n' -> quoted.append("\\n");
                case '\f' -> quoted.append("\\f");
                case '\r' -> quoted.append("\\r");
                default -> {
                    if (sign < ' ') {
                        quoted.append("\\u00").append(HEX.toHexDigits((byte) sign));
                    } else {
                        quoted.append(sign);
                    }
                }
            }
        }
        return new JsonText(quoted.append('"').toString());
    }

    private static void checkCharacters(String text) {
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            if (Character.isHighSurrogate(sign)
                    && i + 1 < text.length()
                    && Character.isLowSurrogate(text.charAt(i + 1))) {
                i++;
            } else if (Character.isSurrogate(sign)) {
                throw new IllegalArgumentException(
                        "character %s of the text is half of a pair; it can't be written as UTF-8".formatted(i + 1));
            }
        }
    }

    /**
     * The value as JSON: text, number, boolean, map, collection or nothing.
     *
     * @throws IllegalArgumentException as {@link #parse}
     */
    public static JsonText of(@Nullable Object value) {
        if (value instanceof String text) {
            return quote(text);
        }
        try {
            return parse(MAPPER.writeValueAsString(value));
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException("cannot be written as JSON: " + e.getOriginalMessage(), e);
        }
    }

    private static JsonNode read(String json) {
        try {
            JsonNode node = MAPPER.readTree(json);
            if (node == null || node.isMissingNode()) {
                throw new IllegalArgumentException("not JSON: nothing is written there");
            }
            return node;
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException("not JSON: " + e.getOriginalMessage(), e);
        }
    }

    private static void checkNumbers(JsonNode node) {
        if (node.isNumber()) {
            BigDecimal number = node.decimalValue();
            boolean isWhole = node.isIntegralNumber();
            boolean isCarried = isWhole
                    ? number.abs().compareTo(LARGEST_WHOLE) <= 0
                    : number.stripTrailingZeros().precision() <= DIGITS_OF_A_DOUBLE
                            && !Double.isInfinite(number.doubleValue());
            if (!isCarried) {
                throw new IllegalArgumentException(
                        "the number %s has more digits than JSON carries everywhere; write it as text, in quotation marks"
                                .formatted(node.asText()));
            }
        }
        for (JsonNode child : node) {
            checkNumbers(child);
        }
    }

    /** Whether this is {@code null}. */
    public boolean isNull() {
        return text.equals(NULL.text);
    }

    /** The value taken apart. */
    public JsonNode node() {
        return read(text);
    }

    /** A text without its quotation marks; anything else as it is written. */
    public String plain() {
        return text.startsWith("\"") ? node().asText() : text;
    }

    /** The canonical text in UTF-8: what is hashed and signed. */
    public byte[] bytes() {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    @Override
    public String toString() {
        return text;
    }
}
