package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

class UsageTest {
    static final Usage USAGE = usage();

    @Test
    void the_short_way_understands_a_usual_line() {
        Typed typed = USAGE.findPlain(List.of("run.csv", "--json", "--at", "121 °C", "--unit", "a=b", "--unit", "c=d"))
                .orElseThrow();
        assertThat(typed.isSet("--json")).isTrue();
        assertThat(typed.isSet("--plain")).isFalse();
        assertThat(typed.find("--at")).hasValue("121 °C");
        assertThat(typed.find("--hold")).isEmpty();
        assertThat(typed.all("--unit")).containsExactly("a=b", "c=d");
        assertThat(typed.findArgument(0)).hasValue("run.csv");
        assertThat(typed.findArgument(1)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "--json",
                "run.csv --at",
                "run.csv --at --json",
                "run.csv --jsn",
                "run.csv other more",
                "--help",
                "run.csv --at=121",
                "run.csv --json --json",
                "run.csv --at 1 --at 2",
                "run.csv -- x",
                "@file",
                "run.csv -h"
            })
    void the_short_way_gives_up_on_anything_else(String line) {
        assertThat(USAGE.findPlain(words(line))).isEmpty();
    }

    @Test
    void what_the_short_way_understands_the_library_understands_the_same() {
        String[] some = {"--json", "--plain", "--at", "--hold", "--unit", "run.csv", "121 °C", "T1=x", "a b", "="};
        Random random = new Random(17);
        int understood = 0;
        for (int i = 0; i < 3000; i++) {
            List<String> words = new ArrayList<>();
            for (int n = random.nextInt(7); n >= 0; n--) {
                words.add(some[random.nextInt(some.length)]);
            }
            Optional<Typed> plain = USAGE.findPlain(words);
            if (plain.isPresent()) {
                understood++;
                Typed full = USAGE.parsed(parser().parseArgs(words.toArray(String[]::new)));
                assertThat(plain.get().isSameAs(full))
                        .as("%s: %s and %s", words, plain.get(), full)
                        .isTrue();
            }
        }
        assertThat(understood).isGreaterThan(300);
    }

    @Test
    void the_library_takes_over_where_the_short_way_gives_up() {
        assertThat(USAGE.parsed(parser().parseArgs("run.csv", "--at=121 °C", "--unit=a=b"))
                        .toString())
                .contains("--at=[121 °C]")
                .contains("--unit=[a=b]");
        assertThatThrownBy(() -> parser().parseArgs("run.csv", "--json", "--json"))
                .isInstanceOf(CommandLine.ParameterException.class);
    }

    private static CommandLine parser() {
        return USAGE.parser("steamwright try", List.of());
    }

    private static List<String> words(String line) {
        return line.isEmpty() ? List.of() : List.of(line.split(" "));
    }

    private static Usage usage() {
        Usage usage = new Usage("For this test.");
        usage.argument("FILE", true, "A file.");
        usage.argument("OTHER", false, "Another.");
        usage.flag("--json", "JSON.");
        usage.flag("--plain", "Plain.");
        usage.value("--at", "T", "Temperature.");
        usage.value("--hold", "T", "Time.");
        usage.values("--unit", "C=U", "Unit.");
        return usage;
    }
}
