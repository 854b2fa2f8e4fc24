package org.steamwright.assessment.propagation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;

/** Drawing and the law of propagation against the additive examples of JCGM 101:2008, 9.2.3 and 9.2.4 (from memory). */
class PropagationCheckValuesTest {

    @ParameterizedTest
    @CsvSource({"1, 3.88, 3.92", "10, 17.0, 19.9"})
    void additive_model_of_the_guide(double fourth, double drawn, double propagated) {
        List<Contribution> lines = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            lines.add(Contribution.rectangular("x" + i, Math.sqrt(3) * (i == 3 ? fourth : 1), "example"));
        }
        Budget budget = Budget.of("sum", "K", lines);
        assertThat(1.959963984540054 * budget.combined()).isCloseTo(propagated, within(0.05));
        ErrorModel model = new ErrorModel(List.of(budget));
        Draws draws = new Draws(7);
        double[] sums = new double[200_000];
        for (int i = 0; i < sums.length; i++) {
            sums[i] = model.draw(draws)[0];
        }
        Arrays.sort(sums);
        CoverageInterval interval = CoverageInterval.ofDraws(0, sums);
        assertThat(interval.low()).isCloseTo(-drawn, within(0.06));
        assertThat(interval.high()).isCloseTo(drawn, within(0.06));
    }
}
