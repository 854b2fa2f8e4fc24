package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.indicator.FractionNegative.Exposure;

class FractionNegativeTest {

    /** Invented row: steps of one minute, twenty replicates. */
    private static final FractionNegative ROW = row(8, 20, 9, 20, 10, 20, 11, 20, 12, 20, 13, 20);

    private static FractionNegative row(double... timesAndReplicates) {
        int[] negatives = {0, 3, 9, 16, 19, 20};
        List<Exposure> exposures = new ArrayList<>();
        for (int i = 0; i < negatives.length; i++) {
            exposures.add(new Exposure(timesAndReplicates[2 * i], (int) timesAndReplicates[2 * i + 1], negatives[i]));
        }
        return new FractionNegative(exposures);
    }

    @Test
    void spearman_karber_by_hand() {
        // U = 13 − 0.5 − (0 + 3 + 9 + 16 + 19)/20 = 10.15 min; D = 10.15 / (6 + 0.2507)
        // V = (3·17 + 9·11 + 16·4 + 19·1) / (400 · 19) = 233/7600
        double u = 10.15;
        double half = 1.959963984540054 * Math.sqrt(233.0 / 7600);
        Estimate limited = ROW.limitedSpearmanKarber(1e6);
        assertThat(limited.value()).isCloseTo(u / 6.2507, within(1e-12));
        assertThat(limited.low()).isCloseTo((u - half) / 6.2507, within(1e-12));
        assertThat(limited.high()).isCloseTo((u + half) / 6.2507, within(1e-12));
    }

    @Test
    void general_form_equals_the_limited_one_where_both_apply() {
        Estimate general = ROW.spearmanKarber(1e6);
        Estimate limited = ROW.limitedSpearmanKarber(1e6);
        assertThat(general.value()).isCloseTo(limited.value(), within(1e-12));
        assertThat(general.low()).isCloseTo(limited.low(), within(1e-12));
        assertThat(general.high()).isCloseTo(limited.high(), within(1e-12));
        assertThat(ROW.meanTimeToSterility().value()).isCloseTo(10.15, within(1e-12));
    }

    @Test
    void general_form_takes_uneven_steps_and_numbers() {
        FractionNegative uneven = new FractionNegative(List.of(
                new Exposure(8, 10, 0), new Exposure(10, 20, 5), new Exposure(11, 10, 8), new Exposure(14, 10, 10)));
        // U = 9 · 0.25 + 10.5 · 0.55 + 12.5 · 0.2
        assertThat(uneven.meanTimeToSterility().value()).isCloseTo(10.525, within(1e-12));
        // V = 1.5² · 0.25 · 0.75 / 19 + 2² · 0.8 · 0.2 / 9
        assertThat(uneven.meanTimeToSterility().high() - 10.525)
                .isCloseTo(1.959963984540054 * Math.sqrt(2.25 * 0.1875 / 19 + 4 * 0.16 / 9), within(1e-12));
        assertThatThrownBy(() -> uneven.limitedSpearmanKarber(1e6))
                .hasMessage(
                        "the limited method needs equal steps and equal numbers of replicates between 8.0 and 14.0 min");
    }

    @Test
    void exposures_beyond_the_first_that_all_survived_or_none_did_change_nothing() {
        List<Exposure> more = new ArrayList<>(ROW.exposures());
        more.add(0, new Exposure(2, 5, 0));
        more.add(new Exposure(20, 5, 5));
        assertThat(new FractionNegative(more).limitedSpearmanKarber(1e6)).isEqualTo(ROW.limitedSpearmanKarber(1e6));
        assertThat(new FractionNegative(more).spearmanKarber(1e6)).isEqualTo(ROW.spearmanKarber(1e6));
    }

    @Test
    void a_dip_back_to_all_grown_stays_inside_the_row() {
        FractionNegative dip = new FractionNegative(List.of(
                new Exposure(8, 10, 0), new Exposure(9, 10, 1), new Exposure(10, 10, 0), new Exposure(11, 10, 10)));
        // U = 11 − 0.5 − 1/10
        assertThat(dip.meanTimeToSterility().value()).isCloseTo(10.4, within(1e-12));
    }

    @Test
    void stumbo_murphy_cochran_by_hand() {
        // D_i = t / (6 − lg ln(20/r)) for r = 3, 9, 16, 19
        double expected = (9 / (6 - Math.log10(Math.log(20.0 / 3)))
                        + 10 / (6 - Math.log10(Math.log(20.0 / 9)))
                        + 11 / (6 - Math.log10(Math.log(20.0 / 16)))
                        + 12 / (6 - Math.log10(Math.log(20.0 / 19))))
                / 4;
        Estimate found = ROW.stumboMurphyCochran(1e6);
        assertThat(found.value()).isCloseTo(expected, within(1e-12));
        assertThat(found.low()).isBetween(expected - 0.2, expected);
        assertThat(found.high()).isBetween(expected, expected + 0.2);
    }

    @Test
    void stumbo_of_one_exposure_has_the_exact_interval_of_its_share() {
        FractionNegative one = new FractionNegative(List.of(new Exposure(10, 20, 10)));
        // Clopper–Pearson for 10 of 20: 0.27196 to 0.72804 (published table, from memory)
        Estimate found = one.stumboMurphyCochran(1e6);
        assertThat(found.value()).isCloseTo(10 / (6 - Math.log10(Math.log(2))), within(1e-12));
        assertThat(found.low()).isCloseTo(10 / (6 - Math.log10(-Math.log(0.72804))), within(1e-5));
        assertThat(found.high()).isCloseTo(10 / (6 - Math.log10(-Math.log(0.27196))), within(1e-5));
    }

    @Test
    void stumbo_says_when_the_population_is_too_low() {
        FractionNegative one = new FractionNegative(List.of(new Exposure(10, 100, 1)));
        assertThatThrownBy(() -> one.stumboMurphyCochran(4))
                .hasMessage(
                        "after 10.0 min more spores seem to live than the population of 4.0; the population is stated too low");
    }

    @Test
    void most_likely_agrees_with_an_independent_solver() {
        // derivative of the log-likelihood in the rate x = 1/D, written out anew
        double rate = new BrentSolver(1e-14)
                .solve(
                        1000,
                        x -> {
                            double sum = 0;
                            for (Exposure e : ROW.exposures()) {
                                double mean = 1e6 * Math.pow(10, -x * e.minutes());
                                double clear = Math.exp(-mean);
                                int grown = e.replicates() - e.negatives();
                                sum += e.minutes() * mean * (e.negatives() - grown * clear / (1 - clear));
                            }
                            return sum;
                        },
                        0.3,
                        1.2);
        Estimate found = ROW.mostLikely(1e6);
        assertThat(found.value()).isCloseTo(1 / rate, within(1e-10));
        assertThat(found.low()).isBetween(1.5, found.value());
        assertThat(found.high()).isBetween(found.value(), 1.75);
    }

    @Test
    void most_likely_needs_no_ends_of_the_row_and_skips_what_was_not_exposed() {
        FractionNegative middle = new FractionNegative(List.of(new Exposure(0, 3, 0), new Exposure(10, 20, 10)));
        assertThat(middle.mostLikely(1e6).value()).isCloseTo(10 / (6 - Math.log10(Math.log(2))), within(1e-9));
    }

    @Test
    void all_methods_find_a_known_d_value_and_their_intervals_hold_it_about_as_often_as_they_say() {
        double truth = 1.7;
        Random random = new Random(20261125);
        int trials = 2000;
        int[] held = new int[3];
        double[] mean = new double[3];
        for (int i = 0; i < trials; i++) {
            List<Exposure> exposures = new ArrayList<>();
            for (double t = 4; t <= 22; t += 1) {
                double clear = Math.exp(-1e6 * Math.pow(10, -t / truth));
                int negatives = 0;
                for (int k = 0; k < 20; k++) {
                    negatives += random.nextDouble() < clear ? 1 : 0;
                }
                exposures.add(new Exposure(t, 20, negatives));
            }
            FractionNegative row = new FractionNegative(exposures);
            Estimate[] found = {row.spearmanKarber(1e6), row.stumboMurphyCochran(1e6), row.mostLikely(1e6)};
            for (int m = 0; m < 3; m++) {
                held[m] += found[m].contains(truth) ? 1 : 0;
                mean[m] += found[m].value() / trials;
            }
        }
        assertThat(mean[0]).as("Spearman–Kärber").isCloseTo(truth, within(0.003));
        // an exposure counts only if chance left some grown and some not, which shifts this one upwards by 1.2 %
        assertThat(mean[1]).as("Stumbo–Murphy–Cochran").isCloseTo(1.7198, within(0.003));
        assertThat(mean[2]).as("maximum likelihood").isCloseTo(truth, within(0.003));
        assertThat(held[0] / (double) trials).as("Spearman–Kärber").isBetween(0.92, 0.98);
        assertThat(held[1] / (double) trials).as("Stumbo–Murphy–Cochran").isBetween(0.92, 1.0);
        assertThat(held[2] / (double) trials).as("maximum likelihood").isBetween(0.93, 0.97);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "8,20,1;9,20,20 | the row has to begin with an exposure that all survived and to end with one that none did",
                "8,20,0;9,20,19 | the row has to begin with an exposure that all survived and to end with one that none did",
                "8,20,0;9,20,20 | no exposure between 8.0 and 9.0 min left some grown and some not, so the interval can't be told",
                "8,1,0;9,2,1;10,2,2 | an exposure with a single replicate says nothing about the spread",
            })
    void spearman_karber_says_what_a_row_lacks(String text, String message) {
        assertThatThrownBy(() -> read(text).spearmanKarber(1e6)).hasMessage(message);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "8,20,0;9,20,0 | all grew or none did in every exposure; a D-value needs both growth and no growth",
                "8,20,20 | all grew or none did in every exposure; a D-value needs both growth and no growth",
                "9,20,0;9,20,20 | an exposure of 9.0 min after one of 9.0 min; each time once, in rising order",
                "-1,20,0 | 0 of 20 without growth after -1.0 min; times are not negative, no more are without growth than there are",
                "1,20,21 | 21 of 20 without growth after 1.0 min; times are not negative, no more are without growth than there are",
                "1,0,0 | 0 of 0 without growth after 1.0 min; times are not negative, no more are without growth than there are",
            })
    void refuses_rows_that_cannot_be(String text, String message) {
        assertThatThrownBy(() -> read(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void refuses_a_population_without_decades() {
        assertThatThrownBy(() -> ROW.spearmanKarber(1))
                .hasMessage("a population of 1.0; more than one spore is needed");
        assertThatThrownBy(() -> new FractionNegative(List.of(new Exposure(1, 2, 0), new Exposure(2, 2, 2)))
                        .stumboMurphyCochran(1e6))
                .hasMessage("no exposure left some grown and some not");
    }

    private static FractionNegative read(String text) {
        List<Exposure> exposures = new ArrayList<>();
        for (String part : text.split(";")) {
            String[] figures = part.strip().split(",");
            exposures.add(new Exposure(
                    Double.parseDouble(figures[0]), Integer.parseInt(figures[1]), Integer.parseInt(figures[2])));
        }
        return new FractionNegative(exposures);
    }
}
