package org.steamwright.intake.register;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/** Page, schema and program say the same about a register; -Dgolden=write writes the tables of the pages anew. */
class RegisterPageTest {

    private static final Path REFERENCE = Path.of(System.getProperty("steamwright.root"), "docs", "reference");
    private static final String BEGIN = "<!-- tables: begin -->\n";
    private static final String END = "<!-- tables: end -->";
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final JsonNode SCHEMA = schema();

    private static JsonNode schema() {
        try (InputStream in = RegisterFile.class.getResourceAsStream(RegisterFile.SCHEMA)) {
            return JSON.readTree(in);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private static List<RegisterShape> shapes() {
        List<RegisterShape> shapes = new ArrayList<>();
        for (RegisterShape shape : RegisterShape.values()) {
            if (shape.compareTo(RegisterShape.DUE_RULES) < 0) {
                shapes.add(shape);
            }
        }
        return shapes;
    }

    @Test
    void the_schema_has_the_keys_that_the_program_reads_in_the_same_order() {
        for (RegisterShape shape : shapes()) {
            List<String> keys = new ArrayList<>();
            SCHEMA.at("/$defs/" + shape.word() + "/properties").fieldNames().forEachRemaining(keys::add);
            assertThat(keys).as(shape.word()).isEqualTo(shape.keys());
        }
    }

    private static Set<ValidationMessage> validate(String yaml) {
        JsonSchema schema =
                JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(SCHEMA);
        Object tree =
                new Load(LoadSettings.builder().setSchema(new CoreSchema()).build()).loadFromString(yaml);
        return schema.validate(JSON.valueToTree(tree));
    }

    @Test
    void the_schema_accepts_the_example_and_what_the_program_writes() throws IOException, RegisterException {
        assertThat(validate(Files.readString(Office.FOLDER.resolve("register.yaml"))))
                .isEmpty();
        assertThat(validate(RegisterYaml.write(RegisterFile.read(Office.FOLDER))))
                .isEmpty();
        for (long seed = 0; seed < 50; seed++) {
            String yaml = RegisterYaml.write(
                    new RegisterFile.Contents(new RandomRegister(seed).register(), Optional.empty()));
            assertThat(validate(yaml)).as(yaml).isEmpty();
        }
    }

    @Test
    void the_schema_refuses_what_the_program_refuses() {
        assertThat(validate("clinics: []\n")).isNotEmpty();
        assertThat(validate("steamwright-register: 1\nlots: [{id: L, kind: bio, number: 1, expires: 2026-06}]\n"))
                .isNotEmpty();
        assertThat(validate("steamwright-register: 1\nclinics: [{id: a, nmae: b}]\n"))
                .isNotEmpty();
    }

    @Test
    void the_page_of_the_register_has_the_tables_of_the_schema() throws IOException {
        StringBuilder text = new StringBuilder();
        for (RegisterShape shape : shapes()) {
            JsonNode definition = SCHEMA.at("/$defs/" + shape.word());
            Set<String> required = new HashSet<>();
            definition.path("required").forEach(key -> required.add(key.asText()));
            text.append("\n### ")
                    .append(shape.word())
                    .append("\n\n")
                    .append(definition.get("description").asText())
                    .append("\n\n| Key | Must | Value | Meaning | Example |\n|---|---|---|---|---|\n");
            for (String key : shape.keys()) {
                JsonNode property = definition.get("properties").get(key);
                text.append("| `%s` | %s | %s | %s | `%s` |%n"
                        .formatted(
                                key,
                                required.contains(key) ? "must" : "",
                                value(property),
                                property.get("description").asText(),
                                example(property.get("examples").get(0)))
                        .replace("\r\n", "\n"));
            }
        }
        holds("register.md", text.append('\n').toString());
    }

    @Test
    void the_page_of_the_table_has_the_columns_of_the_program() throws IOException {
        StringBuilder text = new StringBuilder("\n| Column | Also known as |\n|---|---|\n");
        for (RegisterColumn column : RegisterColumn.values()) {
            text.append("| `")
                    .append(column.word())
                    .append("` | ")
                    .append(String.join(", ", column.others()))
                    .append(" |\n");
        }
        holds("register-table.md", text.append('\n').toString());
    }

    private static void holds(String name, String tables) throws IOException {
        Path file = REFERENCE.resolve(name);
        String page = Files.readString(file);
        int from = page.indexOf(BEGIN) + BEGIN.length();
        int to = page.indexOf(END);
        if ("write".equals(System.getProperty("golden"))) {
            Files.writeString(file, page.substring(0, from) + tables + page.substring(to));
            return;
        }
        assertThat(page.substring(from, to)).as("run with -Dgolden=write").isEqualTo(tables);
    }

    @Test
    void the_example_of_the_page_can_be_read() throws IOException, RegisterException {
        Matcher block = Pattern.compile("(?ms)^```yaml\\n(steamwright-register: 1\\n.*?)^```$")
                .matcher(Files.readString(REFERENCE.resolve("register.md")));
        assertThat(block.find()).isTrue();
        assertThat(Office.read(block.group(1)).sterilizers()).isNotEmpty();
    }

    private static String value(JsonNode property) {
        if (property.has("$ref")) {
            String name = property.get("$ref").asText().replace("#/$defs/", "");
            return SCHEMA.at("/$defs/" + name).has("properties") ? link(name) : name.replace('-', ' ');
        }
        if (property.at("/items/$ref").isTextual()) {
            return "list of " + link(property.at("/items/$ref").asText().replace("#/$defs/", ""));
        }
        if (property.path("type").asText().equals("array")) {
            return "list of words";
        }
        return property.has("anyOf") ? "text or list of texts" : "word";
    }

    private static String link(String name) {
        return "[" + name + "](#" + name + ")";
    }

    /** One line of YAML in flow style. */
    private static String example(JsonNode node) {
        if (node.isObject()) {
            List<String> parts = new ArrayList<>();
            node.properties().forEach(entry -> parts.add(entry.getKey() + ": " + example(entry.getValue())));
            return "{" + String.join(", ", parts) + "}";
        }
        if (node.isArray()) {
            List<String> parts = new ArrayList<>();
            node.forEach(item -> parts.add(example(item)));
            return "[" + String.join(", ", parts) + "]";
        }
        String word = node.asText();
        boolean isNumberLike = node.isTextual() && word.matches("[0-9.]+");
        return isNumberLike || word.contains(": ") ? '"' + word + '"' : word;
    }
}
