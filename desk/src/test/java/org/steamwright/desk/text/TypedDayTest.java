package org.steamwright.desk.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.report.language.Language;

class TypedDayTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "ENGLISH | 2026-08-03",
                "ENGLISH | 2026-8-3",
                "ENGLISH | 3 August 2026",
                "ENGLISH | 3rd aug 2026",
                "ENGLISH | August 3, 2026",
                "GERMAN  | 3.8.2026",
                "GERMAN  | 03. 08. 2026",
                "GERMAN  | 3. August 2026",
                "GERMAN  | 3. Aug. 2026",
                "FRENCH  | 3/8/2026",
                "FRENCH  | 03.08.2026",
                "FRENCH  | 3 août 2026",
                "FRENCH  | 2026-08-03",
            })
    void a_day_is_understood_as_the_language_writes_it(Language language, String typed) {
        assertThat(TypedDay.of(typed, language)).contains(LocalDate.of(2026, 8, 3));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "ENGLISH | 3/8/2026",
                "ENGLISH | 03.08.2026",
                "GERMAN  | 3/8/2026",
                "GERMAN  | 3.8.26",
                "GERMAN  | 31.2.2026",
                "ENGLISH | 2026-13-01",
                "FRENCH  | 3 jui 2026",
                "ENGLISH | 3 Ju 2026",
                "ENGLISH | tomorrow",
                "ENGLISH | ''",
            })
    void what_may_be_another_day_or_is_none_is_not_guessed(Language language, String typed) {
        assertThat(TypedDay.of(typed, language)).isEmpty();
    }
}
