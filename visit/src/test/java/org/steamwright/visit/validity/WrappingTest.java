package org.steamwright.visit.validity;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What people write about packaging, and what of it may be compared. */
class WrappingTest {

    @ParameterizedTest(name = "{0}: {1} × {2}")
    @CsvSource({
        "pouch, 1, pouch",
        "Single Pouch, 1, pouch",
        "paper and film pouches, 1, pouch",
        "one bag, 1, pouch",
        "1 pouch, 1, pouch",
        "bagged, 1, pouch",
        "double pouch, 2, pouch",
        "double-pouched, 2, pouch",
        "'double, pouch', 2, pouch",
        "pouch (double), 2, pouch",
        "(double) pouch, 2, pouch",
        "2 layers of pouch, 2, pouch",
        "two layers of wrap, 2, wrap",
        "wrapped twice, 2, wrap",
        "wrapped once, 1, wrap",
        "wrapping, 1, wrap",
        "rigid container, 1, container",
        "containers, 1, container",
        "Unwrapped, 0, ''",
        "not wrapped, 0, ''",
        "none, 0, ''",
    })
    void kind_and_layers_are_read(String words, int layers, String kind) {
        assertThat(Wrapping.of(words)).isEqualTo(new Wrapping(kind, layers));
    }

    /** Tested in such packaging nothing else is covered by it, and in such packaging today nothing else covers it. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "no pouch",
                "without wrap",
                "unpouched",
                "unwrapped tray",
                "not in a pouch",
                "triple pouch",
                "two pouches",
                "2 pouches",
                "(2) pouches",
                "two layer bags of wrap",
                "three pouches",
                "3 pouches",
                "pouch size 2",
                "pouch 2",
                "wrap 1",
                "pouch in pouch",
                "pouch in a container",
                "wrapped pouch",
                "single double pouch",
                "double, two layers of wrap",
                "several layers of wrap",
                "outer and inner pouch",
                "tray",
                "doppelt verpackt",
            })
    void what_is_not_understood_as_a_whole_is_compared_by_its_words_alone(String words) {
        Wrapping odd = Wrapping.of(words);
        for (String known : new String[] {"pouch", "double pouch", "wrap", "wrapped twice", "container"}) {
            assertThat(Wrapping.of(known).isNoHarderThan(odd)).as(known).isFalse();
            assertThat(odd.isNoHarderThan(Wrapping.of(known))).as(known).isFalse();
        }
        assertThat(odd.isNoHarderThan(Wrapping.of(words.toUpperCase(Locale.ROOT))))
                .isTrue();
        assertThat(Wrapping.of("none").isNoHarderThan(odd)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "  ", "-", "–", "?", "unknown", "Not stated", "not known", "n/a", "NA", "unstated"})
    void words_that_say_nothing_state_nothing(String words) {
        assertThat(Wrapping.isUnstated(words)).isTrue();
    }

    @Test
    void layers_are_compared_within_a_kind() {
        Wrapping once = Wrapping.of("pouch");
        Wrapping twice = Wrapping.of("double pouch");
        assertThat(once.isNoHarderThan(once)).isTrue();
        assertThat(once.isNoHarderThan(twice)).isTrue();
        assertThat(twice.isNoHarderThan(once)).isFalse();
        assertThat(once.isNoHarderThan(Wrapping.of("wrapped twice"))).isFalse();
        assertThat(Wrapping.isUnstated("none")).as("unwrapped is said").isFalse();
    }
}
