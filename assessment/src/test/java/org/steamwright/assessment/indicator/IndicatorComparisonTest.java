package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.indicator.BiologicalTest.Indicator;
import org.steamwright.assessment.indicator.BiologicalTest.Reading;
import org.steamwright.assessment.indicator.BiologicalTest.Result;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

class IndicatorComparisonTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);
    private static final Resistance SPORES = new Resistance(1.5, Optional.empty(), 121, 10);

    /** A million spores after so many minutes at 121 °C, U = 0.2 K. */
    private static Optional<ExpectedReduction> after(double minutes) {
        return Optional.of(
                ExpectedReduction.of(ExpectedReductionTest.level(121, minutes, 0.2), SPORES, Optional.of(1e6)));
    }

    private static Indicator indicator(boolean isControl, char sign, LocalDate expires) {
        Reading reading = sign == '+' ? Reading.GROWTH : sign == '-' ? Reading.NO_GROWTH : Reading.AWAITED;
        return new Indicator(isControl ? "C" : "E", isControl, "lot 1", Optional.of(expires), reading);
    }

    /** The first of the signs is the exposed indicator that is looked at, the others are controls. */
    private static IndicatorComparison compare(
            String signs, LocalDate expires, Optional<ExpectedReduction> expected, Optional<SteamCondition> steam) {
        List<Indicator> indicators = new ArrayList<>();
        for (int i = 0; i < signs.length(); i++) {
            indicators.add(indicator(i > 0, signs.charAt(i), expires));
        }
        return IndicatorComparison.of(
                indicators.get(0), new BiologicalTest(indicators, DAY), expected, "No channel lies there.", steam);
    }

    private static IndicatorComparison compare(String signs, double minutes) {
        return compare(signs, DAY, after(minutes), Optional.empty());
    }

    @ParameterizedTest(name = "{0} after {1} min: {2}, {3}")
    @CsvSource({
        "-+, 15,   AGREES,               dead as expected",
        "++, 15,   GROWTH_UNEXPECTED,    ten decades and yet growth",
        "+-, 15,   GROWTH_UNEXPECTED,    growth needs no control",
        "+,  15,   GROWTH_UNEXPECTED,    growth needs no control at all",
        "++, 6,    AGREES,               survival time: it had to grow",
        "-+, 6,    NO_GROWTH_UNEXPECTED, survival time and yet dead",
        "-+, 9,    CANNOT_TELL,          one spore in the mean",
        "++, 9,    CANNOT_TELL,          one spore in the mean",
        "--, 15,   VOID,                 a dead lot proves nothing",
        "--, 6,    VOID,                 a dead lot explains it",
        "-,  15,   VOID,                 no control",
        "-+-,15,   VOID,                 controls that disagree",
        "-?, 15,   AWAITED,              the control is not read",
        "?+, 15,   AWAITED,              not read",
        "?-, 15,   AWAITED,              not read; the control speaks for itself",
        "+?, 15,   GROWTH_UNEXPECTED,    growth need not wait for the control",
    })
    void growth_beside_expectation(String signs, double minutes, Agreement expected, String why) {
        assertThat(compare(signs, minutes).agreement()).as(why).isEqualTo(expected);
    }

    @Test
    void turns_where_the_doubtful_probability_of_growth_passes_five_percent() {
        // P = 0.05 at N = 0.051293: 7.29 decades, 10.9349 min; U of 0.2 K widens the decades by 10^0.02
        double edge = 1.5 * (6 - Math.log10(-Math.log1p(-0.05))) * Math.pow(10, 0.02);
        assertThat(edge).isCloseTo(11.45, within(0.01));
        assertThat(compare("++", 11.44).agreement()).isEqualTo(Agreement.CANNOT_TELL);
        assertThat(compare("++", 11.46).agreement()).isEqualTo(Agreement.GROWTH_UNEXPECTED);
        // P = 0.95 at N = 2.9957
        double other = 1.5 * (6 - Math.log10(-Math.log1p(-0.95))) / Math.pow(10, 0.02);
        assertThat(other).isCloseTo(7.91, within(0.01));
        assertThat(compare("-+", 7.92).agreement()).isEqualTo(Agreement.CANNOT_TELL);
        assertThat(compare("-+", 7.90).agreement()).isEqualTo(Agreement.NO_GROWTH_UNEXPECTED);
    }

    @Test
    void nothing_here_can_pass_what_grew_or_fail_what_did_not() {
        for (String signs : new String[] {"++", "+-", "-+", "--", "?+", "-?", "+", "-"}) {
            List<Indicator> indicators = new ArrayList<>();
            for (int i = 0; i < signs.length(); i++) {
                indicators.add(indicator(i > 0, signs.charAt(i), DAY));
            }
            Result alone = new BiologicalTest(indicators, DAY).result();
            assertThat(alone == Result.FAIL).isEqualTo(signs.charAt(0) == '+');
            for (double minutes : new double[] {0.1, 6, 9, 15, 60}) {
                Agreement agreement = compare(signs, minutes).agreement();
                assertThat(agreement == Agreement.VOID)
                        .as("%s after %s min: void exactly where the test is invalid for the lot", signs, minutes)
                        .isEqualTo(alone == Result.INVALID && signs.charAt(0) == '-');
            }
        }
    }

    @Test
    void an_expired_lot_without_growth_is_void_and_growth_still_counts() {
        IndicatorComparison clear = compare("-+", DAY.minusDays(1), after(15), Optional.empty());
        assertThat(clear.agreement()).isEqualTo(Agreement.VOID);
        assertThat(clear.sentence())
                .isEqualTo("It did not grow, but its lot was out of date on the day: it may have been dead before.");
        assertThat(compare("++", DAY.minusDays(1), after(15), Optional.empty()).agreement())
                .isEqualTo(Agreement.GROWTH_UNEXPECTED);
    }

    @Test
    void a_control_speaks_for_its_lot() {
        List<Indicator> indicators = List.of(indicator(true, '+', DAY));
        BiologicalTest test = new BiologicalTest(indicators, DAY);
        assertThat(IndicatorComparison.of(indicators.get(0), test, after(15), "", Optional.empty()))
                .isEqualTo(new IndicatorComparison(
                        "C", Agreement.AGREES, Optional.empty(), "The control grew: its lot is alive.", List.of()));
        IndicatorComparison dead =
                IndicatorComparison.of(indicator(true, '-', DAY), test, Optional.empty(), "", Optional.empty());
        assertThat(dead.agreement()).isEqualTo(Agreement.VOID);
        assertThat(dead.hints()).first().asString().contains("killed by age");
        assertThat(IndicatorComparison.of(indicator(true, '?', DAY), test, Optional.empty(), "", Optional.empty())
                        .agreement())
                .isEqualTo(Agreement.AWAITED);
    }

    @Test
    void says_what_is_missing() {
        IndicatorComparison nowhere = compare("-+", DAY, Optional.empty(), Optional.empty());
        assertThat(nowhere.agreement()).isEqualTo(Agreement.NOT_COMPARED);
        assertThat(nowhere.sentence()).isEqualTo("No channel lies there.");
        Optional<ExpectedReduction> uncounted =
                Optional.of(ExpectedReduction.of(ExpectedReductionTest.level(121, 15, 0), SPORES, Optional.empty()));
        assertThat(compare("-+", DAY, uncounted, Optional.empty()).agreement()).isEqualTo(Agreement.NOT_COMPARED);
        assertThat(compare("-+", DAY, uncounted, Optional.empty()).expected()).isEqualTo(uncounted);
    }

    @Test
    void missing_temperature_excuses_a_death_but_no_growth() {
        double[] celsius = new double[15 * 60 + 1];
        Arrays.fill(celsius, 121);
        Arrays.fill(celsius, 300, celsius.length, Double.NaN);
        Optional<ExpectedReduction> broken = Optional.of(ExpectedReduction.of(
                CorrectedSamples.of("T3", ChannelRole.LOAD, TimeAxis.regular(celsius.length, 1), celsius),
                SPORES,
                Optional.of(1e6)));
        assertThat(compare("-+", DAY, broken, Optional.empty()).agreement()).isEqualTo(Agreement.CANNOT_TELL);
        assertThat(compare("-+", DAY, broken, Optional.empty()).sentence()).startsWith("Part of the temperature");
        Arrays.fill(celsius, 121);
        celsius[7] = Double.NaN;
        Optional<ExpectedReduction> nearlyWhole = Optional.of(ExpectedReduction.of(
                CorrectedSamples.of("T3", ChannelRole.LOAD, TimeAxis.regular(celsius.length, 1), celsius),
                SPORES,
                Optional.of(1e6)));
        assertThat(compare("++", DAY, nearlyWhole, Optional.empty()).agreement())
                .isEqualTo(Agreement.GROWTH_UNEXPECTED);
    }

    @ParameterizedTest(name = "coldest {0} K, hottest {1} K: {2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "-0.2 | 0.3 | air left around the spores while the sensor beside them stood in steam: a lumen, a tight pack",
                "-1.1 | 0.3 | air left around the spores while the sensor beside them stood in steam: a lumen, a tight pack; T9 was colder than saturated steam in this run",
                "-0.2 | 1.6 | dry heat: superheated steam or a dry place is far slower at the same temperature; T8 was hotter than saturated steam in this run",
            })
    void first_hint_follows_the_steam(double coldest, double hottest, String hint) {
        Optional<SteamCondition> steam = Optional.of(new SteamCondition(coldest, "T9", 400, 1, hottest, "T8", 500));
        IndicatorComparison grown = compare("++", DAY, after(15), steam);
        assertThat(grown.hints()).hasSize(5).first().isEqualTo(hint);
        assertThat(grown.hints().get(1)).startsWith(hint.startsWith("air") ? "dry heat" : "air left");
        assertThat(grown.hints()).anyMatch(text -> text.contains("condensate") && text.contains("T3"));
        assertThat(grown.sentence()).contains("fails whatever the thermometer says");
    }

    @Test
    void words_for_people_and_what_contradicts() {
        assertThat(Agreement.AGREES.words()).isEqualTo("agrees");
        assertThat(Agreement.values())
                .filteredOn(Agreement::isContradiction)
                .containsExactly(
                        Agreement.GROWTH_UNEXPECTED,
                        Agreement.NO_GROWTH_UNEXPECTED,
                        Agreement.END_POINT_MISSED,
                        Agreement.END_POINT_UNEXPECTED)
                .allMatch(agreement -> agreement.words().startsWith("contradicts: "));
    }
}
