package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestRun;

/** What must not change, or only one way, when a run is changed in one respect. */
class InvariantsTest {

    private static final int TRIES = 150;
    private static final String SEED = "20261125";

    @Property(tries = TRIES, seed = SEED)
    void warmer_readings_never_hold_shorter_where_the_band_has_no_upper_limit(
            @ForAll @LongRange(min = 0, max = 1_000_000) long seed,
            @ForAll @DoubleRange(min = 0, max = 2) double kelvin) {
        TestRun run = RandomRuns.run(seed);
        CriteriaSet set = openBand(run);
        assertThat(holding(ChangedRun.raised(run, kelvin), set)).isGreaterThanOrEqualTo(holding(run, set));
        assertThat(holding(ChangedRun.raised(run, -kelvin), set)).isLessThanOrEqualTo(holding(run, set));
    }

    @Property(tries = TRIES, seed = SEED)
    void order_of_channels_changes_nothing(@ForAll @LongRange(min = 0, max = 1_000_000) long seed, @ForAll long order) {
        TestRun run = RandomRuns.run(seed);
        CriteriaSet set = RandomRuns.set(seed, run, InventedSets.ANSWERED);
        assertSame(Assessment.evaluate(run, set), Assessment.evaluate(ChangedRun.shuffled(run, order), set));
    }

    @Property(tries = TRIES, seed = SEED)
    void moment_zero_changes_nothing(
            @ForAll @LongRange(min = 0, max = 1_000_000) long seed,
            @ForAll @DoubleRange(min = -5000, max = 5000) double seconds) {
        TestRun run = RandomRuns.run(seed);
        CriteriaSet set = RandomRuns.set(seed, run, InventedSets.ANSWERED);
        assertSame(Assessment.evaluate(run, set), Assessment.evaluate(ChangedRun.shifted(run, seconds), set));
    }

    @Property(tries = TRIES, seed = SEED)
    void a_channel_that_nobody_judges_changes_nothing(@ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
        TestRun run = RandomRuns.run(seed);
        CriteriaSet set = RandomRuns.set(seed, run, InventedSets.ANSWERED);
        assertSame(Assessment.evaluate(run, set), Assessment.evaluate(ChangedRun.withRoomThermometer(run), set));
    }

    @Property(tries = TRIES, seed = SEED)
    void samples_in_the_middle_of_every_step_lengthen_the_holding_time_by_one_step_at_most(
            @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
        TestRun run = RandomRuns.run(seed);
        CriteriaSet set = openBand(run);
        double before = holding(run, set);
        double after = holding(ChangedRun.withMiddles(run), set);
        double longestStep = run.trace().channels().stream()
                .flatMap(channel -> {
                    double[] seconds = channel.axis().toSeconds();
                    return java.util.stream.IntStream.range(1, seconds.length)
                            .mapToObj(i -> seconds[i] - seconds[i - 1]);
                })
                .mapToDouble(Double::doubleValue)
                .max()
                .orElseThrow();
        assertThat(after).isBetween(before - 1e-9, before + longestStep + 1e-9);
    }

    @Property(tries = TRIES, seed = SEED)
    void a_run_passes_only_if_every_deciding_finding_passes(@ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
        TestRun run = RandomRuns.run(seed);
        CriteriaSet set = RandomRuns.set(seed, run, NastyRunsCampaignTest.deciding(seed));
        RunEvaluation evaluation = Assessment.evaluate(run, set);
        boolean allPass = evaluation.findings().stream()
                .filter(Finding::isDeciding)
                .allMatch(finding -> finding.outcome() == Outcome.PASS);
        assertThat(evaluation.verdict().isPass()).isEqualTo(allPass);
        if (!allPass) {
            assertThat(evaluation.verdict().deciding()).isNotEmpty();
        }
    }

    @Test
    void a_deciding_question_without_an_answer_keeps_a_good_run_from_passing() {
        CriteriaSet asksNothingOfPressure = set(InventedSets.ANSWERED.stream()
                .filter(id -> id != CriterionId.SATURATION_DIFFERENCE)
                .toList());
        TestRun run = goodRun(false);
        assertThat(Assessment.evaluate(run, asksNothingOfPressure).verdict().outcome())
                .isEqualTo(RunOutcome.PASS);
        RunEvaluation evaluation = Assessment.evaluate(run, set(InventedSets.ANSWERED));
        assertThat(evaluation.finding(CriterionId.SATURATION_DIFFERENCE).outcome())
                .isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        assertThat(Assessment.evaluate(goodRun(true), set(InventedSets.ANSWERED))
                        .verdict()
                        .outcome())
                .as("with pressure the same run passes")
                .isEqualTo(RunOutcome.PASS);
    }

    @Test
    void lethality_never_makes_a_short_holding_time_good() {
        CriteriaSet set = set(List.of(CriterionId.MINIMUM_HOLDING_TIME, CriterionId.EQUILIBRATION_TIME));
        TestRun brief = run(100, 200, false);
        TestRun brewed = ChangedRun.slowlyHeated(brief, 133.0, 3000);
        RunEvaluation before = Assessment.evaluate(brief, set);
        RunEvaluation after = Assessment.evaluate(brewed, set);
        assertThat(before.lethality().get(0).minutes())
                .as("F0 of 100 s at 135 °C")
                .isLessThan(60);
        assertThat(after.lethality().get(0).minutes())
                .as("F0 far beyond 58.5 min, which 3 min at 134 °C give")
                .isGreaterThan(500);
        assertThat(before.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
        assertThat(after.verdict().outcome()).isEqualTo(RunOutcome.FAIL);
        assertSame(before, after);
        assertThat(Arrays.stream(CriterionId.values()).map(CriterionId::word))
                .as("no criterion reads it")
                .noneMatch(word -> word.contains("lethal"));
    }

    private static CriteriaSet openBand(TestRun run) {
        return InventedSets.allDeciding(
                DecisionRule.SIMPLE,
                IapwsR797.INSTANCE,
                false,
                run.cycle().sterilizingTemperature().celsius(),
                30,
                Optional.empty(),
                List.of(CriterionId.MINIMUM_HOLDING_TIME));
    }

    private static CriteriaSet set(List<CriterionId> deciding) {
        return InventedSets.allDeciding(
                DecisionRule.SIMPLE, IapwsR797.INSTANCE, false, 134, 180, Optional.of(4.0), deciding);
    }

    private static TestRun goodRun(boolean hasPressure) {
        return run(100, 320, hasPressure);
    }

    private static TestRun run(int from, int until, boolean hasPressure) {
        TimeAxis axis = TimeAxis.regular(600, 1);
        double[] reference = new double[600];
        double[] load = new double[600];
        double[] kilopascal = new double[600];
        for (int i = 0; i < 600; i++) {
            double steam = i < from ? 135 - 1.0 * (from - i) : i < until ? 135 : 135 - 2.0 * (i - until + 1);
            steam = Math.max(steam, 60);
            reference[i] = steam + 0.03 * (i % 3);
            load[i] = steam - 0.05 * (i % 4);
            kilopascal[i] = i < 20 || i > 580 ? 101.3 : IapwsR797.INSTANCE.kilopascalAt(steam);
        }
        InventedRun run = new InventedRun()
                .temperature("reference", ChannelRole.REFERENCE_POINT, 0.1, axis, reference)
                .temperature("load", ChannelRole.LOAD, 0.1, axis, load);
        if (hasPressure) {
            run.pressure("pressure", PressureReference.ABSOLUTE, 0.5, axis, kilopascal);
        }
        return run.build();
    }

    private static double holding(TestRun run, CriteriaSet set) {
        return Assessment.evaluate(run, set)
                .plateau()
                .map(Plateau::holdingSeconds)
                .orElse(0.0);
    }

    private static void assertSame(RunEvaluation before, RunEvaluation after) {
        assertThat(outcomes(after)).isEqualTo(outcomes(before));
        assertThat(after.verdict().outcome()).isEqualTo(before.verdict().outcome());
        for (Finding finding : before.findings()) {
            Finding other = after.finding(finding.id());
            assertThat(other.measured().isPresent())
                    .isEqualTo(finding.measured().isPresent());
            if (finding.measured().isPresent()) {
                double expected = finding.measured().get().value();
                double actual = other.measured().orElseThrow().value();
                if (Double.isInfinite(expected)) {
                    assertThat(actual).as(finding.id().word()).isEqualTo(expected);
                } else {
                    assertThat(actual).as(finding.id().word()).isCloseTo(expected, within(1e-9));
                }
            }
        }
    }

    private static Map<String, Outcome> outcomes(RunEvaluation evaluation) {
        Map<String, Outcome> outcomes = new TreeMap<>();
        evaluation.findings().forEach(finding -> outcomes.put(finding.id().word(), finding.outcome()));
        return outcomes;
    }
}
