package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.criteriasets.Presets;

/**
 * Check value 212 of docs/check-values.md from end to end: a real recording whose lethality looks splendid and which is no
 * '121 °C for 15 min'.
 */
class RealRecordingTest {

    private static final Presets PRESETS = new Presets();

    static List<String> presetsThatKnow121() {
        return PRESETS.names().stream()
                .filter(name -> PRESETS.get(name).findCycle(121).isPresent())
                .toList();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("presetsThatKnow121")
    void fails_121_degrees_for_15_minutes_although_lethality_exceeds_20(String preset) throws IOException {
        CriteriaSet set = PRESETS.get(preset);
        RunEvaluation evaluation = Assessment.evaluate(run(), set);

        assertThat(evaluation.lethality().get(0).minutes())
                .as("F0 over the whole record, computed apart from this program")
                .isCloseTo(24.0961, within(0.00005));
        Finding holding = evaluation.finding(CriterionId.MINIMUM_HOLDING_TIME);
        assertThat(holding.measured().orElseThrow().value())
                .as("at or above 121.0 °C from 2891 s to 3177 s")
                .isEqualTo(286);
        assertThat(holding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
        assertThat(evaluation.verdict().deciding()).contains(holding);
        assertThat(evaluation.verdict().cause()).contains("286");
        assertThat(Agreement.differences(run(), set, evaluation)).isEmpty();
    }

    private static TestRun run() throws IOException {
        String file = "autoclave/ciclo_completo_F0_20_1Hz.csv";
        String folder = System.getProperty("steamwright.data", "");
        Path path = Path.of(folder, file);
        assumeTrue(
                !folder.isEmpty() && Files.isRegularFile(path),
                "outside data '" + file + "' is not beside this checkout (system property steamwright.data); skipped");
        List<String> lines = Files.readAllLines(path, StandardCharsets.UTF_8);
        double[] seconds = new double[lines.size() - 1];
        double[] celsius = new double[seconds.length];
        for (int i = 0; i < seconds.length; i++) {
            String[] cells = lines.get(i + 1).split(",", -1);
            seconds[i] = Double.parseDouble(cells[0]);
            celsius[i] = Double.parseDouble(cells[1]);
        }
        Channel channel = new Channel(
                "T",
                ChannelRole.REFERENCE_POINT,
                Position.UNSTATED,
                Optional.empty(),
                Optional.empty(),
                TimeAxis.ofSeconds(seconds),
                new Column("T_C", Quantity.TEMPERATURE, Optional.empty(), "°C", celsius, 0.01));
        return new TestRun(
                "real",
                TestKind.EMPTY_CHAMBER,
                CycleDefinition.of("121 °C", CycleType.N, 121),
                new Trace(Optional.empty(), ZoneOffset.UTC, List.of(channel), List.of(), List.of()),
                Map.of(),
                Ambient.ofAltitude(1495),
                Optional.empty());
    }
}
