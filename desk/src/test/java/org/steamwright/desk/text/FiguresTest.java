package org.steamwright.desk.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.report.language.Language;

class FiguresTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "134,2 °C        | 134.2 °C",
                "134.2           | 134.2",
                "1 234,5 kPa     | 1234.5 kPa",
                "1\u202f234,5    | 1234.5",
                "\u22120,35 s    | -0.35 s",
                "0,125           | 0.125",
                "0.125           | 0.125",
                "1234,567        | 1234.567",
                "3 min           | 3 min",
                "12              | 12",
            })
    void figures_are_understood_with_either_mark(String typed, String expected) {
        for (Language language : Language.values()) {
            assertThat(new Figures(language).typed(typed)).as(language.code()).contains(expected);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.234,5", "1,234.5", "1,234,567", "1.2.3", "", "twelve", "5x7,", ",5", "5,"})
    void what_is_no_figure_or_has_several_marks_is_not_guessed(String typed) {
        for (Language language : Language.values()) {
            assertThat(new Figures(language).typed(typed)).as(language.code()).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void a_mark_that_may_be_meant_for_thousands_is_not_guessed(Language language) {
        Figures figures = new Figures(language);
        String own = language == Language.ENGLISH ? "1.234" : "1,234";
        String other = language == Language.ENGLISH ? "1,234" : "1.234";

        assertThat(figures.typed(own)).contains("1.234");
        assertThat(figures.typed(other)).isEmpty();
    }

    @Test
    void days_in_a_sentence_are_told_as_the_reader_reads_them_and_names_stay() {
        Figures english = new Figures(Language.ENGLISH);
        assertThat(english.daysIn("12 months after 2025-10-23")).isEqualTo("12 months after 23 Oct 2025");
        assertThat(new Figures(Language.GERMAN).daysIn("bis 2026-03-01, dann.")).isEqualTo("bis 1. März 2026, dann.");
        for (String stays : List.of(
                "R-2025-10-23", "2025-10-23.csv", "a/2025-10-23", "2025-10-23 10:02:00", "2025-13-40", "12025-10-23")) {
            assertThat(english.daysIn(stays)).isEqualTo(stays);
        }
    }
}
