package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class PlateauScanTest {
    private static final double TINY = 1e-9;

    /** Check values 119 and 120: crossing by straight line, equilibration 9 s, holding 196 s (by hand). */
    @Test
    void finds_crossings_between_the_nodes() {
        double[] reference = {133, 133.7, 134.2, 134.5, 134.5, 134.5, 133.5};
        double[] load = {132, 133, 133.9, 134.1, 134.5, 134.5, 133.9};
        PlateauTruth found = new PlateauScan(9, 1, 7, List.of(reference, load)).find(List.of("R", "L"), 0, 134, 138);
        assertThat(found.reachedSeconds()).hasValueSatisfying(s -> assertThat(s).isCloseTo(10.6, within(TINY)));
        assertThat(found.equilibratedSeconds())
                .hasValueSatisfying(s -> assertThat(s).isCloseTo(11.5, within(TINY)));
        assertThat(found.equilibrationSeconds())
                .hasValueSatisfying(s -> assertThat(s).isCloseTo(0.9, within(TINY)));
        assertThat(found.penetrationSeconds("L"))
                .hasValueSatisfying(s -> assertThat(s).isCloseTo(0.9, within(TINY)));
        // the reference leaves at 14.5, the load at 14 + 0.5/0.6
        assertThat(found.holdingSeconds()).isCloseTo(14.5 - 11.5, within(TINY));
    }

    @Test
    void never_adds_two_stretches() {
        double[] dipping = {130, 135, 135, 135, 133, 135, 135, 130};
        PlateauTruth found = new PlateauScan(0, 1, 8, List.of(dipping)).find(List.of("R"), 0, 134, 138);
        assertThat(found.holding()).hasValueSatisfying(holding -> {
            assertThat(holding.fromSeconds()).isCloseTo(0.8, within(TINY));
            assertThat(holding.toSeconds()).isCloseTo(3.5, within(TINY));
        });
    }

    @Test
    void leaves_the_band_at_the_top_as_well() {
        double[] high = {133, 135, 139, 135, 133};
        PlateauTruth found = new PlateauScan(0, 1, 5, List.of(high)).find(List.of("R"), 0, 134, 137);
        assertThat(found.holdingSeconds()).isCloseTo(1.0, within(TINY));
        PlateauTruth unlimited =
                new PlateauScan(0, 1, 5, List.of(high)).find(List.of("R"), 0, 134, Double.POSITIVE_INFINITY);
        assertThat(unlimited.holdingSeconds()).isCloseTo(3.0, within(TINY));
    }

    @Test
    void a_missing_value_belongs_to_no_band() {
        double[] broken = {135, 135, Double.NaN, 135, 135, 135};
        PlateauTruth found = new PlateauScan(0, 1, 6, List.of(broken)).find(List.of("R"), 0, 134, 138);
        assertThat(found.holdingSeconds()).isCloseTo(2.0, within(TINY));
    }

    @Test
    void a_point_that_never_comes_leaves_no_equilibration_but_the_reference_is_reached() {
        double[] reference = {133, 135, 135, 133};
        double[] cold = {133, 133.5, 133.5, 133};
        PlateauTruth found = new PlateauScan(0, 1, 4, List.of(reference, cold)).find(List.of("R", "C"), 0, 134, 138);
        assertThat(found.reachedSeconds()).hasValueSatisfying(s -> assertThat(s).isCloseTo(0.5, within(TINY)));
        assertThat(found.equilibratedSeconds()).isEmpty();
        assertThat(found.holding()).isEmpty();
        assertThat(found.holdingSeconds()).isZero();
        assertThat(found.penetrationSeconds("C")).isEmpty();
    }

    @Test
    void finds_nothing_in_a_cold_chamber() {
        double[] cold = {20, 20, 20};
        PlateauTruth found = new PlateauScan(0, 1, 3, List.of(cold)).find(List.of("R"), 0, 134, 138);
        assertThat(found.reachedSeconds()).isEmpty();
        assertThat(found.crossings()).isEmpty();
    }
}
