package org.steamwright.report.language;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;

class PhraseTest {

    @Test
    void what_differs_keeps_its_place_in_the_other_order() {
        Phrase phrase = new Phrase("Channel %s fell to %s at %s.", "Um %3$s fiel Kanal %1$s auf %2$s.");

        assertThat(phrase.say("Channel T3 fell to 133.4 °C at 14:05.", UnaryOperator.identity()))
                .contains("Um 14:05 fiel Kanal T3 auf 133.4 °C.");
    }

    @Test
    void another_text_is_not_taken_for_it() {
        Phrase phrase = new Phrase("Channel %s never reached it.", "Kanal %s erreichte es nie.");

        assertThat(phrase.say("Channel T3 never reached it. It was late.", UnaryOperator.identity()))
                .isEmpty();
    }

    @Test
    void a_figure_has_the_decimal_mark_of_the_language() {
        assertThat(Phrasebook.in(Language.GERMAN).say("134.05 °C ± 0.12 °C")).isEqualTo("134,05 °C ± 0,12 °C");
        assertThat(Phrasebook.in(Language.GERMAN).say("LOG.12")).isEqualTo("LOG.12");
        assertThat(Phrasebook.in(Language.ENGLISH).say("134.05 °C")).isEqualTo("134.05 °C");
    }
}
