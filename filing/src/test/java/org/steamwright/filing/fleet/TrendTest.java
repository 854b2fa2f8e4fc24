package org.steamwright.filing.fleet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;

class TrendTest {

    private static final Source SOURCE =
            new Source("example set", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "");
    private static final Limit AT_MOST_013 = new Limit(Comparison.AT_MOST, 0.13, Unit.KILOPASCAL_PER_MINUTE, SOURCE);
    private static final LocalDate START = LocalDate.of(2022, 3, 1);

    private static FigureReading leak(LocalDate day, double rate) {
        return new FigureReading("SN-0417", "", CriterionId.LEAK_RATE, day, 1, rate, AT_MOST_013);
    }

    private static List<FigureReading> yearly(double... rates) {
        List<FigureReading> readings = new ArrayList<>();
        for (int i = 0; i < rates.length; i++) {
            readings.add(leak(START.plusYears(i), rates[i]));
        }
        return readings;
    }

    @Test
    void a_leak_that_grows_meets_its_limit_on_the_day_that_the_line_says() {
        Trend trend = Trend.of(yearly(0.02, 0.05, 0.08, 0.11));
        assertThat(trend.perYear()).isCloseTo(0.03, within(1e-4));
        assertThat(trend.course()).isInstanceOfSatisfying(Trend.Course.Nearing.class, nearing -> {
            assertThat(nearing.meets().orElseThrow()).isBetween(LocalDate.of(2025, 10, 25), LocalDate.of(2025, 11, 5));
            assertThat(nearing.earliest().orElseThrow())
                    .as("four figures on one line leave no doubt to speak of")
                    .isBetween(LocalDate.of(2025, 10, 1), nearing.meets().get());
        });
    }

    /** Outside check: slope and the prediction interval by Hipparchus and its Student distribution. */
    @Test
    void line_and_interval_are_those_of_a_library() {
        double[] rates = {0.021, 0.044, 0.039, 0.063, 0.071};
        Trend trend = Trend.of(yearly(rates));
        SimpleRegression library = new SimpleRegression();
        for (int i = 0; i < rates.length; i++) {
            library.addData(START.until(START.plusYears(i), java.time.temporal.ChronoUnit.DAYS), rates[i]);
        }
        assertThat(trend.perYear()).isCloseTo(library.getSlope() * 365.25, within(1e-12));
        LocalDate earliest = ((Trend.Course.Nearing) trend.course()).earliest().orElseThrow();
        double t = new TDistribution(rates.length - 2.0).inverseCumulativeProbability(0.5 + 0.954499736103642 / 2);
        LocalDate library95 = START.plusYears(rates.length - 1);
        double upper;
        do {
            library95 = library95.plusDays(1);
            double x = START.until(library95, java.time.temporal.ChronoUnit.DAYS);
            double meanX = mean(rates.length);
            upper = library.predict(x)
                    + t
                            * StrictMath.sqrt(library.getMeanSquareError()
                                    * (1 + 1.0 / rates.length + (x - meanX) * (x - meanX) / library.getXSumSquares()));
        } while (upper < 0.13);
        assertThat(earliest)
                .as("the coverage factor is rounded to hundredths, which moves the day a little")
                .isBetween(library95.minusDays(3), library95.plusDays(3));
    }

    private static double mean(int years) {
        double sum = 0;
        for (int i = 0; i < years; i++) {
            sum += START.until(START.plusYears(i), java.time.temporal.ChronoUnit.DAYS);
        }
        return sum / years;
    }

    @Test
    void what_is_steady_or_gets_better_does_not_near_its_limit() {
        assertThat(Trend.of(yearly(0.05, 0.05, 0.05)).course()).isEqualTo(new Trend.Course.Away());
        assertThat(Trend.of(yearly(0.08, 0.06, 0.05, 0.03)).course()).isEqualTo(new Trend.Course.Away());
    }

    @Test
    void fewer_than_three_visits_foretell_nothing_and_a_figure_outside_says_so() {
        assertThat(Trend.of(yearly(0.05)).course())
                .isEqualTo(new Trend.Course.NotKnown("one visit only, three are needed"));
        assertThat(Trend.of(yearly(0.05, 0.06)).course())
                .isEqualTo(new Trend.Course.NotKnown("two visits only, three are needed"));
        assertThat(Trend.of(yearly(0.05, 0.2)).course()).isEqualTo(new Trend.Course.Over());
        assertThat(Trend.of(yearly(0.13)).course())
                .as("the limit itself is good")
                .isInstanceOf(Trend.Course.NotKnown.class);
    }

    @Test
    void of_several_figures_on_one_day_the_worst_counts() {
        List<FigureReading> readings = new ArrayList<>(yearly(0.02, 0.05));
        readings.add(leak(START, 0.04));
        assertThat(Trend.of(readings).readings())
                .extracting(FigureReading::value)
                .containsExactly(0.04, 0.05);
    }

    @Test
    void a_holding_time_nears_its_limit_from_above() {
        Limit atLeast = new Limit(Comparison.AT_LEAST, 180, Unit.SECONDS, SOURCE);
        List<FigureReading> readings = new ArrayList<>();
        double[] held = {210, 205, 200, 195};
        for (int i = 0; i < held.length; i++) {
            readings.add(new FigureReading(
                    "SN-0417", "134", CriterionId.MINIMUM_HOLDING_TIME, START.plusYears(i), 1, held[i], atLeast));
        }
        assertThat(Trend.of(readings).course())
                .isInstanceOfSatisfying(
                        Trend.Course.Nearing.class,
                        nearing -> assertThat(nearing.meets().orElseThrow().getYear())
                                .isEqualTo(2028));
    }

    @Test
    void a_family_leaves_out_its_outermost_tenth() {
        assertThat(FamilyBand.of(List.of(1.0))).isEmpty();
        assertThat(FamilyBand.of(List.of(3.0, 1.0))).contains(new FamilyBand(1, 1, 3, 2));
        List<Double> twenty = new ArrayList<>();
        for (int i = 1; i <= 20; i++) {
            twenty.add((double) i);
        }
        assertThat(FamilyBand.of(twenty)).contains(new FamilyBand(3, 10, 18, 20));
        assertThat(FamilyBand.of(twenty).map(band -> band.holds(19))).isEqualTo(Optional.of(false));
    }
}
