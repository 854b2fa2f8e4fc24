package org.steamwright.assessment.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.steam.IapwsR797;

/** Check values 108 to 111, 210 and 211 of docs/check-values.md. */
class BudgetCheckValuesTest {

    private static final String HANDBOOK = "handbook section 12, example";

    @Test
    void temperature_budget_of_the_handbook() {
        Budget budget = temperatureBudget();
        assertThat(budget.combined()).as("row 108").isCloseTo(0.1141, within(0.0005));
        assertThat(budget.expanded().value()).as("row 108").isCloseTo(0.2283, within(0.0005));
        assertThat(budget.expanded().coverageFactor()).as("row 108").isEqualTo(2);
        assertThat(budget.effectiveDegreesOfFreedom())
                .as("one line with nine degrees of freedom, 0.0126⁴/9, hardly weighs")
                .isGreaterThan(10_000);
    }

    @Test
    void pressure_budget_of_the_handbook() {
        Budget budget = Budget.of(
                "pressure",
                "kPa",
                List.of(
                        Contribution.expanded("calibration", 0.30, 2, HANDBOOK),
                        Contribution.resolution("resolution", 0.1, HANDBOOK),
                        Contribution.rectangular("linearity", 1.0, HANDBOOK),
                        Contribution.rectangular("temperature coefficient", 0.4, HANDBOOK),
                        Contribution.rectangular("drift", 0.6, HANDBOOK),
                        Contribution.rectangular("barometer", 0.1, HANDBOOK)));
        assertThat(budget.combined()).as("row 109").isCloseTo(0.7303, within(0.0005));
        assertThat(budget.expanded().value()).as("row 109").isCloseTo(1.4606, within(0.0005));
        assertThat(budget.expanded().value() / IapwsR797.INSTANCE.kilopascalPerKelvinAt(134))
                .as("row 109: as temperature at 134 °C, printed to 0.001 K")
                .isCloseTo(0.164, within(0.0005));
    }

    @Test
    void difference_of_two_channels() {
        Budget one = Budget.of("one", "K", List.of(Contribution.expanded("channel", 0.2283, 2, HANDBOOK)));
        assertThat(Budget.difference("difference", one, "T1", one, "T2")
                        .expanded()
                        .value())
                .as("row 110")
                .isCloseTo(0.3228, within(0.0005));
    }

    @Test
    void resolution_of_a_tenth() {
        assertThat(Contribution.resolution("resolution", 0.1, HANDBOOK).standardUncertainty())
                .as("row 111")
                .isCloseTo(0.02887, within(1e-5));
    }

    @Test
    void end_gauge_calibration_of_the_guide() {
        String file = "gum/gum_h1_expected.json";
        double published = OutsideData.jsonNumber(file, "u_nm");
        double length = 50_000_623;
        Contribution expansion = new Contribution(
                        "difference of expansion",
                        1e-6,
                        Distribution.RECTANGULAR,
                        Math.sqrt(3),
                        1,
                        50,
                        "JCGM 100:2008, H.1")
                .withSensitivity(-length * -0.1);
        Contribution temperature = new Contribution(
                        "difference of temperature",
                        0.05,
                        Distribution.RECTANGULAR,
                        Math.sqrt(3),
                        1,
                        2,
                        "JCGM 100:2008, H.1")
                .withSensitivity(-length * 11.5e-6);
        Budget budget = new Budget(
                "length of an end gauge",
                "nm",
                List.of(
                        Contribution.standard("standard", 25, 18, "JCGM 100:2008, H.1"),
                        Contribution.standard("repeated observations", 5.8, 24, "JCGM 100:2008, H.1"),
                        Contribution.standard("comparator, random", 3.9, 5, "JCGM 100:2008, H.1"),
                        Contribution.standard("comparator, systematic", 6.7, 8, "JCGM 100:2008, H.1"),
                        expansion,
                        temperature),
                2.92);
        assertThat(temperature.standardUncertainty())
                .as("row 210: line of the temperature difference, printed to 0.001 nm")
                .isCloseTo(16.599, within(0.001));
        assertThat(budget.combined())
                .as("row 210: published in whole nanometres")
                .isCloseTo(published, within(0.5));
        assertThat(Math.floor(budget.effectiveDegreesOfFreedom()))
                .as("row 210: degrees of freedom, truncated, from memory")
                .isEqualTo(OutsideData.jsonNumber(file, "nu_eff_truncated"));
        assertThat(budget.expanded().value())
                .as("row 210: U with k = 2.92 from memory, whole nanometres of a rounded u")
                .isCloseTo(OutsideData.jsonNumber(file, "U99_nm"), within(1.5));
    }

    /**
     * The calibration line of the guide's thermometer. The program itself fits no line (it interpolates), so the line
     * comes from a library; the doubt of a predicted correction is put together by the program's own budget, with the
     * line taken about the mean, where level and slope are uncorrelated.
     */
    @Test
    void thermometer_line_of_the_guide() {
        String file = "gum/gum_h3_expected.json";
        List<String[]> rows = OutsideData.rows("gum/gum_h3_thermometer.csv");
        double zero = OutsideData.jsonNumber(file, "t0_C");
        double mean = rows.stream()
                .mapToDouble(row -> Double.parseDouble(row[0]))
                .average()
                .orElseThrow();
        SimpleRegression about20 = new SimpleRegression();
        SimpleRegression aboutMean = new SimpleRegression();
        for (String[] row : rows) {
            double celsius = Double.parseDouble(row[0]);
            double correction = Double.parseDouble(row[1]);
            about20.addData(celsius - zero, correction);
            aboutMean.addData(celsius - mean, correction);
        }
        assertThat(about20.getN()).isEqualTo((long) OutsideData.jsonNumber(file, "n"));
        assertThat(about20.getIntercept())
                .as("row 211, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "y1"), within(0.00005));
        assertThat(about20.getInterceptStdErr())
                .as("row 211, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "u_y1"), within(0.00005));
        assertThat(about20.getSlope())
                .as("row 211, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "y2"), within(0.000005));
        assertThat(about20.getSlopeStdErr())
                .as("row 211, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "u_y2"), within(0.000005));
        assertThat(about20.getSumSquaredErrors())
                .as("row 211, residual sum of squares")
                .isCloseTo(OutsideData.jsonNumber(file, "SSR"), within(1e-12));
        assertThat(about20.predict(30 - zero))
                .as("row 211, correction at 30 °C, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "correction_at_30C"), within(0.00005));

        Budget budget = Budget.of(
                "correction at 30 °C",
                "K",
                List.of(
                        Contribution.standard("level at the mean", aboutMean.getInterceptStdErr(), 9, "line"),
                        Contribution.standard("slope", aboutMean.getSlopeStdErr(), 9, "line")
                                .withSensitivity(30 - mean)));
        assertThat(budget.combined())
                .as("row 211, doubt of the correction at 30 °C, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "u_correction_at_30C"), within(0.00005));
    }

    private static Budget temperatureBudget() {
        return Budget.of(
                "temperature at 134 °C",
                "K",
                List.of(
                        Contribution.expanded("reference calibration", 0.06, 2, HANDBOOK),
                        Contribution.rectangular("reference drift", 0.05, HANDBOOK),
                        Contribution.rectangular("bath stability", 0.03, HANDBOOK),
                        Contribution.rectangular("bath uniformity", 0.05, HANDBOOK),
                        Contribution.resolution("resolution", 0.1, HANDBOOK),
                        Contribution.standard("repeatability", 0.04 / Math.sqrt(10), 9, HANDBOOK),
                        Contribution.rectangular("logger drift", 0.15, HANDBOOK),
                        Contribution.rectangular("correction fit", 0.05, HANDBOOK),
                        Contribution.rectangular("immersion", 0.05, HANDBOOK)));
    }
}
