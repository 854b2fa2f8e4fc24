package org.steamwright.report.plot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import java.util.TreeSet;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

final class DecimationTest {

    @Property(tries = 300)
    void keeps_every_extreme_of_every_slice(@ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int slice) {
        Random random = new Random(seed);
        int n = 1 + random.nextInt(400);
        double[] seconds = new double[n];
        double[] values = new double[n];
        double now = 0;
        for (int i = 0; i < n; i++) {
            now += random.nextInt(30) == 0 ? 7 : 1;
            seconds[i] = now;
            values[i] = random.nextInt(25) == 0 ? Double.NaN : random.nextGaussian();
        }
        Decimation thin = Decimation.of(seconds, values, 1.6, slice);
        TreeSet<Double> kept = new TreeSet<>();
        for (double value : thin.values()) {
            if (!Double.isNaN(value)) {
                kept.add(value);
            }
        }
        for (int i = 0; i < n; i++) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            for (int k = 0; k < n; k++) {
                boolean same = Math.floor(seconds[k] / slice) == Math.floor(seconds[i] / slice);
                if (same && !Double.isNaN(values[k])) {
                    low = Math.min(low, values[k]);
                    high = Math.max(high, values[k]);
                }
            }
            if (low <= high) {
                assertThat(kept).contains(low, high);
            }
        }
    }

    @Property(tries = 200)
    void keeps_the_order_of_time_and_invents_nothing(@ForAll long seed) {
        Random random = new Random(seed);
        double[] seconds = new double[200];
        double[] values = new double[200];
        for (int i = 0; i < seconds.length; i++) {
            seconds[i] = i;
            values[i] = random.nextGaussian();
        }
        Decimation thin = Decimation.of(seconds, values, 1.6, 7);
        double before = -1;
        for (int i = 0; i < thin.seconds().length; i++) {
            double moment = thin.seconds()[i];
            assertThat(moment).isGreaterThan(before);
            assertThat(thin.values()[i]).isEqualTo(values[(int) moment]);
            before = moment;
        }
    }

    @Test
    void lifts_the_pen_at_a_gap_and_at_a_missing_value() {
        Decimation thin = Decimation.of(
                new double[] {0, 1, 2, 10, 11, 12}, new double[] {5, 5, 5, 6, Double.NaN, 7}, 1.6, 0.5);
        assertThat(thin.values()).containsExactly(5, 5, 5, Double.NaN, 6, Double.NaN, 7);
    }

    @Test
    void refuses_a_slice_of_no_length() {
        assertThatThrownBy(() -> Decimation.of(new double[1], new double[1], 1, 0))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
