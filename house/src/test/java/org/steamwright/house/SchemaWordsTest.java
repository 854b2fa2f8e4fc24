package org.steamwright.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.tngtech.archunit.core.domain.JavaClass;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Words that a published schema allows for a field are all the words that the program writes there. */
class SchemaWordsTest {

    private static final Path FOLDER =
            Path.of("report", "src", "main", "resources", "org", "steamwright", "report", "result");
    /** What some places write is a part of the words, each with its reason. */
    private static final Set<Set<String>> PARTS = Set.of(
            // a plan adds these steps and no others
            Set.of("leak-without-sensors", "empty-chamber"),
            // the plateau's borders are the evidence itself and can't be stated
            Set.of("air-removal", "conditioning", "heating", "exhaust", "drying"),
            // leak tests stand beside each other only where one was made
            Set.of(
                    "tight",
                    "sterilizer",
                    "cables",
                    "port",
                    "port-unknown",
                    "wet-or-cooling",
                    "not-told-apart",
                    "undecided"));

    private static final ObjectMapper JSON = new ObjectMapper();

    @ParameterizedTest
    @ValueSource(strings = {"result.schema.json", "due.schema.json", "plan.schema.json"})
    void a_list_that_names_words_of_the_program_names_all_of_them(String file) throws IOException {
        List<Set<String>> lists = new ArrayList<>();
        collect(JSON.readTree(Checkout.text(Checkout.ROOT.resolve(FOLDER).resolve(file))), lists);
        assertThat(lists).isNotEmpty();
        List<Set<String>> words = Program.CLASSES.stream()
                .filter(JavaClass::isEnum)
                .map(SchemaWordsTest::words)
                .toList();
        for (Set<String> list : lists) {
            List<Set<String>> holding =
                    words.stream().filter(one -> one.containsAll(list)).toList();
            assertThat(holding.isEmpty() || holding.contains(list) || PARTS.contains(list))
                    .as("%s: %s may be of %s", file, list, holding)
                    .isTrue();
        }
    }

    private static Set<String> words(JavaClass type) {
        return Arrays.stream(type.reflect().getEnumConstants())
                .map(one -> ((Enum<?>) one).name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static void collect(JsonNode schema, List<Set<String>> lists) {
        JsonNode words = schema.path("enum");
        if (words.isArray() && words.size() > 1) {
            Set<String> list = new HashSet<>();
            words.forEach(word -> list.add(word.asText()));
            lists.add(list);
        }
        schema.forEach(inner -> collect(inner, lists));
    }
}
