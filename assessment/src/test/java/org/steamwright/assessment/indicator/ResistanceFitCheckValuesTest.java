package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.indicator.ResistanceFit.Count;
import org.steamwright.assessment.lethality.TemperatureProfile;

/**
 * Check values 222 and 223 of docs/check-values.md: published survivor counts of bacterial spores at constant temperature
 * (CRAN package bioinactivation 1.3.0, data laterosporus_iso) fitted with another program (R 4.2), and separate runs at
 * changing temperature (laterosporus_dyna) predicted from that fit.
 */
class ResistanceFitCheckValuesTest {

    private static List<Count> counts() {
        return OutsideData.rows("spores/laterosporus_iso.csv").stream()
                .map(row ->
                        new Count(Double.parseDouble(row[0]), Double.parseDouble(row[1]), Double.parseDouble(row[2])))
                .toList();
    }

    @Test
    void d_and_z_in_one_step() {
        List<Count> counts = counts();
        assertThat(counts).hasSize(52);
        ResistanceFit fit = ResistanceFit.of(counts, 121);
        assertThat(fit.minutes().value()).as("row 222, D121").isCloseTo(3.701, within(0.0005));
        assertThat(fit.z().value()).as("row 222, z").isCloseTo(8.201, within(0.0005));
        // the source divides by the number of counts, the program by the degrees of freedom
        assertThat(fit.residual() * Math.sqrt(50.0 / 52))
                .as("row 222, root mean square")
                .isCloseTo(0.371, within(0.0005));
        double t50 = 2.008559112100761;
        assertThat((fit.z().high() - fit.z().value()) / t50).as("row 222, u(z)").isCloseTo(0.085, within(0.0005));
        assertThat(Math.log10(fit.minutes().high() / fit.minutes().value()) / t50)
                .as("row 222, u(lg D)")
                .isCloseTo(0.01048, within(0.000005));
        assertThat(fit.minutes().value() / fit.minutes().low())
                .isCloseTo(fit.minutes().high() / fit.minutes().value(), within(1e-12));
    }

    @ParameterizedTest(name = "D at {0} °C: {1} min through the start, {2} min free")
    @CsvSource({
        "110, 66.97, 0.005, 67.30, 0.005",
        "113, 40.03, 0.005, 45.42, 0.005",
        "127, 0.6316, 0.00005, 0.6695, 0.00005",
        "130, 0.3124, 0.00005, 0.3025, 0.00005",
    })
    void d_of_each_temperature(double celsius, double through, double near, double free, double nearFree) {
        SurvivorCurve curve = new SurvivorCurve(counts().stream()
                .filter(c -> c.celsius() == celsius)
                .map(c -> new SurvivorCurve.Count(c.minutes(), c.decades()))
                .toList());
        assertThat(curve.lineFrom(0).minutes().value()).as("row 222").isCloseTo(through, within(near));
        assertThat(curve.line().minutes().value()).as("row 222").isCloseTo(free, within(nearFree));
    }

    @Test
    void two_steps_give_nearly_the_same() {
        TreeMap<Double, List<SurvivorCurve.Count>> byTemperature = new TreeMap<>();
        counts().forEach(c -> byTemperature
                .computeIfAbsent(c.celsius(), t -> new ArrayList<>())
                .add(new SurvivorCurve.Count(c.minutes(), c.decades())));
        List<SurvivorCurve.Count> logarithms = new ArrayList<>();
        byTemperature.forEach((celsius, counts) -> logarithms.add(new SurvivorCurve.Count(
                celsius,
                Math.log10(new SurvivorCurve(counts).lineFrom(0).minutes().value()))));
        SurvivorCurve.Line line = new SurvivorCurve(logarithms).line();
        assertThat(line.minutes().value()).as("row 222, z in two steps").isCloseTo(8.295, within(0.0005));
        assertThat(Math.pow(10, line.startDecades() - 121 / line.minutes().value()))
                .as("row 222, D121 in two steps")
                .isCloseTo(3.633, within(0.0005));
    }

    @Test
    void separate_runs_at_changing_temperature_are_predicted() {
        ResistanceFit fit = ResistanceFit.of(counts(), 121);
        List<List<double[]>> runs = new ArrayList<>();
        for (String[] row : OutsideData.rows("spores/laterosporus_dyna.csv")) {
            double[] point = {Double.parseDouble(row[0]), Double.parseDouble(row[1]), Double.parseDouble(row[2])};
            if (point[0] == 0) {
                runs.add(new ArrayList<>());
            }
            runs.get(runs.size() - 1).add(point);
        }
        assertThat(runs).hasSize(2);
        double[] predictedEnd = {2.54, 2.16};
        double[] measuredEnd = {2.15, 2.24};
        int points = 0;
        for (int r = 0; r < 2; r++) {
            List<double[]> run = runs.get(r);
            TemperatureProfile profile = new TemperatureProfile(
                    run.stream().mapToDouble(p -> p[0]).toArray(),
                    run.stream().mapToDouble(p -> p[1]).toArray());
            double predicted = Double.NaN;
            for (double[] point : run) {
                predicted = run.get(0)[2] - fit.logReduction(profile, point[0]);
                assertThat(point[2])
                        .as("row 223, run %s at %s min", r + 1, point[0])
                        .isCloseTo(predicted, within(0.43));
                points++;
            }
            assertThat(predicted).as("row 223, end of run %s", r + 1).isCloseTo(predictedEnd[r], within(0.005));
            assertThat(run.get(run.size() - 1)[2]).isCloseTo(measuredEnd[r], within(0.005));
        }
        assertThat(points).isEqualTo(20);
    }
}
