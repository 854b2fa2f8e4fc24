package org.steamwright.house;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The page of licences names every library that the program is shipped with, in the version it is shipped in. */
class LicencesTest {

    /** Libraries of this module's own tests; whatever else is on its class path is there because the program runs with it. */
    private static final Set<String> TESTS_ONLY = Set.of(
            "org.junit",
            "org.junit.jupiter",
            "org.junit.platform",
            "org.opentest4j",
            "org.apiguardian",
            "org.assertj",
            "net.bytebuddy",
            "com.tngtech.archunit",
            "org.slf4j",
            "org.apache.maven.surefire");

    /** Group as the end of a path, artifact and version: wherever the cache lies. */
    private static final Pattern IN_CACHE =
            Pattern.compile("(.+)[/\\\\]([^/\\\\]+)[/\\\\]([^/\\\\]+)[/\\\\]\\2-\\3[^/\\\\]*\\.jar");

    private static final Pattern ROW = Pattern.compile("(?m)^\\| *`([\\w.-]+:[\\w.-]+)` *\\| *([\\w.-]+) *\\|");

    @Test
    void the_page_lists_exactly_the_libraries_that_are_shipped() {
        Set<String> listed = ROW.matcher(Checkout.text(Checkout.ROOT.resolve("docs/reference/licences.md")))
                .results()
                .map(row -> row.group(1) + ":" + row.group(2))
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(listed).isEqualTo(shipped(listed));
    }

    /** Libraries on the path of the program, each as it is listed; one that is not listed by its file. */
    private static Set<String> shipped(Set<String> listed) {
        String path = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        Set<String> shipped = new TreeSet<>();
        for (String entry : Arrays.asList(path.split(File.pathSeparator))) {
            Matcher jar = IN_CACHE.matcher(entry);
            if (!jar.matches()) {
                continue;
            }
            String folder = "." + jar.group(1).replaceAll("[/\\\\]", ".");
            if (TESTS_ONLY.stream().anyMatch(group -> folder.endsWith("." + group))
                    || folder.endsWith(".org.steamwright")) {
                continue;
            }
            String library = ":" + jar.group(2) + ":" + jar.group(3);
            shipped.add(listed.stream()
                    .filter(row -> row.endsWith(library))
                    .filter(row -> folder.endsWith("." + row.substring(0, row.length() - library.length())))
                    .findFirst()
                    .orElse(entry));
        }
        return shipped;
    }
}
