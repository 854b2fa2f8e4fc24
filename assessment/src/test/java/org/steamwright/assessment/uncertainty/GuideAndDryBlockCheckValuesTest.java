package org.steamwright.assessment.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.hipparchus.stat.correlation.PearsonsCorrelation;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.Correction;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

/** Check values 342 to 344 of docs/check-values.md. */
class GuideAndDryBlockCheckValuesTest {

    private static final int REPEATS = 11;

    /** Mean and spread of some numbers, the mean by the program. */
    private static ChannelStatistics statistics(double[] values) {
        TimeAxis axis = TimeAxis.regular(values.length, 1);
        return ChannelStatistics.find(
                        CorrectedSamples.of("x", ChannelRole.LOAD, axis, values), new Stretch(0, values.length - 1))
                .orElseThrow();
    }

    /** Standard uncertainty of the mean with n − 1 degrees of freedom. */
    private static Contribution typeA(double[] values) {
        double mean = statistics(values).mean();
        double squares = 0;
        for (double value : values) {
            squares += (value - mean) * (value - mean);
        }
        return Contribution.standard(
                "repeated observations",
                Math.sqrt(squares / (values.length - 1) / values.length),
                values.length - 1,
                "observations");
    }

    @Test
    void resistance_and_reactance_of_the_guide_by_repeated_sets() {
        String file = "gum/gum_h2_expected.json";
        List<String[]> rows = OutsideData.rows("gum/gum_h2_observations.csv");
        double[] resistance = new double[rows.size()];
        double[] reactance = new double[rows.size()];
        double[] impedance = new double[rows.size()];
        for (int i = 0; i < resistance.length; i++) {
            double volt = Double.parseDouble(rows.get(i)[0]);
            double ampere = Double.parseDouble(rows.get(i)[1]);
            double phase = Double.parseDouble(rows.get(i)[2]);
            resistance[i] = volt / ampere * StrictMath.cos(phase);
            reactance[i] = volt / ampere * StrictMath.sin(phase);
            impedance[i] = volt / ampere;
        }
        assertThat(statistics(resistance).mean())
                .as("row 342, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "R"), within(0.0005));
        assertThat(statistics(reactance).mean())
                .as("row 342: the second approach differs in the last digit of X")
                .isCloseTo(OutsideData.jsonNumber(file, "X"), within(0.005));
        assertThat(statistics(impedance).mean())
                .as("row 342")
                .isCloseTo(OutsideData.jsonNumber(file, "Z"), within(0.005));
        assertThat(typeA(resistance).standardUncertainty())
                .as("row 342, printed digits")
                .isCloseTo(OutsideData.jsonNumber(file, "u_R"), within(0.0015));
        assertThat(typeA(reactance).standardUncertainty())
                .as("row 342")
                .isCloseTo(OutsideData.jsonNumber(file, "u_X"), within(0.005));
        assertThat(typeA(impedance).standardUncertainty())
                .as("row 342")
                .isCloseTo(OutsideData.jsonNumber(file, "u_Z"), within(0.005));
        assertThat(new PearsonsCorrelation().correlation(resistance, reactance))
                .as("row 342: by a library")
                .isCloseTo(OutsideData.jsonNumber(file, "r_RX"), within(0.005));
        // R and X are correlated by −0.59, so −R and X by +0.59; their difference is R + X, whose own scatter is seen
        // too
        double r = new PearsonsCorrelation().correlation(resistance, reactance);
        double[] sum = new double[resistance.length];
        for (int i = 0; i < sum.length; i++) {
            sum[i] = resistance[i] + reactance[i];
        }
        Correlation shared = new Correlation("the same five sets", -r);
        Budget x = Budget.of("X", "Ω", List.of(typeA(reactance).shared(shared)));
        Budget minusR = Budget.of("−R", "Ω", List.of(typeA(resistance).shared(shared)));
        assertThat(Budget.difference("X − (−R)", x, "X", minusR, "−R").combined())
                .as("row 342: by the correlation, and directly from the five sums")
                .isCloseTo(typeA(sum).standardUncertainty(), within(1e-9));
    }

    private static double[][] observations(int column) {
        List<String> lines = OutsideData.lines("calibration/dryblock_11reps_5points_raw.csv");
        double[][] values = new double[(lines.size() - 1) / REPEATS][REPEATS];
        for (int i = 0; i < values.length * REPEATS; i++) {
            values[i / REPEATS][i % REPEATS] =
                    Double.parseDouble(lines.get(i + 1).split(";", -1)[column].replace(',', '.'));
        }
        return values;
    }

    private static double[] row(String file, int line, String separator) {
        String[] cells = OutsideData.lines(file).get(line).split(separator, -1);
        double[] numbers = new double[cells.length];
        for (int i = 1; i < cells.length; i++) {
            numbers[i] = Double.parseDouble(cells[i]);
        }
        return numbers;
    }

    @ParameterizedTest(name = "channel {0} of the dry block")
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11})
    void dry_block_means_type_a_and_line(int channel) {
        double[][] observed = observations(channel);
        double[][] reference = observations(0);
        SimpleRegression line = new SimpleRegression();
        List<CalibrationPoint> points = new ArrayList<>();
        for (int i = 0; i < observed.length; i++) {
            double mean = statistics(observed[i]).mean();
            assertThat(mean)
                    .as("row 343: mean of point %s", i)
                    .isCloseTo(row("calibration/dryblock_expected_means.csv", i + 1, ";")[channel], within(1e-12));
            Contribution repeated = typeA(observed[i]);
            assertThat(repeated.standardUncertainty())
                    .as("row 343: s/√n of point %s", i)
                    .isCloseTo(row("calibration/dryblock_expected_u_typeA.csv", i + 1, ";")[channel], within(1e-12));
            assertThat(repeated.degreesOfFreedom()).isEqualTo(REPEATS - 1);
            line.addData(mean, reference[i][0]);
            points.add(new CalibrationPoint(reference[i][0], mean, 2 * repeated.standardUncertainty(), 2));
        }
        String[] published = OutsideData.lines("calibration/dryblock_expected_regression.tsv")
                .get(channel)
                .split("\t", -1);
        assertThat(line.getSlope()).as("row 344").isCloseTo(Double.parseDouble(published[1]), within(1e-9));
        assertThat(line.getIntercept()).as("row 344").isCloseTo(Double.parseDouble(published[2]), within(1e-9));
        assertThat(line.getRSquare()).as("row 344").isCloseTo(Double.parseDouble(published[3]), within(1e-9));

        // the program draws straight lines from point to point: beside the line by its largest residual and no more
        Correction correction = Correction.of(new CalibrationCertificate(
                "dry block", "published data", LocalDate.of(2025, 1, 1), LocalDate.of(2026, 1, 1), points));
        double largest = 0;
        for (CalibrationPoint point : points) {
            largest = Math.max(
                    largest, Math.abs(correction.correct(point.indicated()) - line.predict(point.indicated())));
        }
        assertThat(largest).as("row 344: largest residual").isCloseTo(Double.parseDouble(published[4]), within(1e-9));
    }
}
