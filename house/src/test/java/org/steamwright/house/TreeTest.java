package org.steamwright.house;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Nothing in the tree belongs to one machine or to one place where libraries are fetched from. */
class TreeTest {

    private static final Set<String> TEXT = Set.of(
            "java",
            "md",
            "xml",
            "yaml",
            "yml",
            "json",
            "properties",
            "css",
            "html",
            "xhtml",
            "svg",
            "csv",
            "sh",
            "txt",
            "sha256");

    /** Put together from pieces, so that this file does not name what it looks for. */
    private static final List<Pattern> FOREIGN = List.of(
            Pattern.compile("(?<![\\w.$}/-])/(?:work|root|home|Users|workspace)/\\w"),
            Pattern.compile("(?<![\\w.$}:/-])/" + "tmp\\b"),
            Pattern.compile("[A-Z]:\\\\Users"),
            Pattern.compile("(?:repo\\d?|registry|packages)\\.(?:maven|npmjs|apache)\\." + "(?:org|com)"),
            Pattern.compile(
                    "py" + "pi\\.org|maven\\.google\\.com|jcenter|artifactory|nexus\\.", Pattern.CASE_INSENSITIVE));

    @Test
    void no_file_names_a_path_of_one_machine_or_the_host_of_a_registry() {
        List<String> offences = new ArrayList<>();
        for (Path file : Checkout.files()) {
            if (!isText(file) || file.endsWith("TreeTest.java")) {
                continue;
            }
            String text = Checkout.signs(file);
            for (Pattern pattern : FOREIGN) {
                pattern.matcher(text)
                        .results()
                        .forEach(found -> offences.add(Checkout.relative(file) + ": " + found.group()));
            }
        }
        assertThat(offences).isEmpty();
    }

    @Test
    void the_patterns_catch_what_they_are_for() {
        assertThat(List.of("see /work/x", "cd /home/alex", "> /tmp/out", "https://repo1.maven.org/maven2"))
                .allMatch(text -> FOREIGN.stream()
                        .anyMatch(pattern -> pattern.matcher(text).find()));
        assertThat(List.of("docs/work/x", "${TMPDIR:-/tmp}", "https://maven.apache.org", "and/or/home/alex"))
                .noneMatch(text -> FOREIGN.stream()
                        .anyMatch(pattern -> pattern.matcher(text).find()));
    }

    private static boolean isText(Path file) {
        String name = file.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return dot < 0 || TEXT.contains(name.substring(dot + 1)) || name.startsWith(".");
    }
}
