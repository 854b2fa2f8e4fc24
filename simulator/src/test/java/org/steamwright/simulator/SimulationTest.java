package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.calibration.Correction;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

class SimulationTest {

    @Test
    void the_same_seed_gives_the_same_bytes_and_another_one_does_not() {
        byte[] first = Simulation.run(Scenario.loaded(), 11).files().get(0).bytes();
        assertThat(Simulation.run(Scenario.loaded(), 11).files().get(0).bytes()).isEqualTo(first);
        assertThat(Simulation.run(Scenario.loaded(), 12).files().get(0).bytes()).isNotEqualTo(first);
    }

    @Test
    void another_point_changes_nothing_about_the_others() {
        Scenario less = Scenario.loaded()
                .withPoints(Scenario.loaded().kind(), Scenario.loaded().points().subList(0, 3));
        double[] alone = Simulation.run(less, 5)
                .testRun()
                .trace()
                .channels()
                .get(2)
                .column()
                .toArray();
        double[] among = Simulation.run(Scenario.loaded(), 5)
                .testRun()
                .trace()
                .channels()
                .get(2)
                .column()
                .toArray();
        assertThat(among).containsExactly(alone);
    }

    @Test
    void an_instrument_keeps_its_certificate_from_run_to_run() {
        var first = Simulation.run(Scenario.loaded(), 1, 99).testRun().instruments();
        var second = Simulation.run(Scenario.emptyChamber(), 2, 99).testRun().instruments();
        assertThat(second.get("TL-02")).isEqualTo(first.get("TL-02"));
        assertThat(second.get(Simulation.PRESSURE_INSTRUMENT)).isEqualTo(first.get(Simulation.PRESSURE_INSTRUMENT));
        assertThat(first.get("TL-01")).isNotEqualTo(first.get("TL-02"));
    }

    @Test
    void the_file_says_in_its_first_line_that_it_is_simulated() {
        SimulatedRun run = Simulation.run(Scenario.loaded(), 1);
        String text = run.files().get(0).text();
        assertThat(text.lines().findFirst())
                .contains("# Steamwright simulated recording - invented data, not a real cycle");
        assertThat(text.lines().filter(line -> !line.startsWith("#")).findFirst())
                .contains("Time,T1 [°C],T2 [°C],T3 [°C],T4 [°C],T5 [°C],P [kPa abs]");
        assertThat(run.testRun().trace().isSimulated()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.5, 1, 2, 0.1})
    void the_file_says_the_same_as_the_trace(double interval) {
        Scenario scenario = Scenario.loaded().withLogging(Logging.everySecond().withInterval(interval));
        SimulatedRun run = Simulation.run(scenario, 3);
        List<Channel> channels = run.testRun().trace().channels();
        List<String> rows = run.files().get(0).text().lines().skip(6).toList();
        assertThat(rows).hasSize(channels.get(0).axis().size());
        for (int row = 0; row < rows.size(); row += 7) {
            String[] cells = rows.get(row).split(",", -1);
            double seconds = channels.get(0).axis().at(row);
            assertThat(OffsetDateTime.parse(cells[0]).toInstant())
                    .isEqualTo(run.testRun().trace().start().orElseThrow().plusMillis(Math.round(seconds * 1000)));
            for (int i = 0; i < channels.size(); i++) {
                assertThat(Double.parseDouble(cells[i + 1]))
                        .isEqualTo(channels.get(i).column().at(row));
            }
        }
    }

    @Test
    void gauge_values_below_zero_are_written_with_their_sign() {
        Scenario scenario = Scenario.loaded().withLogging(Logging.everySecond().withPressure(PressureReference.GAUGE));
        SimulatedRun run = Simulation.run(scenario, 3);
        assertThat(run.files().get(0).text()).contains("P [kPa gauge]").contains(",-8");
        double lowest = Double.MAX_VALUE;
        for (double value : run.testRun()
                .trace()
                .find(ChannelRole.PRESSURE)
                .orElseThrow()
                .column()
                .toArray()) {
            lowest = Math.min(lowest, value);
        }
        assertThat(lowest).isCloseTo(10 - 101.1, within(1.5));
    }

    @Test
    void a_logger_with_a_fast_clock_has_its_own_file_and_stamps() {
        Scenario scenario = Scenario.loaded().withFaults(new Fault.ClockOffset("T5", 90));
        SimulatedRun run = Simulation.run(scenario, 3);
        assertThat(run.files()).extracting(LoggerFile::name).containsExactly("loaded.csv", "loaded-own-t5.csv");
        TimeAxis slow = run.testRun().trace().channels().get(0).axis();
        TimeAxis fast = run.testRun().trace().channels().get(4).axis();
        assertThat(slow.first()).isZero();
        assertThat(fast.first()).isEqualTo(90);
        SimulatedRun behind = Simulation.run(Scenario.loaded().withFaults(new Fault.ClockOffset("T5", -90)), 3);
        assertThat(behind.testRun().trace().channels().get(4).axis().first()).isZero();
        assertThat(behind.testRun().trace().channels().get(0).axis().first()).isEqualTo(90);
        assertThat(behind.testRun().trace().start())
                .contains(run.testRun().trace().start().orElseThrow().minusSeconds(90));
    }

    @Test
    void the_certificate_knows_the_error_within_its_uncertainty_and_the_drift() {
        for (long seed = 0; seed < 100; seed++) {
            SimulatedRun run =
                    Simulation.run(Scenario.loaded().withInstrumentation(Instrumentation.GOOD.withNoise(0, 0)), seed);
            double moment = run.truth().steamReachedSeconds().orElseThrow() + 100;
            for (int i = 0; i < 5; i++) {
                Channel channel = run.testRun().trace().channels().get(i);
                var instrument =
                        run.testRun().instruments().get(channel.instrument().orElseThrow());
                Correction correction = Correction.of(instrument.certificate().orElseThrow());
                int index = channel.axis().indexAtOrAfter(moment);
                double corrected = correction.correct(channel.column().at(index));
                double body =
                        run.truth().celsiusAt(channel.name(), channel.axis().at(index));
                // U 0.06, drift 0.05, half a step of the reading and of the certificate each
                assertThat(corrected).as("seed %d", seed).isCloseTo(body, within(0.06 + 0.05 + 0.005 + 0.005 + 0.001));
            }
        }
    }

    /** The statement that campaigns rely on, shown by a second, plain way over the samples. */
    @Test
    void a_sampled_holding_time_is_never_above_the_indicated_truth_and_at_most_two_steps_below() {
        for (long seed = 0; seed < 150; seed++) {
            Scenario scenario = Scenarios.randomGood(seed);
            SimulatedRun run = Simulation.run(scenario, seed);
            double low = run.testRun().cycle().sterilizingTemperature().celsius();
            double sampled = longestSampled(run, low, low + 4);
            double truth = run.truth().indicatedPlateau(4, Optional.empty()).holdingSeconds();
            assertThat(sampled).as("seed %d", seed).isLessThanOrEqualTo(truth + 1e-9);
            assertThat(sampled)
                    .as("seed %d", seed)
                    .isGreaterThanOrEqualTo(truth - 2 * scenario.logging().intervalSeconds());
        }
    }

    private static double longestSampled(SimulatedRun run, double low, double high) {
        List<Channel> channels = run.testRun().trace().channels().stream()
                .filter(channel -> channel.role().isJudgedAgainstBand())
                .toList();
        List<Correction> corrections = channels.stream()
                .map(channel -> Correction.of(run.testRun()
                        .instruments()
                        .get(channel.instrument().orElseThrow())
                        .certificate()
                        .orElseThrow()))
                .toList();
        TimeAxis axis = channels.get(0).axis();
        double best = 0;
        double from = Double.NaN;
        for (int i = 0; i < axis.size(); i++) {
            boolean isInside = true;
            for (int c = 0; c < channels.size(); c++) {
                double value =
                        corrections.get(c).correct(channels.get(c).column().at(i));
                isInside &= value >= low && value <= high;
            }
            if (!isInside) {
                from = Double.NaN;
            } else if (Double.isNaN(from)) {
                from = axis.at(i);
            } else {
                best = Math.max(best, axis.at(i) - from);
            }
        }
        return best;
    }

    @Test
    void without_noise_and_error_both_truths_are_one() {
        SimulatedRun run = Simulation.run(Scenario.loaded().withInstrumentation(Instrumentation.PERFECT), 1);
        PlateauTruth physical = run.truth().physicalPlateau(4);
        PlateauTruth indicated = run.truth().indicatedPlateau(4, Optional.empty());
        // three decimals in the file: half a thousandth of a kelvin at 0.1 K/s and slower
        assertThat(indicated.holdingSeconds()).isCloseTo(physical.holdingSeconds(), within(0.02));
        assertThat(indicated.reachedSeconds().orElseThrow())
                .isCloseTo(physical.reachedSeconds().orElseThrow(), within(0.01));
        Stretch holding = physical.holding().orElseThrow();
        assertThat(holding.fromSeconds())
                .isCloseTo(physical.equilibratedSeconds().orElseThrow(), within(1e-9));
        double plateau = run.truth().exhaustSeconds().orElseThrow()
                - run.truth().steamReachedSeconds().orElseThrow();
        assertThat(plateau).isCloseTo(215, within(0.11));
        assertThat(physical.equilibrationSeconds().orElseThrow() + holding.seconds())
                .isBetween(plateau - 2, plateau + 6);
    }

    @Test
    void lethality_of_a_steady_plateau_is_its_length_times_the_rate() {
        CycleProgram program = CycleProgram.b134().withRipple(new Ripple(Ripple.Shape.SINE, 0, 20));
        Truth truth = Simulation.run(Scenario.loaded().withProgram(program), 1).truth();
        double from = truth.steamReachedSeconds().orElseThrow() + 30;
        // check value 66: the rate at 134 °C is 19.49845 a minute with 121.1 °C and 10 K; 0.75 K more is 10^0.075
        assertThat(truth.lethalityMinutes("T1", 121.1, 10, from, from + 120))
                .isCloseTo(2 * 19.49845 * Math.pow(10, 0.075), within(0.01));
        assertThat(truth.lethalityMinutes("T1", 121.1, 10))
                .isGreaterThan(truth.lethalityMinutes("T1", 121.1, 10, from, from + 120));
    }

    @Test
    void writes_its_files_and_never_over_others(@TempDir Path folder) throws IOException {
        SimulatedRun run = Simulation.run(Scenario.emptyChamber(), 1);
        List<Path> written = run.writeCsv(folder.resolve("new"));
        assertThat(written).hasSize(1);
        assertThat(Files.readAllBytes(written.get(0)))
                .isEqualTo(run.files().get(0).bytes());
        assertThatThrownBy(() -> run.writeCsv(folder.resolve("new"))).isInstanceOf(FileAlreadyExistsException.class);
    }

    @Test
    void refuses_what_makes_no_sense() {
        assertThatThrownBy(() -> Logging.everySecond().withInterval(0.25)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Logging.everySecond().withClockOffsets(Map.of("L2", 0.07)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Scenario.loaded().withProgram(LeakProgram.ofRate(0.1)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> CycleProgram.n121().withVacuumPulses(2, 10, 150))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Simulation.run(Scenario.loaded().withFaults(new Fault.SlowPack("T9", 20)), 1))
                .hasMessageContaining("T9");
        assertThatThrownBy(() -> Simulation.run(Scenario.loaded().withFaults(new Fault.Leak(0.2)), 1))
                .hasMessageContaining("leak test");
    }
}
