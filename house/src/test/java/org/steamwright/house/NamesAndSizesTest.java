package org.steamwright.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Names that say what a thing is, packages that say what they decide, modules that stay small enough to read. */
class NamesAndSizesTest {

    private static final Pattern EMPTY_NAME =
            Pattern.compile(".*(Manager|Helper|Utils?|Utilities|Data|Info|Impl|Base)|(Abstract|Base)[A-Z].*");

    @Test
    void no_class_has_a_name_that_says_nothing() {
        assertThat(Program.CLASSES.stream()
                        .filter(c -> !c.getSimpleName().equals("package-info"))
                        .map(JavaClass::getName)
                        .filter(name -> EMPTY_NAME
                                .matcher(name.substring(Math.max(name.lastIndexOf('.'), name.lastIndexOf('$')) + 1))
                                .matches()))
                .isEmpty();
    }

    @Test
    void the_pattern_of_empty_names_catches_them() {
        assertThat(List.of(
                        "RunManager",
                        "FormatUtil",
                        "FormatUtils",
                        "TraceData",
                        "BaseReport",
                        "AbstractReport",
                        "StoreImpl"))
                .allMatch(name -> EMPTY_NAME.matcher(name).matches());
        assertThat(List.of("Baseline", "Database", "Information", "CalibrationCertificate"))
                .filteredOn(name -> EMPTY_NAME.matcher(name).matches())
                .as("Database ends in lower case and is a word of its own")
                .isEmpty();
    }

    @Test
    void every_package_says_what_it_decides() {
        List<String> silent = Checkout.mainSources().stream()
                .map(Path::getParent)
                .distinct()
                .filter(folder -> !isExplained(folder.resolve("package-info.java")))
                .map(Checkout::relative)
                .toList();
        assertThat(silent)
                .as("package-info.java with @NullMarked and a comment of 5 to 12 lines")
                .isEmpty();
    }

    private static boolean isExplained(Path info) {
        if (!Files.exists(info)) {
            return false;
        }
        String text = Checkout.text(info);
        int comment = text.indexOf("*/");
        if (!text.startsWith("/**") || comment < 0) {
            return false;
        }
        long lines = text.substring(0, comment).lines().count();
        return text.contains("@NullMarked") && lines >= 5 && lines <= 12;
    }

    /**
     * A module that outgrows its budget is split, and a decision record says how. The budgets are common practice, no source.
     */
    @ParameterizedTest(name = "{0}: at most {1} classes and {2} lines, no file above {3}")
    @CsvSource({"assessment, 200, 15000, 600", "visit, 130, 10000, 500"})
    void the_modules_that_everybody_has_to_read_stay_small(String module, int classes, int lines, int longest) {
        List<Path> sources = Checkout.mainSources().stream()
                .filter(file -> Checkout.relative(file).startsWith(module + "/"))
                .toList();
        assertThat(sources).hasSizeBetween(1, classes);
        assertThat(sources.stream().mapToLong(NamesAndSizesTest::lines).sum()).isLessThanOrEqualTo(lines);
        assertThat(sources).filteredOn(file -> lines(file) > longest).isEmpty();
    }

    private static long lines(Path file) {
        return Checkout.text(file).lines().count();
    }

    @Test
    void nothing_is_left_to_be_done_later() {
        Pattern leftOver = Pattern.compile("\\b(TODO|FIXME|XXX|HACK)\\b");
        assertThat(Checkout.mainSources())
                .filteredOn(file -> leftOver.matcher(Checkout.text(file)).find())
                .isEmpty();
    }
}
