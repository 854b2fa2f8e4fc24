package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class RandomnessTest {

    /** Outside check: the JDK's SplittableRandom is another implementation of the same published generator. */
    @Test
    void gives_the_numbers_of_the_published_generator() {
        SplittableRandom published = new SplittableRandom(1_234_567L);
        Randomness own = new Randomness(1_234_567L);
        for (int i = 0; i < 1000; i++) {
            assertThat(own.next()).as("number %d", i).isEqualTo(published.nextLong());
        }
    }

    @Test
    void gaussian_deviates_have_mean_zero_and_deviation_one() {
        Randomness random = new Randomness(3);
        int n = 200_000;
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < n; i++) {
            double drawn = random.gaussian();
            sum += drawn;
            squares += drawn * drawn;
        }
        // four standard errors: 1/√n of the mean, 1/√(2n) of the deviation
        assertThat(sum / n).isBetween(-0.009, 0.009);
        assertThat(Math.sqrt(squares / n)).isBetween(1 - 0.0065, 1 + 0.0065);
    }

    @Test
    void streams_of_different_purposes_differ_and_repeat() {
        assertThat(Randomness.of(5, 1).next()).isEqualTo(Randomness.of(5, 1).next());
        assertThat(Randomness.of(5, 1).next()).isNotEqualTo(Randomness.of(5, 2).next());
        assertThat(Randomness.of(5, 1).next()).isNotEqualTo(Randomness.of(6, 1).next());
    }
}
