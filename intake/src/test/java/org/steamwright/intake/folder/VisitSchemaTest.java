package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;
import org.steamwright.visit.CheckWords;

class VisitSchemaTest {

    static final ObjectMapper JSON = new ObjectMapper();
    static final JsonNode SCHEMA = schema();

    static JsonNode schema() {
        try (InputStream in = VisitFolder.class.getResourceAsStream("visit.schema.json")) {
            return JSON.readTree(in);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    static JsonNode json(String yaml) {
        Object tree =
                new Load(LoadSettings.builder().setSchema(new CoreSchema()).build()).loadFromString(yaml);
        return JSON.valueToTree(tree);
    }

    static Set<ValidationMessage> validate(String yaml) {
        JsonSchema schema =
                JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(SCHEMA);
        return schema.validate(json(yaml));
    }

    static Set<ValidationMessage> validate(String definition, JsonNode value) {
        JsonNode part = JSON.createObjectNode()
                .put("$schema", "https://json-schema.org/draft/2020-12/schema")
                .put("$ref", "#/$defs/" + definition)
                .set("$defs", SCHEMA.get("$defs"));
        return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                .getSchema(part)
                .validate(value);
    }

    @Test
    void accepts_every_example_of_the_page() throws IOException {
        assertThat(Examples.all()).containsOnlyKeys("ten-lines", "full");
        for (String example : Examples.all().values()) {
            assertThat(validate(example)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(Shape.class)
    void has_the_keys_that_the_reader_accepts_in_the_same_order(Shape shape) {
        JsonNode definition = SCHEMA.at("/$defs/" + shape.word());
        List<String> keys = new ArrayList<>();
        definition.get("properties").fieldNames().forEachRemaining(keys::add);
        assertThat(keys).isEqualTo(shape.keys());
        assertThat(definition.get("additionalProperties").asBoolean(true)).isFalse();
    }

    @Test
    void has_no_closed_mapping_that_the_reader_does_not_know() {
        Set<String> closed = new TreeSet<>();
        SCHEMA.get("$defs").properties().forEach(entry -> {
            if (entry.getValue().has("properties")) {
                closed.add(entry.getKey());
            }
        });
        assertThat(closed)
                .containsExactlyInAnyOrderElementsOf(
                        Arrays.stream(Shape.values()).map(Shape::word).toList());
    }

    @Test
    void requires_what_the_reader_requires(@TempDir Path folder) {
        // left out one by one from a mapping that has all keys, the reader misses exactly the required ones
        Map<String, Set<String>> required = new HashMap<>();
        for (Shape shape : Shape.values()) {
            Set<String> keys = new TreeSet<>();
            SCHEMA.at("/$defs/" + shape.word() + "/required").forEach(key -> keys.add(key.asText()));
            required.put(shape.word(), keys);
        }
        Map<Shape, Set<String>> missed = new EnumMap<>(Shape.class);
        for (Shape shape : Shape.values()) {
            missed.put(shape, RequiredKeys.of(shape, folder));
        }
        missed.forEach((shape, keys) -> assertThat(keys).as(shape.word()).isEqualTo(required.get(shape.word())));
    }

    @Test
    void the_full_example_has_every_key() throws IOException {
        JsonNode full = json(Examples.get("full"));
        for (Shape shape : Shape.values()) {
            for (String key : shape.keys()) {
                assertThat(hasKey(full, key)).as(shape + "." + key).isTrue();
            }
        }
    }

    private static boolean hasKey(JsonNode node, String key) {
        if (node.has(key)) {
            return true;
        }
        for (JsonNode child : node) {
            if (hasKey(child, key)) {
                return true;
            }
        }
        return false;
    }

    static List<String> definitions() {
        List<String> names = new ArrayList<>();
        SCHEMA.get("$defs").fieldNames().forEachRemaining(names::add);
        return names;
    }

    @ParameterizedTest
    @MethodSource("definitions")
    void describes_everything_and_its_examples_hold(String name) {
        JsonNode definition = SCHEMA.at("/$defs/" + name);
        assertThat(definition.path("description").asText()).isNotBlank();
        for (JsonNode example : definition.path("examples")) {
            assertThat(validate(name, example)).as(name + " " + example).isEmpty();
        }
        definition.path("properties").properties().forEach(property -> {
            assertThat(property.getValue().path("description").asText())
                    .as(name + "." + property.getKey())
                    .isNotBlank();
            JsonNode example = property.getValue().path("examples").path(0);
            JsonNode whole = JSON.createObjectNode().set(property.getKey(), example);
            assertThat(validate(name, whole).stream()
                            .filter(message -> !message.getType().equals("required")
                                    || message.getInstanceLocation().getNameCount() > 0))
                    .as(name + "." + property.getKey() + ": " + example)
                    .isEmpty();
        });
    }

    @ParameterizedTest
    @EnumSource(Measure.class)
    void quantities_are_accepted_by_both_or_by_neither(Measure measure) {
        String definition = measure.name().toLowerCase(Locale.ROOT).replace('_', '-');
        for (String text : List.of(
                "134 °C",
                "134°C",
                "-20 °C",
                "−20 °C",
                "273 °F",
                "±0.15 K",
                "+-0.15 K",
                "150 mK",
                "3.042 bar",
                "15 kPa absolute",
                "15 kPa",
                "150 mbar abs",
                "150 mbar(abs)",
                "1013 mbar",
                "3 min",
                "3 min 30 s",
                "3min30s",
                "3:30 min",
                "3 min 30",
                "-3 min",
                "450 m",
                "-10 m",
                "1 km",
                "1000 ft",
                "17 L",
                "17 l",
                "3.2 kg",
                "512.3 g",
                "231 V",
                "45 %",
                "45%",
                "12 µS/cm",
                "12 μS/cm",
                "134",
                "101,2 kPa",
                "hot",
                "",
                "°C",
                "1e3 kPa",
                "1e999 kPa",
                ".5 K",
                "5. K",
                "+5 °C",
                "- 5 °C",
                "99 mmHg",
                "99\u00a0kPa",
                "15 kPa gauge",
                "1 psi",
                "1 atm",
                "1 kgf/cm²",
                "5 K 3 K",
                "5 h 3",
                "0.012 mS/cm")) {
            List<String> problems = new ArrayList<>();
            boolean isRead = Quantities.parse(text, measure, (mistake, flaw) -> problems.add(flaw.text()))
                    .isPresent();
            boolean isValid =
                    validate(definition, JSON.getNodeFactory().textNode(text)).isEmpty();
            assertThat(isValid).as("\"" + text + "\" as " + definition).isEqualTo(isRead);
        }
    }

    @Test
    void words_are_the_same_in_both() {
        Map<String, Map<String, ?>> words = Map.of(
                "kind", Words.KIND,
                "cycle-type", Words.CYCLE_TYPE,
                "role", Words.ROLE,
                "reference-word", Words.REFERENCE,
                "measures", Words.MEASURES,
                "distribution", Words.DISTRIBUTION,
                "section", Words.SECTION,
                "stage", Words.STAGE,
                "family", Words.FAMILY,
                "weighing-kind", Words.WEIGHING);
        words.forEach((definition, known) -> {
            List<String> there = new ArrayList<>();
            SCHEMA.at("/$defs/" + definition + "/enum").forEach(word -> there.add(word.asText()));
            assertThat(there).as(definition).containsExactlyElementsOf(known.keySet());
        });
        List<String> growth = new ArrayList<>();
        SCHEMA.at("/$defs/growth/enum").forEach(word -> growth.add(word.asText()));
        assertThat(growth).containsExactlyElementsOf(Words.GROWTH.keySet());
        Map.of(
                        "other-cycle-kind", Words.OTHER_CYCLE.keySet(),
                        "task-outcome", Words.TASK_OUTCOME.keySet(),
                        "task-condition", Words.TASK_CONDITION.keySet(),
                        "rule", Words.RULE.keySet(),
                        "found-or-left", Words.FOUND_OR_LEFT.keySet(),
                        "penetration-kind", Words.PENETRATION.keySet(),
                        "penetration-result", Words.PENETRATION_RESULT.keySet(),
                        "slowest", Words.SLOWEST.keySet(),
                        "evidence-kind", Words.EVIDENCE.keySet(),
                        "ending-event-kind", Words.ENDING_EVENT.keySet())
                .forEach((definition, known) -> {
                    List<String> there = new ArrayList<>();
                    SCHEMA.at("/$defs/" + definition + "/enum").forEach(word -> there.add(word.asText()));
                    assertThat(there).as(definition).containsExactlyElementsOf(known);
                });
        Map.of(
                        "chemical-type", Words.CHEMICAL_TYPE.keySet(),
                        "end-point", Words.END_POINT.keySet(),
                        "check-result", CheckWords.CHOSEN)
                .forEach((definition, known) -> {
                    List<String> there = new ArrayList<>();
                    SCHEMA.at("/$defs/" + definition + "/enum").forEach(word -> there.add(word.asText()));
                    assertThat(there).as(definition).containsExactlyElementsOf(known);
                });
    }

    @Test
    void refuses_what_the_reader_refuses() throws IOException {
        String full = Examples.get("full");
        assertThat(validate(full.replace("purpose: yearly", "purpos: yearly"))).isNotEmpty();
        assertThat(validate(full.replace("purpose: yearly", "purpose:"))).isNotEmpty();
        assertThat(validate(full.replace("barometer: 1012 mbar", "barometer: 1012")))
                .isNotEmpty();
        assertThat(validate(full.replace("T2: free-chamber", "T2: free chamber")))
                .isNotEmpty();
        assertThat(validate(full.replace("steamwright-visit: 1", "steamwright-visit: 2")))
                .isNotEmpty();
        assertThat(validate(full.replace("date: 2026-03-02", "date: 02.03.2026")))
                .isNotEmpty();
    }
}
