package org.steamwright.desk.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.report.language.Language;

class WordsTest {

    private static final Pattern PART = Pattern.compile("\\{\\d}");

    /** A figure with a decimal point; days such as 3.8.2026 have two. */
    private static final Pattern POINTED = Pattern.compile("(?<![\\d.])\\d+\\.\\d+(?![\\d.])");

    @Test
    void keys_begin_with_the_name_of_their_room() {
        for (String room : Words.ROOMS) {
            assertThat(Words.file(room, Language.ENGLISH).keySet())
                    .isNotEmpty()
                    .allSatisfy(key -> assertThat(key).startsWith(room + "."));
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_language_knows_no_key_that_english_lacks_and_puts_the_same_parts_in(Language language) {
        for (String room : Words.ROOMS) {
            var english = Words.file(room, Language.ENGLISH);
            Words.file(room, language).forEach((key, text) -> {
                assertThat(english).containsKey(key);
                assertThat(parts(text)).as(key).isEqualTo(parts(english.getOrDefault(key, "")));
            });
        }
    }

    @ParameterizedTest
    @EnumSource
    void every_language_says_everything(Language language) {
        for (String room : Words.ROOMS) {
            assertThat(Words.file(room, language).keySet())
                    .as(room + " in " + language)
                    .isEqualTo(Words.file(room, Language.ENGLISH).keySet());
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void figures_in_words_have_the_decimal_comma_of_the_language(Language language) {
        for (String room : Words.ROOMS) {
            assertThat(Words.file(room, language).values())
                    .noneMatch(text -> POINTED.matcher(text).find());
        }
    }

    @ParameterizedTest(name = "{0}: {2}, not {1}")
    @CsvSource({
        "GERMAN, Schreibtisch|Desk\\b|Übungsfenster, Arbeitsplatz",
        "GERMAN, '[Ff]reigeben|freigegeben', genehmigen: a clinic releases its loads",
        "GERMAN, 'Tray', Tablett",
        "GERMAN, 'Zyklenzähler', Zykluszähler",
        "GERMAN, 'Lecktest', Vakuumtest",
        "GERMAN, 'Sterilisiertemperatur|Trockenzeit', Sterilisationstemperatur and Trocknungszeit",
        "GERMAN, 'örtlichen? Regeln', örtliche Vorschriften",
        "GERMAN, 'Maschine', Gerät",
        "GERMAN, 'ausgewertet|bewertet', beurteilt",
        "FRENCH, '\\bdesk\\b|dès que le bureau|page de ce bureau', poste: the bureau is the office",
        "FRENCH, '[Ss]onde', capteur",
        "FRENCH, '[Dd]urée de (maintien|séchage)|[Ii]mpulsions', temps and pulsations",
        "FRENCH, 'test d’étanchéité|test de pénétration', essai",
    })
    void a_thing_has_one_word(Language language, String other, String word) {
        Pattern pattern = Pattern.compile(other);
        for (String room : Words.ROOMS) {
            assertThat(Words.file(room, language))
                    .noneSatisfy((key, text) ->
                            assertThat(text).as("%s: say %s", key, word).containsPattern(pattern));
        }
    }

    private static Set<String> parts(String text) {
        return PART.matcher(text).results().map(part -> part.group()).collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void an_unknown_key_is_a_mistake_of_the_program() {
        assertThatThrownBy(() -> Words.in(Language.FRENCH).of("web.nothing"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("web.nothing");
    }

    @ParameterizedTest
    @CsvSource({"'de-AT,en;q=0.5', GERMAN", "'es,fr;q=0.8', FRENCH", "'', ENGLISH", "'q=;;', ENGLISH", "es, ENGLISH"})
    void the_first_language_that_is_spoken_here_is_taken(String accepted, Language language) {
        assertThat(Language.accepted(accepted)).isEqualTo(language);
    }

    @Test
    void figures_take_the_decimal_mark_of_the_language() {
        assertThat(new Figures(Language.ENGLISH).of("134.25")).isEqualTo("134.25");
        assertThat(new Figures(Language.GERMAN).of("134.25")).isEqualTo("134,25");
    }
}
