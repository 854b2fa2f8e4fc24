package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.indicator.BiologicalTest.Indicator;
import org.steamwright.assessment.indicator.BiologicalTest.Reading;
import org.steamwright.assessment.indicator.BiologicalTest.Result;

class BiologicalTestTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    /** E exposed, C control; + growth, - none, ? awaited. */
    @ParameterizedTest(name = "{0} is {1}: {2}")
    @CsvSource({
        "E-E-E-C+,   PASS,         all clear and the lot can grow",
        "E-E+E-C+,   FAIL,         one that grew is enough",
        "E+C-,       FAIL,         growth is growth whatever the control says",
        "E+E?C?,     FAIL,         no need to wait once one grew",
        "E-E-E-C-,   INVALID,      a dead control proves nothing",
        "E?C-,       INVALID,      a dead control is final before the rest is read",
        "E-E-E-,     INVALID,      without a control clear tubes prove nothing",
        "E-C+C-,     INVALID,      controls that disagree leave the lot in doubt",
        "E-E?C+,     AWAITED,      not all read",
        "E-E-C?,     AWAITED,      the control is not read",
        "C+,         NONE_EXPOSED, a control alone tests nothing",
        "'',         NONE_EXPOSED, nothing was used",
    })
    void result_of_readings(String signs, Result expected, String why) {
        List<Indicator> indicators = new ArrayList<>();
        for (int i = 0; i + 1 < signs.length(); i += 2) {
            indicators.add(indicator(signs.charAt(i) == 'C', "lot 1", DAY, signs.charAt(i + 1)));
        }
        assertThat(new BiologicalTest(indicators, DAY).result()).as(why).isEqualTo(expected);
    }

    @Test
    void the_last_day_of_a_lot_is_good_and_the_next_is_not() {
        List<Indicator> indicators = List.of(indicator(false, "lot 1", DAY, '-'), indicator(true, "lot 1", DAY, '+'));
        assertThat(new BiologicalTest(indicators, DAY).result()).isEqualTo(Result.PASS);
        assertThat(new BiologicalTest(indicators, DAY.plusDays(1)).result()).isEqualTo(Result.INVALID);
        assertThat(new BiologicalTest(indicators, DAY.plusDays(1)).expired()).hasSize(2);
    }

    @Test
    void growth_fails_even_if_the_lot_is_out_of_date() {
        List<Indicator> indicators = List.of(indicator(false, "lot 1", DAY, '+'), indicator(true, "lot 1", DAY, '+'));
        assertThat(new BiologicalTest(indicators, DAY.plusDays(1)).result()).isEqualTo(Result.FAIL);
    }

    @Test
    void a_control_of_another_lot_does_not_count() {
        List<Indicator> indicators = List.of(indicator(false, "lot 1", DAY, '-'), indicator(true, "lot 2", DAY, '+'));
        assertThat(new BiologicalTest(indicators, DAY).result()).isEqualTo(Result.INVALID);
    }

    @Test
    void a_lot_without_a_stated_last_day_is_not_held_against_it() {
        Indicator exposed = new Indicator("E", false, "lot 1", Optional.empty(), Reading.NO_GROWTH);
        Indicator control = new Indicator("C", true, "lot 1", Optional.empty(), Reading.GROWTH);
        assertThat(new BiologicalTest(List.of(exposed, control), DAY).result()).isEqualTo(Result.PASS);
    }

    private static Indicator indicator(boolean isControl, String lot, LocalDate expires, char sign) {
        Reading reading = switch (sign) {
            case '+' -> Reading.GROWTH;
            case '-' -> Reading.NO_GROWTH;
            default -> Reading.AWAITED;
        };
        return new Indicator(isControl ? "C" : "E", isControl, lot, Optional.of(expires), reading);
    }
}
