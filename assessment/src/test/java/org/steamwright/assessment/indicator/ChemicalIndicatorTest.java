package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.indicator.ChemicalIndicator.Result;
import org.steamwright.assessment.indicator.ChemicalIndicator.StatedValue;
import org.steamwright.assessment.indicator.ChemicalIndicator.Type;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

class ChemicalIndicatorTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    /** Least stated values of an integrating indicator, handbook section 5. */
    private static final List<StatedValue> INTEGRATING = List.of(new StatedValue(135, 72), new StatedValue(121, 990));

    private static ChemicalIndicator indicator(Type type, List<StatedValue> stated, Result result) {
        return new ChemicalIndicator("CI-1", type, "strip", "L-1", Optional.of(DAY), stated, "C", result);
    }

    @ParameterizedTest(name = "type 5, {0} min at {1} °C, {2}: {3}, {4}")
    @CsvSource({
        "16.5, 121,   REACHED,     AGREES,               stated value stayed for",
        "16.4, 121,   REACHED,     CANNOT_TELL,          between the two conditions",
        "16.5, 121,   NOT_REACHED, END_POINT_MISSED,     asks for the steam",
        "1.2,  135,   REACHED,     AGREES,               the other stated value",
        "1.2,  138,   REACHED,     AGREES,               hotter counts as much as the hottest stated",
        "3.5,  134.5, REACHED,     AGREES,               between the temperatures the time is shorter",
        "3.5,  134.5, NOT_REACHED, END_POINT_MISSED,     a cycle of 134 °C and yet no change",
        "5,    121,   NOT_REACHED, AGREES,               a third of the time",
        "5,    121,   REACHED,     END_POINT_UNEXPECTED, a third of the time and yet changed",
        "60,   119.9, REACHED,     END_POINT_UNEXPECTED, more than a kelvin too cold counts as nothing",
        "60,   120.1, REACHED,     CANNOT_TELL,          within the kelvin allowed",
        "16.5, 121,   UNCLEAR,     CANNOT_TELL,          nobody could read it",
    })
    void integrating(double minutes, double celsius, Result result, Agreement expected, String why) {
        assertThat(indicator(Type.INTEGRATING, INTEGRATING, result)
                        .agreement(ExpectedReductionTest.level(celsius, minutes, 0)))
                .as(why)
                .isEqualTo(expected);
    }

    @ParameterizedTest(name = "type 6, {0} s at {1} °C with U = {2} K: {3}, {4}")
    @CsvSource({
        "210, 134,   0,   AGREES,               exactly the stated value",
        "210, 134,   0.3, CANNOT_TELL,          the channel may have read high",
        "210, 134.4, 0.3, AGREES,               surely hot enough",
        "196, 134,   0,   END_POINT_UNEXPECTED, less than 94 % of 210 s",
        "198, 134,   0,   CANNOT_TELL,          more than 94 %",
        "210, 132.9, 0,   END_POINT_UNEXPECTED, more than a kelvin too cold",
        "210, 132.9, 0.2, CANNOT_TELL,          which the channel can't tell",
    })
    void emulating(double seconds, double celsius, double expanded, Agreement expected, String why) {
        assertThat(indicator(Type.EMULATING, List.of(new StatedValue(134, 210)), Result.REACHED)
                        .agreement(ExpectedReductionTest.level(celsius, seconds / 60, expanded)))
                .as(why)
                .isEqualTo(expected);
    }

    @Test
    void types_that_answer_for_less_are_not_compared() {
        for (Type type : List.of(Type.PROCESS, Type.SPECIFIC_TEST, Type.SINGLE_VARIABLE, Type.MULTIVARIABLE)) {
            assertThat(indicator(type, INTEGRATING, Result.REACHED).agreement(ExpectedReductionTest.level(121, 20, 0)))
                    .isEqualTo(Agreement.NOT_COMPARED);
        }
        assertThat(indicator(Type.INTEGRATING, List.of(), Result.REACHED)
                        .agreement(ExpectedReductionTest.level(121, 20, 0)))
                .isEqualTo(Agreement.NOT_COMPARED);
    }

    @Test
    void stay_sums_each_step_over_its_own_stated_time_and_skips_what_is_missing() {
        ChemicalIndicator strip = indicator(Type.INTEGRATING, INTEGRATING, Result.REACHED);
        double middle = Math.sqrt(990.0 * 72);
        var samples = CorrectedSamples.of(
                "T1",
                ChannelRole.LOAD,
                TimeAxis.ofSeconds(0, 10, 20, 30, 40, 50, 60, 200, 210),
                120,
                121,
                128,
                135,
                Double.NaN,
                135,
                135,
                135,
                121);
        assertThat(strip.stay(samples, false))
                .as("colder ends: 121, 128, 135 °C for ten seconds each, and 121 °C at last")
                .isCloseTo(10 / 990.0 + 10 / middle + 10 / 72.0 + 10 / 990.0, within(1e-12));
        assertThat(strip.stay(samples, true))
                .as("hotter ends")
                .isCloseTo(10 / 990.0 + 10 / middle + 3 * 10 / 72.0, within(1e-12));
    }

    @Test
    void last_day_is_good_and_the_next_is_not() {
        ChemicalIndicator strip = indicator(Type.EMULATING, List.of(), Result.REACHED);
        assertThat(strip.isExpiredOn(DAY)).isFalse();
        assertThat(strip.isExpiredOn(DAY.plusDays(1))).isTrue();
        assertThat(new ChemicalIndicator("x", Type.PROCESS, "", "", Optional.empty(), List.of(), "", Result.REACHED)
                        .isExpiredOn(DAY))
                .isFalse();
    }

    @Test
    void words_and_questions() {
        assertThat(Type.INTEGRATING.words()).isEqualTo("type 5, integrating");
        assertThat(Type.SPECIFIC_TEST.number()).isEqualTo(2);
        assertThat(Result.NOT_REACHED.words()).isEqualTo("end point not reached");
        assertThat(indicator(Type.PROCESS, List.of(), Result.REACHED).isQuestion())
                .isFalse();
        assertThat(indicator(Type.PROCESS, List.of(), Result.NOT_REACHED).isQuestion())
                .isTrue();
        assertThat(indicator(Type.PROCESS, List.of(), Result.UNCLEAR).isQuestion())
                .isTrue();
        assertThatThrownBy(() -> new StatedValue(134, 0)).hasMessage("a stated value of 0.0 s at 134.0 °C");
    }
}
