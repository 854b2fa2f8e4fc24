package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;
import org.steamwright.visit.validity.TodaysLoad.Thing;

class LoadFileTest {

    private static final Path PAGE = Path.of(System.getProperty("steamwright.root"), "docs/reference/load-file.md");
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    Path folder;

    private StatedLoad read(String yaml) throws IOException, VisitFolderException {
        return LoadFile.read(Files.writeString(folder.resolve("load.yaml"), yaml));
    }

    private static JsonNode schema() throws IOException {
        try (InputStream in = LoadFile.class.getResourceAsStream(LoadFile.SCHEMA)) {
            return JSON.readTree(in);
        }
    }

    private static String example() throws IOException {
        Matcher block = Pattern.compile("(?ms)^```yaml\\n(.*?)^```$").matcher(Files.readString(PAGE));
        assertThat(block.find()).isTrue();
        return block.group(1);
    }

    @Test
    void the_example_of_the_page_is_read_and_fits_the_schema() throws Exception {
        assertThat(read(example()))
                .isEqualTo(new StatedLoad(
                        "SN-0417",
                        "134 wrapped",
                        Optional.of(LocalDate.of(2026, 3, 20)),
                        OptionalInt.of(4750),
                        List.of(
                                new Thing("mirror", 6, "solid", "pouch"),
                                new Thing("hand-piece", 2, "hollow B", "pouch twice")),
                        Optional.of(2.4),
                        Optional.of(720.0),
                        Optional.of(true),
                        OptionalInt.of(2)));
        Object tree =
                new Load(LoadSettings.builder().setSchema(new CoreSchema()).build()).loadFromString(example());
        assertThat(JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                        .getSchema(schema())
                        .validate(JSON.valueToTree(tree)))
                .isEmpty();
    }

    @Test
    void the_schema_and_the_page_have_the_keys_that_the_program_reads() throws Exception {
        String page = Files.readString(PAGE);
        for (LoadFile.Keys shape : LoadFile.Keys.values()) {
            List<String> keys = new ArrayList<>();
            schema().at("/$defs/" + shape.word() + "/properties").fieldNames().forEachRemaining(keys::add);
            assertThat(keys).as(shape.word()).isEqualTo(shape.keys());
            assertThat(shape.keys()).allSatisfy(key -> assertThat(page).contains("| `" + key + "` |"));
        }
    }

    @Test
    void what_is_typed_wins_over_the_file_and_things_add_up() throws Exception {
        StatedLoad file = read("steamwright-load: 1\ncycle: 134 wrapped\nmass: 900 g\nitems: [{name: a, count: 1}]\n");
        StatedLoad typed = new StatedLoad(
                "A",
                "121 wrapped",
                Optional.empty(),
                OptionalInt.empty(),
                List.of(new Thing("b", 2, "solid", "none")),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
        StatedLoad both = typed.over(file);
        assertThat(both.cycle()).isEqualTo("121 wrapped");
        assertThat(both.kilogram()).contains(0.9);
        assertThat(both.things()).extracting(Thing::name).containsExactly("a", "b");
        assertThat(StatedLoad.NONE.over(file)).isEqualTo(file);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "cycle: x | VISIT-005 load.yaml, line 1: found no \"steamwright-load\"",
                "steamwright-load: 2 | VISIT-005 load.yaml, line 1: found version \"2\"",
                "steamwright-load: 1#cylce: x | VISIT-006 load.yaml, line 2, cylce: found the unknown key",
                "steamwright-load: 1#items: [{count: 2}] | VISIT-008 load.yaml, line 2, items[1]: found no \"name\"",
                "steamwright-load: 1#items: [{name: a, count: 0}] | VISIT-017",
                "steamwright-load: 1#items: [{name: a, count: 1, family: hollow}] | VISIT-016",
                "steamwright-load: 1#mass: 3 | VISIT-010",
                "steamwright-load: 1#on: 20.3.2026 | VISIT-014",
                "steamwright-load: 1#tests-passed: perhaps | VISIT-016",
            })
    void what_is_wrong_is_said_with_its_place(String yaml, String begins) {
        assertThatThrownBy(() -> read(yaml.replace('#', '\n')))
                .isInstanceOfSatisfying(
                        VisitFolderException.class,
                        refused ->
                                assertThat(refused.problems().get(0).toString()).startsWith(begins));
    }

    @Test
    void a_file_that_is_not_there_is_said() {
        assertThatThrownBy(() -> LoadFile.read(folder.resolve("none.yaml")))
                .isInstanceOfSatisfying(
                        VisitFolderException.class,
                        refused -> assertThat(refused.problems().get(0).toString())
                                .isEqualTo(
                                        "VISIT-022 none.yaml: found no such file, expected a load. Check the path."));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "6 mirrors, solid, pouch | mirrors | 6 | solid | pouch",
                "2 x hand-piece, straight, hollow A, pouch twice | hand-piece, straight | 2 | hollow A | pouch twice",
                "12×  tips,Hollow-B,none | tips | 12 | hollow B | none",
                "1 3-way syringe, porous, wrapped | 3-way syringe | 1 | porous | wrapped",
            })
    void a_thing_is_read_as_typed(String written, String name, int count, String family, String packaging)
            throws Exception {
        assertThat(LoadFile.thing(written, "--item")).isEqualTo(new Thing(name, count, family, packaging));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "mirrors, solid, pouch | VISIT-009 --item: found \"mirrors, solid, pouch\", expected how many",
                "6 mirrors | VISIT-009",
                "0 mirrors, solid, pouch | VISIT-009",
                "6 mirrors, sold, pouch | VISIT-016 --item: found \"sold\"",
            })
    void a_thing_that_can_not_be_understood_is_said(String written, String begins) {
        assertThatThrownBy(() -> LoadFile.thing(written, "--item"))
                .isInstanceOfSatisfying(
                        VisitFolderException.class,
                        refused ->
                                assertThat(refused.problems().get(0).toString()).startsWith(begins));
    }

    @Test
    void quantities_are_read_as_typed() throws Exception {
        assertThat(LoadFile.kilogram("2400 g", "--mass")).isEqualTo(2.4);
        assertThat(LoadFile.seconds("12 min 30 s", "--drying")).isEqualTo(750);
        assertThat(LoadFile.yesOrNo("no", "--tests-passed")).isFalse();
        assertThatThrownBy(() -> LoadFile.kilogram("2,4 kg", "--mass"))
                .isInstanceOfSatisfying(
                        VisitFolderException.class,
                        refused ->
                                assertThat(refused.problems().get(0).toString()).startsWith("VISIT-012 --mass: "));
    }
}
