package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;

import java.text.Normalizer;
import java.util.List;
import java.util.Locale;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CheckWordsTest {

    private static final List<String> GOOD = List.of(
            "good",
            "ok",
            "okay",
            "pass",
            "passes",
            "passed",
            "in order",
            "met",
            "uniform change",
            "gut",
            "in ordnung",
            "i o",
            "io",
            "bestanden",
            "erfullt",
            "erfuellt",
            "einwandfrei",
            "bon",
            "bonne",
            "en ordre",
            "en bon etat",
            "conforme",
            "reussi",
            "reussie",
            "satisfaisant");

    @ParameterizedTest
    @CsvSource({
        "good, GOOD",
        "Good., GOOD",
        "i. O., GOOD",
        "bestanden, GOOD",
        "erfüllt, GOOD",
        "erfuellt, GOOD",
        "réussi, GOOD",
        "en bon état, GOOD",
        "done, WORK",
        "ersetzt, WORK",
        "remplacé, WORK",
        "'good, replaced', WORK",
        "not-applicable, NOT_APPLICABLE",
        "n/a, NOT_APPLICABLE",
        "entfällt, NOT_APPLICABLE",
        "ne s’applique pas, NOT_APPLICABLE",
        "not-done, UNDONE",
        "not-possible, UNDONE",
        "'', UNDONE",
        "nicht geprüft, UNDONE",
        "nicht geprueft wegen Termin, UNDONE",
        "pas possible aujourd’hui, UNDONE",
        "failed, FAILED",
        "nicht in Ordnung, FAILED",
        "n. i. O., FAILED",
        "undicht am Ventil, FAILED",
        "Mängel, FAILED",
        "défectueux, FAILED",
        "DÉFAUT, FAILED",
        "non conforme, FAILED",
        "'good, failed', FAILED",
        "good enough, UNKNOWN",
        "not so good, UNKNOWN",
        "gut gemeint, UNKNOWN",
        "keineswegs gut, UNKNOWN",
        "'gut, aber undicht', UNKNOWN",
        "plutôt bon, UNKNOWN",
        "see report, UNKNOWN",
        "12, UNKNOWN",
        "?, UNDONE",
    })
    void a_text_says(String text, CheckWords.Says says) {
        assertThat(CheckWords.of(text)).isEqualTo(says);
    }

    @ParameterizedTest
    @ValueSource(strings = {"not ", "no ", "nicht ", "kein ", "ni ", "pas ", "non ", "un", "hardly ", "kaum ", "peu "})
    void a_good_word_that_is_denied_is_never_good(String denied) {
        for (String word : GOOD) {
            assertThat(CheckWords.of(word)).as(word).isEqualTo(CheckWords.Says.GOOD);
            assertThat(CheckWords.of(denied + word)).as(denied + word).isNotEqualTo(CheckWords.Says.GOOD);
            assertThat(CheckWords.of(word + " " + denied.strip()))
                    .as("denied behind it")
                    .isNotEqualTo(CheckWords.Says.GOOD);
        }
    }

    @Property(tries = 500)
    void nothing_but_the_words_of_the_list_is_good(@ForAll("texts") String text) {
        if (CheckWords.of(text) == CheckWords.Says.GOOD && !GOOD.contains(bare(text))) {
            for (String part : text.split("[,;:]")) {
                assertThat(GOOD).as("a part of: %s", text).contains(bare(part));
            }
        }
    }

    private static String bare(String text) {
        return Normalizer.normalize(text, Normalizer.Form.NFKD)
                .replaceAll("\\p{M}", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N}]+", " ")
                .strip();
    }

    /** Good words with a sign changed, left out or put in, alone and in rows, and texts of any sort. */
    @Provide
    Arbitrary<String> texts() {
        Arbitrary<String> words = Arbitraries.of(GOOD);
        Arbitrary<Character> signs = Arbitraries.chars().with("abdefgikmnoprstuäé ,;:.-/");
        Arbitrary<String> mistyped = words.flatMap(word -> Arbitraries.integers()
                .between(0, word.length() - 1)
                .flatMap(at -> signs.map(sign -> word.substring(0, at) + sign + word.substring(at + 1))));
        Arbitrary<String> rows = words.list()
                .ofMinSize(1)
                .ofMaxSize(3)
                .flatMap(row -> Arbitraries.of(" ", ", ", "; ").map(between -> String.join(between, row)));
        return Arbitraries.oneOf(words, mistyped, rows, Arbitraries.strings().ofMaxLength(12));
    }
}
