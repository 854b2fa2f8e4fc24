package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.indicator.ResistanceFit.Count;
import org.steamwright.assessment.lethality.TemperatureProfile;

class ResistanceFitTest {

    private static List<Count> counts(double d, double z, DoubleUnaryOperator scatter) {
        List<Count> counts = new ArrayList<>();
        for (double celsius : new double[] {115, 118, 121, 124}) {
            double here = d * Math.pow(10, (121 - celsius) / z);
            for (int i = 1; i <= 5; i++) {
                counts.add(new Count(i * here, celsius, scatter.applyAsDouble(-i)));
            }
        }
        return counts;
    }

    @Test
    void finds_what_it_was_made_from() {
        ResistanceFit fit = ResistanceFit.of(counts(1.8, 9.5, y -> y), 121);
        assertThat(fit.minutes().value()).isCloseTo(1.8, within(1e-6));
        assertThat(fit.z().value()).isCloseTo(9.5, within(1e-6));
        assertThat(fit.residual()).isCloseTo(0, within(1e-6));
        assertThat(ResistanceFit.of(counts(1.8, 9.5, y -> y), 118).minutes().value())
                .as("the same spores at another reference")
                .isCloseTo(1.8 * Math.pow(10, 3 / 9.5), within(1e-5));
    }

    @Test
    void interval_holds_the_truth_about_as_often_as_it_says() {
        Random random = new Random(7);
        int heldD = 0;
        int heldZ = 0;
        for (int i = 0; i < 500; i++) {
            ResistanceFit fit = ResistanceFit.of(counts(1.8, 9.5, y -> y + 0.2 * random.nextGaussian()), 121);
            heldD += fit.minutes().contains(1.8) ? 1 : 0;
            heldZ += fit.z().contains(9.5) ? 1 : 0;
        }
        assertThat(heldD / 500.0).isBetween(0.92, 0.98);
        assertThat(heldZ / 500.0).isBetween(0.92, 0.98);
    }

    @Test
    void predicts_a_constant_temperature_as_the_spores_do() {
        ResistanceFit fit = ResistanceFit.of(counts(1.5, 10, y -> y), 121);
        TemperatureProfile level = new TemperatureProfile(new double[] {0, 3}, new double[] {131, 131});
        assertThat(fit.logReduction(level, 3)).isCloseTo(20, within(1e-4));
        assertThat(fit.kinetics(1e6).logReduction(30)).isCloseTo(20, within(1e-4));
    }

    @Test
    void refuses_what_has_no_z() {
        List<Count> one = counts(1.8, 9.5, y -> y).subList(0, 5);
        assertThatThrownBy(() -> ResistanceFit.of(one, 121))
                .hasMessage("D and z together need four counts at two temperatures at least");
        List<Count> heatless = new ArrayList<>();
        for (double celsius : new double[] {115, 125}) {
            for (int i = 1; i <= 3; i++) {
                heatless.add(new Count(i, celsius, -i));
            }
        }
        assertThatThrownBy(() -> ResistanceFit.of(heatless, 121))
                .hasMessage(
                        "no z between 1.0 and 200.0 K fits best; do the counts fall faster at the higher temperature?");
        assertThatThrownBy(() -> ResistanceFit.of(counts(1.8, 9.5, y -> -y), 121))
                .hasMessage("the counts do not fall, so there is no D-value");
    }
}
