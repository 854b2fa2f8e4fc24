package org.steamwright.report.language;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

class PhraseTest {

    @Test
    void what_differs_keeps_its_place_in_the_other_order() {
        Phrase phrase = new Phrase("Channel %s fell to %s at %s.", "Um %3$s fiel Kanal %1$s auf %2$s.");

        assertThat(phrase.say("Channel T3 fell to 133.4 °C at 14:05.", part -> true, part -> part))
                .contains("Um 14:05 fiel Kanal T3 auf 133.4 °C.");
    }

    @Test
    void another_text_is_not_taken_for_it() {
        Phrase phrase = new Phrase("Channel %s never reached it.", "Kanal %s erreichte es nie.");

        assertThat(phrase.say("Channel T3 never reached it. It was late.", part -> true, part -> part))
                .isEmpty();
    }

    @Test
    void no_place_is_empty() {
        Phrase phrase = new Phrase("Channel %s.", "Kanal %s.");

        assertThat(phrase.say("Channel .", part -> true, part -> part)).isEmpty();
    }

    @Test
    void sentences_are_said_one_by_one_and_what_stands_in_them_too() {
        Phrasebook german = Phrasebook.in(Language.GERMAN);

        assertThat(german.find(
                        "Channel T3 fell to 133.48 °C at 14:05 and recovered; two stretches are never added up."))
                .contains(
                        "Kanal T3 fiel auf 133,48 °C bei 14:05 und erholte sich; zwei Abschnitte werden nie zusammengezählt.");
        assertThat(german.find("Run 3 is invalid and counts neither way: The points never stood at 134 °C together."))
                .contains(
                        "Lauf 3 ist ungültig und zählt weder so noch so: Die Messpunkte standen nie gemeinsam auf 134 °C.");
        assertThat(german.find("The pump was cut off at 4.2 kPa. The cat sat on the lid."))
                .isEmpty();
    }

    @Test
    void no_place_swallows_the_sentences_behind_its_phrase() {
        assertThat(Phrasebook.in(Language.GERMAN)
                        .say("Not assessed: no check after the run is recorded for channel T1, P. Channel P is declared"
                                + " absolute, but with the open door it reads as if it were gauge. As absolute pressure:"
                                + " before 0.62 kPa, after 0.42 kPa, ambient 95.80 kPa (barometer reading of the day). The"
                                + " highest reading of the plateau was 126.64 °C, channel T1 at 12:39; the criteria set"
                                + " states no upper limit of the band. The channel can not be trusted, so this says"
                                + " nothing."))
                .contains("Keine Prüfung nach dem Lauf ist eingetragen für Kanal T1, P.")
                .contains("vorher 0,62 kPa, nachher 0,42 kPa, Umgebung 95,80 kPa (Barometerablesung des Tages).")
                .contains("Der höchste Messwert der Plateauzeit war 126,64 °C, Kanal T1 bei 12:39;")
                .endsWith("Dem Kanal ist nicht zu trauen, also sagt das nichts.");
    }

    @Test
    void a_simulated_visit_says_so_first() {
        assertThat(
                        Phrasebook.in(Language.GERMAN)
                                .find(
                                        "Simulated, not a real steriliser: Only cycle ‘134’ of steriliser X-1 may be run with the load"
                                                + " that was tested and nothing larger or harder, up to and including 1 March 2027."))
                .hasValueSatisfying(said -> assertThat(said)
                        .startsWith("Simuliert, kein echter Sterilisator: Mit der")
                        .endsWith(": nur Zyklus „134“ von Sterilisator X-1, bis einschließlich 1. März 2027."));
    }

    @Test
    void what_people_wrote_stays_as_it_is() {
        assertThat(Phrasebook.in(Language.FRENCH)
                        .find("Run 2, as found: The seal was torn. Ring the maker, 2.5 mm too wide."))
                .contains("Essai 2, tel que trouvé\u00a0: The seal was torn. Ring the maker, 2.5 mm too wide.");
        assertThat(Phrasebook.in(Language.GERMAN).find("forceps and scissors")).isEmpty();
    }

    /** Stored texts come from people; none may keep a page waiting. The limit is wide: it takes a few hundredths. */
    @Test
    @Timeout(20)
    void no_text_takes_long() {
        Phrasebook german = Phrasebook.in(Language.GERMAN);
        for (String piece : List.of("Run 1: ", "a, b and c; ", "Channel T. ", "On 3: x. ", "(a) and (b), ", "– ")) {
            for (int length : List.of(3_900, 40_000)) {
                assertThat(german.say(piece.repeat(length / piece.length()))).isNotEmpty();
            }
        }
    }

    @Test
    @Timeout(20)
    void no_text_takes_more_of_a_stack_than_a_small_thread_has() throws InterruptedException {
        List<Throwable> thrown = new ArrayList<>();
        Thread small = new Thread(null, this::no_text_takes_long, "small", 256 * 1024);
        small.setUncaughtExceptionHandler((thread, cause) -> thrown.add(cause));
        small.start();
        small.join();
        assertThat(thrown).isEmpty();
    }

    @Test
    void lists_days_and_quoted_names_follow_the_language() {
        Phrasebook german = Phrasebook.in(Language.GERMAN);

        assertThat(german.find("runs 1, 2 and 3")).contains("Läufe 1, 2 und 3");
        assertThat(german.find("up to and including 24 March 2027 or cycle 5200, whichever comes first"))
                .contains("bis einschließlich 24. März 2027 oder Zyklus 5200, was zuerst kommt");
        assertThat(Phrasebook.in(Language.FRENCH).find("until 1 March 2027")).contains("jusqu’au 1er mars 2027");
        assertThat(german.find("until 31 February 2027")).contains("bis 31 February 2027");
        assertThat(Phrasebook.in(Language.FRENCH).find("cycle ‘B 134’ of steriliser X-1"))
                .contains("cycle «\u00a0B 134\u00a0» du stérilisateur X-1");
    }

    @Test
    void a_figure_has_the_decimal_mark_of_the_language() {
        assertThat(Phrasebook.in(Language.GERMAN).say("134.05 °C ± 0.12 °C")).isEqualTo("134,05 °C ± 0,12 °C");
        assertThat(Phrasebook.in(Language.GERMAN).say("LOG.12")).isEqualTo("LOG.12");
        assertThat(Phrasebook.in(Language.ENGLISH).say("134.05 °C")).isEqualTo("134.05 °C");
    }
}
