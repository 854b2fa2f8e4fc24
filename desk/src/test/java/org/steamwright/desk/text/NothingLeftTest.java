package org.steamwright.desk.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.steamwright.report.language.Language;

/** Words and looks that no page has any more. */
class NothingLeftTest {

    private static final Path MAIN = Path.of("src", "main");
    private static final Pattern TOKEN = Pattern.compile("[A-Za-z0-9_.-]*[A-Za-z0-9_-]");

    /** Keys and classes whose end is put in by the code, as in {@code "runs.role." + word}. */
    private static final Pattern BEGUN = Pattern.compile("\"([a-z][a-z0-9.-]*[.-])\"|([a-z][a-z0-9-]*-)\\$\\{");

    /** Ends that the code puts behind a key. */
    private static final Pattern END = Pattern.compile("-(?:remedy|many)$");

    /** Classes of the library that draws curves. */
    private static final String OF_A_LIBRARY = "u-";

    private static final Pattern COMMENT = Pattern.compile("/\\*.*?\\*/", Pattern.DOTALL);
    private static final Pattern SELECTOR = Pattern.compile("([^{}]+)\\{");
    private static final Pattern CLASS = Pattern.compile("\\.([A-Za-z][\\w-]*)");

    private static String sources(Path... roots) throws IOException {
        StringBuilder all = new StringBuilder();
        for (Path root : roots) {
            try (Stream<Path> files = Files.walk(root)) {
                for (Path file : files.filter(one -> one.toString().matches(".*\\.(?:java|jte|js)"))
                        .toList()) {
                    all.append(Files.readString(file)).append('\n');
                }
            }
        }
        return all.toString();
    }

    private static Set<String> tokens(String sources) {
        return TOKEN.matcher(sources).results().map(found -> found.group()).collect(Collectors.toSet());
    }

    private static Set<String> begun(String sources) {
        return BEGUN.matcher(sources)
                .results()
                .map(found -> found.group(1) == null ? found.group(2) : found.group(1))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static Set<String> unsaid(Set<String> keys, String sources) {
        Set<String> tokens = tokens(sources);
        Set<String> begun = begun(sources);
        return keys.stream()
                .filter(key -> Stream.of(key, END.matcher(key).replaceFirst(""))
                        .flatMap(one -> Stream.of(one, one.substring(one.indexOf('.') + 1)))
                        .noneMatch(one -> tokens.contains(one) || begun.stream().anyMatch(one::startsWith)))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void every_word_of_the_catalogues_is_said_by_a_page() throws IOException {
        // the book of the register names keys of the office's words
        String sources = sources(MAIN, Path.of("..", "filing", "src", "main", "java"));
        for (String room : Words.ROOMS) {
            assertThat(unsaid(Words.file(room, Language.ENGLISH).keySet(), sources))
                    .as(room)
                    .isEmpty();
        }
    }

    @Test
    void every_class_of_the_style_sheets_is_worn_by_a_page() throws IOException {
        // a verdict wears the engine's word for it
        String sources = sources(MAIN, Path.of("..", "assessment", "src", "main", "java"));
        Set<String> tokens = tokens(sources);
        Set<String> begun = begun(sources);
        for (String sheet : Set.of("desk.css", "runs.css")) {
            assertThat(classes(Files.readString(
                            MAIN.resolve(Path.of("resources", "org", "steamwright", "desk", "static", sheet)))))
                    .as(sheet)
                    .hasSizeGreaterThan(10)
                    .allMatch(name -> tokens.contains(name)
                            || name.startsWith(OF_A_LIBRARY)
                            || begun.stream().anyMatch(name::startsWith));
        }
    }

    private static Set<String> classes(String css) {
        return SELECTOR.matcher(COMMENT.matcher(css).replaceAll(""))
                .results()
                .flatMap(rule -> CLASS.matcher(rule.group(1)).results())
                .map(found -> found.group(1))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void what_nobody_says_is_found() {
        assertThat(unsaid(
                        Set.of("web.a", "web.b-remedy", "web.c.d", "web.e"),
                        "say(\"web.a\"); refuse(\"web.b\"); say(\"c.\" + word)"))
                .containsExactly("web.e");
        assertThat(classes(".a .b-c, p.d { margin: 0.5em } /* .e { } */ @media x { .f { } }"))
                .containsExactly("a", "b-c", "d", "f");
    }
}
