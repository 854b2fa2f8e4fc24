package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;

/** With check values 84, 85, 91 and 224 of docs/check-values.md. */
class ExpectedReductionTest {

    private static final Optional<Double> MILLION = Optional.of(1e6);
    private static final Resistance USUAL = new Resistance(1.5, Optional.empty(), 121, 10);

    static CorrectedChannel level(double celsius, double minutes, double expanded) {
        int samples = (int) Math.round(minutes * 60) + 1;
        double[] values = new double[samples];
        Arrays.fill(values, celsius);
        CorrectedChannel exact = CorrectedSamples.of("T3", ChannelRole.LOAD, TimeAxis.regular(samples, 1), values);
        Budget budget = Budget.of("T3", "K", List.of(Contribution.expanded("all", expanded, 2, "invented")));
        return expanded == 0
                ? exact
                : new CorrectedChannel(exact.channel(), values, Optional.empty(), Optional.of(budget));
    }

    @ParameterizedTest(name = "{0}: {1} min at 121 °C leaves {3} of {2} spores, {4} grow")
    @CsvSource({
        "84, 15,   1e6, 1e-4, 9.9995e-5, ten decades",
        "85, 18,   1e6, 1e-6, 9.999995e-7, twelve decades",
        "91, 16.5, 1e5, 1e-6, 9.999995e-7, stated value of an integrating indicator",
        "-,  9,    1e6, 1,    0.6321206, one spore per unit in the mean: 1 − 1/e grow",
        "-,  6,    1e6, 100,  1, survival time: all grow",
    })
    void by_hand(String row, double minutes, double population, double survivors, double growth, String why) {
        ExpectedReduction expected = ExpectedReduction.of(level(121, minutes, 0), USUAL, Optional.of(population));
        assertThat(expected.decades().value()).as(why).isCloseTo(minutes / 1.5, within(1e-9));
        assertThat(expected.survivors().orElseThrow().value())
                .as("row %s, %s", row, why)
                .isCloseTo(survivors, within(1e-7 * survivors));
        assertThat(expected.growth().orElseThrow().value()).as(why).isCloseTo(growth, within(1e-6 * growth));
        assertThat(expected.channel()).isEqualTo("T3");
        assertThat(expected.isResistanceDoubtCounted()).isFalse();
    }

    @Test
    void temperature_is_brought_to_that_of_the_d_value() {
        ExpectedReduction at134 = ExpectedReduction.of(level(134, 3, 0), USUAL, MILLION);
        // 3 min · 10^1.3 / 1.5 min
        assertThat(at134.decades().value()).isCloseTo(2 * Math.pow(10, 1.3), within(1e-9));
        assertThat(at134.lethality().referenceCelsius()).isEqualTo(121);
        assertThat(at134.lethality().z()).isEqualTo(10);
        Resistance steep = new Resistance(1.5, Optional.empty(), 121, 6);
        assertThat(ExpectedReduction.of(level(134, 3, 0), steep, MILLION)
                        .decades()
                        .value())
                .isCloseTo(2 * Math.pow(10, 13 / 6.0), within(1e-9));
    }

    @Test
    void doubt_of_the_channel_widens_on_both_sides() {
        ExpectedReduction expected = ExpectedReduction.of(level(121, 15, 0.5), USUAL, MILLION);
        // U = 0.5 K, k = 2: F moves by 10^(±0.05), of which half is one standard uncertainty; the interval has two
        // again
        assertThat(expected.decades().low()).isCloseTo(10 * Math.pow(10, -0.05), within(1e-9));
        assertThat(expected.decades().high()).isCloseTo(10 * Math.pow(10, 0.05), within(1e-9));
        assertThat(expected.survivors().orElseThrow().low())
                .isCloseTo(1e6 * Math.pow(10, -expected.decades().high()), within(1e-12));
        assertThat(expected.survivors().orElseThrow().high())
                .isCloseTo(1e6 * Math.pow(10, -expected.decades().low()), within(1e-12));
        assertThat(expected.growth().orElseThrow().high())
                .isCloseTo(-Math.expm1(-expected.survivors().orElseThrow().high()), within(1e-12));
    }

    @Test
    void doubt_of_the_d_value_joins_that_of_the_channel() {
        Resistance doubted = new Resistance(1.5, Optional.of(new ExpandedUncertainty(0.3, 2)), 121, 10);
        ExpectedReduction expected = ExpectedReduction.of(level(121, 15, 0.5), doubted, MILLION);
        // u(ln F) = 0.025 · ln 10 = 0.0575646, u(ln D) = 0.1; together 0.115385 (row 224)
        assertThat(Math.log(expected.decades().high() / 10) / 2).as("row 224").isCloseTo(0.115385, within(0.0000005));
        assertThat(expected.decades().low() * expected.decades().high()).isCloseTo(100, within(1e-9));
        assertThat(expected.isResistanceDoubtCounted()).isTrue();
    }

    @Test
    void coarse_sampling_of_a_ramp_adds_its_own_doubt() {
        CorrectedChannel coarse = CorrectedSamples.of("T1", ChannelRole.LOAD, TimeAxis.regular(3, 60), 101, 121, 121);
        ExpectedReduction expected = ExpectedReduction.of(coarse, USUAL, MILLION);
        // F = 1 + 0.505 min, between 1.01 and 2 min
        double relative = 0.99 / 2 / 1.505 / Math.sqrt(3);
        assertThat(expected.decades().value()).isCloseTo(1.505 / 1.5, within(1e-12));
        assertThat(expected.decades().high()).isCloseTo(1.505 / 1.5 * Math.exp(2 * relative), within(1e-12));
    }

    @Test
    void without_population_there_are_decades_only() {
        ExpectedReduction expected = ExpectedReduction.of(level(121, 15, 0), USUAL, Optional.empty());
        assertThat(expected.decades().value()).isCloseTo(10, within(1e-9));
        assertThat(expected.survivors()).isEmpty();
        assertThat(expected.growth()).isEmpty();
    }

    @Test
    void a_recording_without_any_pair_of_samples_kills_nothing() {
        CorrectedChannel one = CorrectedSamples.of("T1", ChannelRole.LOAD, TimeAxis.regular(1, 1), 134);
        ExpectedReduction expected = ExpectedReduction.of(one, USUAL, MILLION);
        assertThat(expected.decades()).isEqualTo(new Estimate(0, 0, 0));
        assertThat(expected.growth().orElseThrow()).isEqualTo(new Estimate(1, 1, 1));
    }

    @ParameterizedTest(name = "D {0} min at {1} °C, z {2} K, population {3}: {4}")
    @CsvSource({
        "1.5,  121, 6,   1e5,  true,  exactly what is asked",
        "1.49, 121, 6,   1e5,  false, dies too fast",
        "1.5,  121, 5.9, 1e5,  false, z too small",
        "1.5,  121, 6,   9e4,  false, too few spores",
        "0.1,  134, 10,  1e6,  true,  a D-value at 134 °C is not held against that at 121 °C",
    })
    void weak_indicators_are_known(
            double d, double celsius, double z, double population, boolean isStrong, String why) {
        assertThat(new Resistance(d, Optional.empty(), celsius, z).isStrongEnough(Optional.of(population)))
                .as(why)
                .isEqualTo(isStrong);
        assertThat(new Resistance(1.5, Optional.empty(), 121, 10).isStrongEnough(Optional.empty()))
                .isTrue();
    }

    @Test
    void kinetics_are_those_of_the_certificate() {
        assertThat(USUAL.kinetics(1e6)).isEqualTo(new SporeKinetics(1e6, 1.5, 121, 10));
    }

    @ParameterizedTest
    @CsvSource({"0, 121, 10", "-1, 121, 10", "1.5, NaN, 10", "1.5, 121, 0", "Infinity, 121, 10", "1.5, 121, Infinity"})
    void refuses_what_no_spore_is(double d, double celsius, double z) {
        assertThatThrownBy(() -> new Resistance(d, Optional.empty(), celsius, z))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith("spores with D = ");
    }

    @Test
    void refuses_a_d_value_that_may_be_nothing() {
        assertThatThrownBy(() -> new Resistance(1.5, Optional.of(new ExpandedUncertainty(1.5, 2)), 121, 10))
                .hasMessage("a D-value of 1.5 min with an uncertainty of 1.5 min");
        assertThatThrownBy(() -> new Estimate(1, 2, 3)).hasMessage("an estimate of 1.0 between 2.0 and 3.0");
    }
}
