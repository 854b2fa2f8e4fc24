package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The tables of keys on the reference page are written from the schema; {@code -Dgolden=write} rewrites them. */
class VisitFolderPageTest {

    private static final String BEGIN = "<!-- keys: written from visit.schema.json, see VisitFolderPageTest -->\n";
    private static final String END = "<!-- /keys -->";

    @Test
    void lists_every_key_with_its_meaning_and_an_example() throws IOException {
        String page = Files.readString(Examples.PAGE);
        int from = page.indexOf(BEGIN) + BEGIN.length();
        int to = page.indexOf(END);
        String tables = tables();
        if ("write".equals(System.getProperty("golden"))) {
            Files.writeString(Examples.PAGE, page.substring(0, from) + tables + page.substring(to));
            return;
        }
        assertThat(page.substring(from, to))
                .as("the tables of " + Examples.PAGE + "; run the test with -Dgolden=write to rewrite them")
                .isEqualTo(tables);
    }

    private static String tables() {
        StringBuilder text = new StringBuilder();
        for (Shape shape : Shape.values()) {
            JsonNode definition = VisitSchemaTest.SCHEMA.at("/$defs/" + shape.word());
            Set<String> required = new HashSet<>();
            definition.path("required").forEach(key -> required.add(key.asText()));
            text.append("\n### ")
                    .append(shape.word())
                    .append("\n\n")
                    .append(definition.get("description").asText())
                    .append("\n\n| Key | Must | Value | Meaning | Example |\n|---|---|---|---|---|\n");
            for (String key : shape.keys()) {
                JsonNode property = definition.get("properties").get(key);
                text.append("| `")
                        .append(key)
                        .append("` | ")
                        .append(required.contains(key) ? "must" : "")
                        .append(" | ")
                        .append(value(property))
                        .append(" | ")
                        .append(property.get("description").asText())
                        .append(" | `")
                        .append(example(property.get("examples").get(0)))
                        .append("` |\n");
            }
        }
        return text.append('\n').toString();
    }

    private static String value(JsonNode property) {
        if (property.has("$ref")) {
            String name = property.get("$ref").asText().replace("#/$defs/", "");
            JsonNode definition = VisitSchemaTest.SCHEMA.at("/$defs/" + name);
            if (definition.has("properties")) {
                return "[" + name + "](#" + name + ")";
            }
            return definition.has("enum") ? "word" : name.replace('-', ' ');
        }
        if (property.at("/anyOf/0/$ref").isTextual()
                && property.at("/anyOf/1/$ref").isTextual()) {
            return value(property.at("/anyOf/0")) + " or " + value(property.at("/anyOf/1"));
        }
        if (property.path("type").asText().equals("array")
                && property.at("/items/$ref").isTextual()) {
            return "list of " + value(property.get("items"));
        }
        if (property.path("type").asText().equals("array")) {
            return "list";
        }
        if (property.path("type").asText().equals("object")) {
            return "mapping";
        }
        return property.has("enum") ? "word" : "text";
    }

    /** One line of YAML in flow style. */
    private static String example(JsonNode node) {
        if (node.isObject()) {
            StringBuilder text = new StringBuilder("{");
            node.properties()
                    .forEach(entry -> text.append(text.length() > 1 ? ", " : "")
                            .append(entry.getKey())
                            .append(": ")
                            .append(example(entry.getValue())));
            return text.append('}').toString();
        }
        if (node.isArray()) {
            StringBuilder text = new StringBuilder("[");
            node.forEach(item -> text.append(text.length() > 1 ? ", " : "").append(example(item)));
            return text.append(']').toString();
        }
        String word = node.asText();
        boolean isQuoted = node.isTextual() && (word.contains(": ") || word.contains("#") || word.startsWith("+"));
        return isQuoted ? '"' + word + '"' : word;
    }
}
