package org.steamwright.assessment.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau.StretchEnd.Reason;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

class PlateauFinderTest {

    static final Band BAND = new Band(134, 138);

    static CorrectedChannel channel(String name, TimeAxis axis, double... celsius) {
        return CorrectedSamples.of(name, ChannelRole.LOAD, axis, celsius);
    }

    static Optional<Plateau> find(CorrectedChannel... channels) {
        return new PlateauFinder(channels[0], List.of(channels), BAND).find();
    }

    static double possible(CorrectedChannel... channels) {
        return new PlateauFinder(channels[0], List.of(channels), BAND).possibleHoldingSeconds();
    }

    @Test
    void two_loggers_with_their_own_moments_meet_in_their_common_time() {
        CorrectedChannel first = channel("A", TimeAxis.regular(8, 1), 120, 134, 135, 135, 135, 135, 135, 120);
        CorrectedChannel second = channel(
                "B",
                TimeAxis.ofSeconds(0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5),
                120,
                120,
                135,
                135,
                135,
                135,
                120,
                120);
        Plateau plateau = find(first, second).orElseThrow();
        assertThat(plateau.reachedSeconds()).isEqualTo(1);
        assertThat(plateau.equilibratedSeconds()).contains(2.5);
        assertThat(plateau.holding()).contains(new Stretch(2.5, 5.5));
        assertThat(plateau.holdingEnd()).isEqualTo(new Plateau.StretchEnd(Reason.BELOW, "B", 6.5));
        assertThat(plateau.endSeconds()).isEqualTo(6);
        assertThat(plateau.findCrossing("B").orElseThrow().interpolatedSeconds())
                .isEqualTo(1.5 + 14.0 / 15);
        assertThat(plateau.findCrossing("C")).isEmpty();
    }

    @Test
    void of_equal_stretches_the_first_counts() {
        Plateau plateau = find(channel("A", TimeAxis.regular(9, 1), 120, 135, 135, 135, 133.5, 135, 135, 135, 120))
                .orElseThrow();
        assertThat(plateau.holding()).contains(new Stretch(1, 3));
        assertThat(plateau.breakBefore()).isEmpty();
    }

    @Test
    void rounding_of_a_shifted_clock_does_not_choose_between_equal_stretches() {
        TimeAxis axis = TimeAxis.regular(300, 1).shifted(-0.01);
        double[] celsius = new double[300];
        celsius[0] = 120;
        // 64 to 66 s and 158 to 160 s: on the shifted axis the later one is longer by a rounding
        for (int i = 1; i < celsius.length; i++) {
            boolean isInside = (i >= 64 && i <= 66) || (i >= 158 && i <= 160);
            celsius[i] = isInside ? 135 : 133.5;
        }
        celsius[1] = 134;
        Plateau plateau = find(channel("A", axis, celsius)).orElseThrow();
        assertThat(axis.at(160) - axis.at(158)).isGreaterThan(axis.at(66) - axis.at(64));
        assertThat(plateau.holding()).contains(new Stretch(axis.at(64), axis.at(66)));
    }

    @Test
    void of_two_candidates_with_equal_holding_the_longer_counts_and_of_equal_ones_the_first() {
        TimeAxis axis = TimeAxis.regular(10, 1);
        CorrectedChannel reference = channel("A", axis, 120, 135, 135, 120, 135, 135, 133.5, 135, 120, 120);
        assertThat(find(reference).orElseThrow().reachedSeconds()).isEqualTo(4);
        CorrectedChannel equal = channel("A", axis, 120, 135, 135, 120, 135, 135, 120, 120, 120, 120);
        assertThat(find(equal).orElseThrow().reachedSeconds()).isEqualTo(1);
    }

    @Test
    void a_measured_departure_says_more_than_a_missing_value_at_the_same_sample() {
        TimeAxis axis = TimeAxis.regular(4, 1);
        CorrectedChannel missing = channel("A", axis, 120, 135, 135, Double.NaN);
        CorrectedChannel below = channel("B", axis, 120, 135, 135, 130);
        assertThat(find(missing, below).orElseThrow().holdingEnd().channel()).isEqualTo("B");
        assertThat(find(below, missing).orElseThrow().holdingEnd().channel()).isEqualTo("B");
    }

    @Test
    void the_end_of_the_recording_is_told_from_a_departure() {
        Plateau plateau =
                find(channel("A", TimeAxis.regular(4, 1), 120, 135, 135, 135)).orElseThrow();
        assertThat(plateau.holdingEnd()).isEqualTo(new Plateau.StretchEnd(Reason.END_OF_RECORDING, "A", 3));
        assertThat(possible(channel("A", TimeAxis.regular(4, 1), 120, 135, 135, 135)))
                .isInfinite();
    }

    @Test
    void what_was_not_recorded_could_have_been_inside() {
        TimeAxis axis = TimeAxis.ofSeconds(0, 1, 2, 3, 4, 8, 9, 10);
        Plateau plateau = find(channel("A", axis, 120, 135, Double.NaN, 135, 135, 135, 135, 120))
                .orElseThrow();
        assertThat(plateau.holdingSeconds()).isEqualTo(1);
        assertThat(possible(channel("A", axis, 120, 135, Double.NaN, 135, 135, 135, 135, 120)))
                .isEqualTo(8);
        assertThat(plateau.holdingEnd().reason()).isEqualTo(Reason.GAP);
        assertThat(plateau.breakBefore().orElseThrow().reason()).isEqualTo(Reason.MISSING);
    }

    @Test
    void a_first_sample_at_temperature_has_nothing_to_interpolate_with() {
        Plateau plateau =
                find(channel("A", TimeAxis.regular(3, 1), 135, 135, 120)).orElseThrow();
        assertThat(plateau.findCrossing("A").orElseThrow().interpolatedSeconds())
                .isZero();
    }

    @Test
    void no_crossing_is_interpolated_across_a_gap_or_from_a_missing_value() {
        Plateau gap = find(channel("A", TimeAxis.ofSeconds(0, 1, 5, 6, 7), 120, 121, 135, 135, 120))
                .orElseThrow();
        assertThat(gap.findCrossing("A").orElseThrow().interpolatedSeconds()).isEqualTo(5);
        Plateau missing = find(channel("A", TimeAxis.regular(4, 1), 120, Double.NaN, 135, 120))
                .orElseThrow();
        assertThat(missing.findCrossing("A").orElseThrow().interpolatedSeconds())
                .isEqualTo(2);
    }

    @Test
    void dips_are_told_with_their_depth_and_in_order_of_time() {
        double[] first = new double[60];
        double[] second = new double[60];
        Arrays.fill(first, 135);
        Arrays.fill(second, 135);
        first[0] = 120;
        first[59] = 120;
        first[40] = 133.9;
        first[41] = 133.7;
        first[42] = 133.8;
        second[20] = 133.6;
        TimeAxis axis = TimeAxis.regular(60, 1);
        Plateau plateau =
                find(channel("A", axis, first), channel("B", axis, second)).orElseThrow();
        assertThat(plateau.dips())
                .containsExactly(
                        new Plateau.Excursion("B", 20, 20, 133.6, 20), new Plateau.Excursion("A", 40, 42, 133.7, 41));
        assertThat(plateau.together()).contains(new Stretch(1, 58));
    }

    @Test
    void a_point_that_left_before_the_plateau_began_did_not_arrive() {
        TimeAxis axis = TimeAxis.regular(6, 1);
        Plateau plateau = find(
                        channel("A", axis, 120, 120, 120, 135, 135, 120),
                        channel("B", axis, 120, 135, 120, 120, 120, 120))
                .orElseThrow();
        assertThat(plateau.latecomers()).containsExactly("B");
        assertThat(plateau.holdingEnd().reason()).isEqualTo(Reason.NONE);
        assertThat(plateau.holdingSeconds()).isZero();
        assertThat(plateau.equilibrationSeconds()).isEmpty();
        assertThat(possible(
                        channel("A", axis, 120, 120, 120, 135, 135, 120),
                        channel("B", axis, 120, 135, 120, 120, 120, 120)))
                .isZero();
    }

    @Test
    void nothing_reached_is_no_plateau() {
        assertThat(find(channel("A", TimeAxis.regular(3, 1), 120, 133.999, 120)))
                .isEmpty();
        assertThat(find(channel("A", TimeAxis.regular(3, 1), 120, 134, 120))).isPresent();
    }

    @Test
    void bands_and_stretches_are_in_order() {
        assertThat(BAND.contains(134)).isTrue();
        assertThat(BAND.contains(138)).isTrue();
        assertThat(BAND.contains(133.999)).isFalse();
        assertThat(BAND.contains(138.001)).isFalse();
        assertThat(BAND.contains(Double.NaN)).isFalse();
        assertThatThrownBy(() -> new Band(138, 134)).hasMessageContaining("not a band");
        assertThatThrownBy(() -> new Band(Double.NaN, 134)).hasMessageContaining("not a band");
        assertThatThrownBy(() -> new Stretch(2, 1)).hasMessage("a stretch from 2.0 s to 1.0 s");
        Stretch stretch = new Stretch(1, 2);
        assertThat(stretch.contains(1)).isTrue();
        assertThat(stretch.contains(2)).isTrue();
        assertThat(stretch.contains(0.999)).isFalse();
        assertThat(stretch.contains(2.001)).isFalse();
        assertThatThrownBy(() -> new PlateauFinder(channel("A", TimeAxis.regular(1, 1), 1), List.of(), BAND))
                .hasMessage("no point to judge");
    }
}
