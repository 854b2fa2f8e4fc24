package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A released preset never changes. Whoever changes one gives it a new version and adds a line to the list; the lines of
 * earlier versions stay.
 */
class FrozenPresetsTest {

    private static final byte[] LIST = Presets.resource("presets.sha256");

    @ParameterizedTest
    @MethodSource("org.steamwright.criteriasets.PresetsTest#names")
    void are_the_ones_in_the_list(String name) {
        CriteriaFile file = CriteriaFile.read(Presets.bytes(name), name);
        assertThat(Presets.findListed(LIST, name, file.version()))
                .as(
                        "%s, version %s: its bytes differ from the frozen list. Give the file a new version and add the line '%s  %s <new version>' (hash taken after the change of the version).",
                        name, file.version(), Presets.sha256(Presets.bytes(name)), name)
                .contains(Presets.sha256(Presets.bytes(name)));
    }

    @Test
    void list_names_each_version_once_in_lines_of_one_form() {
        List<String> lines = new String(LIST, StandardCharsets.UTF_8).lines().toList();
        assertThat(lines).allMatch(line -> line.matches("[0-9a-f]{64}  [a-z0-9-]+ [^ ]+"));
        assertThat(lines.stream().map(line -> line.substring(64))).doesNotHaveDuplicates();
    }

    @Test
    void list_finds_a_version_and_not_its_neighbour() {
        byte[] list = "aa  uk-htm 1\nbb  uk-htm 11\n".getBytes(StandardCharsets.UTF_8);
        assertThat(Presets.findListed(list, "uk-htm", "1")).contains("aa");
        assertThat(Presets.findListed(list, "uk-htm", "11")).contains("bb");
        assertThat(Presets.findListed(list, "uk-htm", "2")).isEmpty();
        assertThat(Presets.findListed(list, "htm", "1")).isEmpty();
    }
}
