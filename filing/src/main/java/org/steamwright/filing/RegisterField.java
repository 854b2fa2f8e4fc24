package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.register.RegisterFile;

/**
 * A field of an entry of the register, as the schemas of the file formats know it: they are the one place where fields, their
 * words and their order stand.
 *
 * @param key as files spell it
 * @param look how it is written
 * @param isNeeded whether an entry can't be without it
 * @param choices words to choose from
 * @param example as a file would state it; may be blank
 * @param fields of an entry in it
 */
public record RegisterField(
        String key, Look look, boolean isNeeded, List<String> choices, String example, List<RegisterField> fields) {

    /** How a field is written. */
    public enum Look {
        TEXT,
        DAY,
        /** A day, or a month to its end. */
        EXPIRY,
        COUNT,
        YES_NO,
        /** A number, mostly with its unit. */
        QUANTITY,
        PERIOD,
        CHOICE,
        CHOICES,
        TEXTS,
        /** Points of a certificate, one a line. */
        POINTS,
        /** Several fields together. */
        ENTRY,
        /** Any number of entries, each of several fields. */
        ENTRIES
    }

    /** A list of the register. */
    public enum Listed {
        CLINICS("clinics", "clinic"),
        STERILIZERS("sterilizers", "sterilizer"),
        INSTRUMENTS("instruments", "instrument"),
        TESTERS("testers", "tester"),
        TECHNICIANS("technicians", "technician"),
        LOTS("lots", "lot"),
        PARTS("parts", "part");

        private final String word;
        private final String shape;

        Listed(String word, String shape) {
            this.word = word;
            this.shape = shape;
        }

        /** As files spell the list. */
        public String word() {
            return word;
        }

        /** The list of that word. */
        public static Optional<Listed> find(String word) {
            for (Listed one : values()) {
                if (one.word.equals(word)) {
                    return Optional.of(one);
                }
            }
            return Optional.empty();
        }
    }

    private static final int DEEPEST = 5;
    private static final Map<String, Look> LOOKS = Map.of(
            "text", Look.TEXT,
            "zone", Look.TEXT,
            "texts", Look.TEXTS,
            "date", Look.DAY,
            "expiry", Look.EXPIRY,
            "count", Look.COUNT,
            "yes-or-no", Look.YES_NO,
            "period", Look.PERIOD);
    private static final Set<String> FIGURES = Set.of("quantity", "positive-number", "size", "value");
    private static final Map<Listed, List<RegisterField>> ALL = new EnumMap<>(Listed.class);

    static {
        JsonNode register = definitions(RegisterFile.class, RegisterFile.SCHEMA);
        JsonNode visit = definitions(VisitFolder.class, "visit.schema.json");
        for (Listed one : Listed.values()) {
            ALL.put(one, of(one.shape, one == Listed.INSTRUMENTS ? visit : register, 0));
        }
    }

    public RegisterField {
        choices = List.copyOf(choices);
        fields = List.copyOf(fields);
    }

    /** The fields of the entries of a list, in the order of the reference page. */
    public static List<RegisterField> of(Listed list) {
        return Optional.ofNullable(ALL.get(list)).orElseThrow();
    }

    private static JsonNode definitions(Class<?> beside, String name) {
        try (InputStream in = beside.getResourceAsStream(name)) {
            return new ObjectMapper().readTree(in).path("$defs");
        } catch (IOException broken) {
            throw new UncheckedIOException(name + " can't be read from the program's own jar", broken);
        }
    }

    private static List<RegisterField> of(String shape, JsonNode definitions, int depth) {
        List<RegisterField> fields = new ArrayList<>();
        List<String> needed = new ArrayList<>();
        definitions.path(shape).path("required").forEach(key -> needed.add(key.asText()));
        definitions.path(shape).path("properties").properties().forEach(property -> {
            Optional<Look> look = look(property.getValue(), definitions);
            if (look.isEmpty() || depth == DEEPEST) {
                return;
            }
            JsonNode value = property.getValue();
            JsonNode items = look.get() == Look.ENTRIES || look.get() == Look.CHOICES ? value.path("items") : value;
            String name = reference(items);
            JsonNode meant = name.isEmpty() ? items : definitions.path(name);
            List<String> choices = new ArrayList<>();
            if (look.get() == Look.CHOICE || look.get() == Look.CHOICES) {
                meant.path("enum").forEach(word -> choices.add(word.asText()));
            }
            JsonNode example = value.path("examples").path(0);
            boolean isEntry = look.get() == Look.ENTRY || look.get() == Look.ENTRIES;
            fields.add(new RegisterField(
                    property.getKey(),
                    look.get(),
                    needed.contains(property.getKey()),
                    choices,
                    example.isValueNode() ? example.asText() : "",
                    isEntry ? of(name, definitions, depth + 1) : List.of()));
        });
        return fields;
    }

    /** The name of what a schema refers to; of several ways to write something the first one. */
    private static String reference(JsonNode schema) {
        JsonNode one = schema.has("anyOf") ? schema.path("anyOf").path(0) : schema;
        String reference = one.path("$ref").asText();
        return reference.substring(reference.lastIndexOf('/') + 1);
    }

    /** Empty for what can't be written in a form. */
    private static Optional<Look> look(JsonNode schema, JsonNode definitions) {
        if (schema.has("enum")) {
            return Optional.of(Look.CHOICE);
        }
        if (schema.path("type").asText().equals("array")) {
            JsonNode items = schema.path("items");
            if (reference(items).equals("point")) {
                return Optional.of(Look.POINTS);
            }
            boolean isOfEntries = definitions.path(reference(items)).has("properties");
            Optional<Look> ofWords = items.has("enum")
                    ? Optional.of(Look.CHOICES)
                    : Optional.of(Look.TEXTS).filter(look -> reference(items).equals("text"));
            return isOfEntries ? Optional.of(Look.ENTRIES) : ofWords;
        }
        String name = reference(schema);
        if (schema.has("anyOf") && name.equals("text")) {
            return Optional.of(Look.TEXTS);
        }
        Optional<Look> known = Optional.ofNullable(LOOKS.get(name));
        if (known.isPresent()) {
            return known;
        }
        JsonNode meant = definitions.path(name);
        if (meant.has("properties")) {
            return Optional.of(Look.ENTRY);
        }
        if (meant.has("enum")) {
            return Optional.of(Look.CHOICE);
        }
        return FIGURES.contains(name) || meant.path("type").asText().equals("string")
                ? Optional.of(Look.QUANTITY)
                : Optional.empty();
    }
}
