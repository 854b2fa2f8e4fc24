package org.steamwright.assessment.cycle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

/** Check values 119 to 121 and 212 of docs/check-values.md. */
class PlateauCheckValuesTest {

    @Test
    void crossing_between_two_samples() {
        double[] celsius = new double[200];
        for (int i = 0; i < celsius.length; i++) {
            celsius[i] = i <= 10 ? 133.7 - 2 * (10 - i) : i < 190 ? 134.2 : 100;
        }
        Plateau plateau = find(celsius, celsius);
        Crossing crossing = plateau.findCrossing("reference").orElseThrow();
        assertThat(crossing.interpolatedSeconds()).as("row 119").isCloseTo(10.600, within(1e-6));
        assertThat(crossing.sampleSeconds()).as("row 119: the sample decides").isEqualTo(11);
    }

    @Test
    void reached_at_100_equilibrated_at_109_lost_at_305() {
        Plateau plateau = find(step(100, 305), step(109, 305));
        assertThat(plateau.equilibrationSeconds()).as("row 120").contains(9.0);
        assertThat(plateau.holdingSeconds())
                .as("row 121: last sample inside 304, first 109")
                .isEqualTo(195);
        double firstOutside = plateau.holdingEnd().atSeconds();
        assertThat(firstOutside - plateau.equilibratedSeconds().orElseThrow())
                .as("row 120: half-open holding, up to the first sample outside")
                .isEqualTo(196);
        assertThat(firstOutside - plateau.reachedSeconds())
                .as("row 120: half-open plateau")
                .isEqualTo(205);
    }

    @Test
    void a_real_recording_stays_at_121_degrees_for_less_than_five_minutes() {
        List<String[]> rows = OutsideData.rows("autoclave/ciclo_completo_F0_20_1Hz.csv");
        double[] celsius =
                rows.stream().mapToDouble(row -> Double.parseDouble(row[1])).toArray();
        CorrectedChannel channel = CorrectedSamples.of(
                "reference", ChannelRole.REFERENCE_POINT, TimeAxis.regular(celsius.length, 1), celsius);
        Plateau plateau = new PlateauFinder(channel, List.of(channel), new Band(121.0, 125.0))
                .find()
                .orElseThrow();
        assertThat(plateau.holdingSeconds() / 60)
                .as("row 212: longest unbroken stretch, printed to 0.001 min")
                .isCloseTo(
                        OutsideData.jsonNumber("autoclave/EXPECTED.json", "continuous_ge_121_0_min"), within(0.0005));
        Stretch holding = plateau.holding().orElseThrow();
        assertThat(holding.fromSeconds())
                .as("row 212")
                .isEqualTo(OutsideData.jsonNumber("autoclave/EXPECTED.json", "continuous_ge_121_0_from_s"));
        assertThat(holding.toSeconds())
                .as("row 212")
                .isEqualTo(OutsideData.jsonNumber("autoclave/EXPECTED.json", "continuous_ge_121_0_to_s"));
    }

    private static double[] step(int from, int until) {
        double[] celsius = new double[400];
        for (int i = 0; i < celsius.length; i++) {
            celsius[i] = i >= from && i < until ? 135 : 120;
        }
        return celsius;
    }

    private static Plateau find(double[] reference, double[] load) {
        TimeAxis axis = TimeAxis.regular(reference.length, 1);
        CorrectedChannel first = CorrectedSamples.of("reference", ChannelRole.REFERENCE_POINT, axis, reference);
        CorrectedChannel second = CorrectedSamples.of("load", ChannelRole.LOAD, axis, load);
        return new PlateauFinder(first, List.of(first, second), new Band(134, 138))
                .find()
                .orElseThrow();
    }
}
