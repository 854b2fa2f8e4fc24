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

    private static final Pattern IN_REPOSITORY =
            Pattern.compile(".*[/\\\\]repository[/\\\\](.+)[/\\\\]([^/\\\\]+)[/\\\\]([^/\\\\]+)[/\\\\][^/\\\\]+\\.jar");
    private static final Pattern ROW = Pattern.compile("(?m)^\\| *`([\\w.-]+:[\\w.-]+)` *\\| *([\\w.-]+) *\\|");

    @Test
    void the_page_lists_exactly_the_libraries_that_are_shipped() {
        Set<String> listed = ROW.matcher(Checkout.text(Checkout.ROOT.resolve("docs/reference/licences.md")))
                .results()
                .map(row -> row.group(1) + ":" + row.group(2))
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(listed).isEqualTo(shipped());
    }

    private static Set<String> shipped() {
        String path = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        Set<String> shipped = new TreeSet<>();
        for (String entry : Arrays.asList(path.split(File.pathSeparator))) {
            Matcher jar = IN_REPOSITORY.matcher(entry);
            if (jar.matches()) {
                String group = jar.group(1).replaceAll("[/\\\\]", ".");
                if (!TESTS_ONLY.contains(group) && !group.startsWith("org.steamwright")) {
                    shipped.add(group + ":" + jar.group(2) + ":" + jar.group(3));
                }
            }
        }
        return shipped;
    }
}
