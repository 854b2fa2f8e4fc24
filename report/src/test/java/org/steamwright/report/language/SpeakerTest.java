package org.steamwright.report.language;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SpeakerTest {

    private final Speaker german = Speaker.of(Language.GERMAN, Set.of());
    private final Speaker french = Speaker.of(Language.FRENCH, Set.of());

    @Test
    void a_sentence_with_marked_places_is_said_with_its_parts_said() {
        String english = Sentence.of(
                "Every point stood %s for %s", Sentence.of("between %s and %s °C", "134", "137.5"), "3 min 32 s");

        assertThat(Speaker.ENGLISH.say(english)).isEqualTo("Every point stood between 134 and 137.5 °C for 3 min 32 s");
        assertThat(german.say(english)).isEqualTo("Alle Punkte standen 3 min 32 s lang zwischen 134 und 137,5 °C");
        assertThat(french.say(english)).isEqualTo("Tous les points étaient entre 134 et 137,5 °C pendant 3 min 32 s");
    }

    @Test
    void a_list_is_said_part_by_part_and_blank_parts_are_left_out() {
        assertThat(german.say(Sentence.list(" or ", "1.5 K", "", "30 s"))).isEqualTo("1,5 K oder 30 s");
        assertThat(Sentence.list(", ", "", "alone", "")).isEqualTo("alone");
    }

    @Test
    void blanks_around_a_text_stay() {
        assertThat(german.say(" of ")).isEqualTo(" von ");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "179.96 s|179,96 s",
                "≥ 0.13 kPa/min|≥ 0,13 kPa/min",
                "12:05.5|12:05,5",
                "0.12 … 0.15 K|0,12 … 0,15 K",
                "08:12:00 UTC+10:30|08:12:00 UTC+10:30",
                "1.2.0|1.2.0",
                "LOG.12|LOG.12",
                "1.2E-6|1,2E-6",
                "25 November 2026|25. November 2026",
            })
    void figures_have_a_comma_and_days_their_month_while_versions_and_names_stay(String english, String said) {
        assertThat(german.say(english)).isEqualTo(said);
    }

    @Test
    void the_first_of_a_month_is_an_ordinal_in_french() {
        assertThat(french.say("1 March 2027")).isEqualTo("1er mars 2027");
        assertThat(french.say("31 February 2027")).isEqualTo("31 February 2027");
    }

    @Test
    void a_name_stays_even_where_the_program_has_such_a_word() {
        assertThat(german.say("pressure")).isEqualTo("Druck");
        assertThat(Speaker.of(Language.GERMAN, Set.of("pressure")).say(Sentence.of("%s has no value", "pressure")))
                .isEqualTo("pressure hat keinen Wert");
    }

    @Test
    void what_no_catalogue_knows_stays_is_told_and_marked_if_it_is_a_sentence_in_english() {
        List<String> unknown = new ArrayList<>();
        Speaker speaker = Speaker.of(Language.GERMAN, Set.of(), unknown::add);

        assertThat(speaker.marked("Riverbend Teeth")).isEqualTo("Riverbend Teeth");
        assertThat(speaker.marked("The tray is of the old kind")).isEqualTo("\u000eThe tray is of the old kind\u000f");
        assertThat(speaker.say("The tray is of the old kind")).isEqualTo("The tray is of the old kind");
        assertThat(speaker.marked("Das Tablett ist von der alten Art")).isEqualTo("Das Tablett ist von der alten Art");
        assertThat(unknown).contains("Riverbend Teeth", "The tray is of the old kind");
    }

    @Test
    void marks_that_somebody_wrote_do_no_harm() {
        String hostile = "a\u0003b\u0002c\u000ed\u000f";

        assertThat(german.say(hostile)).isEqualTo("abcd");
        assertThat(german.say(Sentence.of("Steriliser %s", hostile))).doesNotContain("\u0002", "\u0003", "\u000e");
        assertThat(Speaker.ENGLISH.say(hostile)).isEqualTo("abcd");
    }

    @Test
    void parts_and_places_have_to_be_of_one_number() {
        assertThatThrownBy(() -> Sentence.of("one %s", "a", "b")).hasMessageContaining("more parts than places");
        assertThatThrownBy(() -> Sentence.of("two %s %s", "a")).hasMessageContaining("fewer parts than places");
    }
}
