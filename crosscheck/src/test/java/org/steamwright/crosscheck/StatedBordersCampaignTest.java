package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedPhases;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestRun;

/** Borders stated at random on cycles drawn at random, held against the rule as it is written, computed a second time. */
class StatedBordersCampaignTest {

    private static final int TRIES = 300;
    private static final String SEED = "20261126";
    private static final long DECLARED_SECONDS = 150;

    private static final List<CriterionId> ASKED = List.of(
            CriterionId.AIR_REMOVAL_PULSES,
            CriterionId.MINIMUM_HOLDING_TIME,
            CriterionId.LOWEST_TEMPERATURE,
            CriterionId.HIGHEST_TEMPERATURE,
            CriterionId.EQUILIBRATION_TIME,
            CriterionId.TEMPERATURE_SPREAD,
            CriterionId.TEMPERATURE_FLUCTUATION,
            CriterionId.SATURATION_DIFFERENCE,
            CriterionId.DRYING_TIME);

    @Property(tries = TRIES, seed = SEED)
    void nothing_but_drying_time_and_pulses_changes_and_what_was_found_stays(
            @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
        TestRun run = run(new Random(seed));
        RunEvaluation before = Assessment.evaluate(run, set());
        RunEvaluation after = Assessment.evaluate(run.withStatedBorders(borders(seed, before)), set());
        assertThat(after.plateau()).isEqualTo(before.plateau()).isPresent();
        assertThat(after.plateauLowered()).isEqualTo(before.plateauLowered());
        assertThat(after.plateauRaised()).isEqualTo(before.plateauRaised());
        assertThat(after.statistics()).isEqualTo(before.statistics());
        assertThat(after.steam()).isEqualTo(before.steam());
        assertThat(after.lethality()).isEqualTo(before.lethality());
        assertThat(after.oddities()).isEqualTo(before.oddities());
        assertThat(after.phases().map(Phases::phases)).isEqualTo(before.phases().map(Phases::phases));
        assertThat(after.phases().map(Phases::pulses)).isEqualTo(before.phases().map(Phases::pulses));
        for (Finding finding : before.findings()) {
            if (finding.id() != CriterionId.DRYING_TIME && finding.id() != CriterionId.AIR_REMOVAL_PULSES) {
                assertThat(after.finding(finding.id())).isEqualTo(finding);
            }
        }
    }

    @Property(tries = TRIES, seed = SEED)
    void stated_phases_follow_one_another_inside_of_the_recording_or_are_left_aside(
            @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
        TestRun run = run(new Random(seed));
        RunEvaluation before = Assessment.evaluate(run, set());
        StatedPhases stated = Assessment.evaluate(run.withStatedBorders(borders(seed, before)), set())
                .phases()
                .flatMap(Phases::stated)
                .orElseThrow();
        assertThat(stated.phases().isEmpty()).isEqualTo(stated.refusal().isPresent());
        double end = run.trace().firstSeconds();
        for (Phase phase : stated.phases()) {
            assertThat(phase.fromSeconds()).isGreaterThanOrEqualTo(end);
            assertThat(phase.toSeconds()).isGreaterThan(phase.fromSeconds());
            end = phase.toSeconds();
        }
        assertThat(end).isLessThanOrEqualTo(run.trace().lastSeconds());
        if (stated.refusal().isEmpty()) {
            Phase plateau = before.phases()
                    .flatMap(found -> found.find(Phase.Kind.PLATEAU))
                    .orElseThrow();
            assertThat(stated.phases()).contains(plateau);
        }
    }

    /** The rule of docs/decisions/0065 in the plainest way: no line taken from the engine. */
    @Property(tries = TRIES, seed = SEED)
    void drying_and_evacuations_are_those_of_the_stated_borders(
            @ForAll @LongRange(min = 0, max = 1_000_000) long seed) {
        TestRun run = run(new Random(seed));
        RunEvaluation before = Assessment.evaluate(run, set());
        List<StatedBorder> borders = borders(seed, before);
        RunEvaluation after = Assessment.evaluate(run.withStatedBorders(borders), set());
        Phases found = before.phases().orElseThrow();
        boolean stands =
                after.phases().flatMap(Phases::stated).orElseThrow().refusal().isEmpty();
        Phase drying = found.find(Phase.Kind.DRYING).orElseThrow();
        double from = drying.fromSeconds();
        double to = drying.toSeconds();
        double pulsesFrom = Double.NEGATIVE_INFINITY;
        double pulsesTo = Double.POSITIVE_INFINITY;
        boolean isDryingBegun = false;
        boolean isAirEnded = false;
        for (StatedBorder border : stands ? borders : List.<StatedBorder>of()) {
            boolean isBegin = border.end() == StatedBorder.End.FROM;
            switch (border.phase()) {
                case DRYING -> {
                    from = isBegin ? border.atSeconds() : from;
                    to = isBegin ? to : border.atSeconds();
                    isDryingBegun |= isBegin;
                }
                case AIR_REMOVAL -> {
                    pulsesFrom = isBegin ? border.atSeconds() : pulsesFrom;
                    pulsesTo = isBegin ? pulsesTo : border.atSeconds();
                    isAirEnded |= !isBegin;
                }
                default -> {}
            }
        }
        // exhaust and drying meet, air removal and heating too: one border, unless the other side is stated for itself
        for (StatedBorder border : stands ? borders : List.<StatedBorder>of()) {
            if (border.isOf(Phase.Kind.EXHAUST, StatedBorder.End.TO) && !isDryingBegun) {
                from = border.atSeconds();
            }
            if (border.isOf(Phase.Kind.HEATING, StatedBorder.End.FROM) && !isAirEnded) {
                pulsesTo = border.atSeconds();
            }
        }
        double lowest = pulsesFrom;
        double highest = pulsesTo;
        long pulses = found.pulses().stream()
                .filter(pulse -> pulse.depthSeconds() >= lowest && pulse.depthSeconds() <= highest)
                .count();
        Finding dried = after.finding(CriterionId.DRYING_TIME);
        assertThat(dried.measured().orElseThrow().value()).isCloseTo(to - from, within(1e-9));
        assertThat(after.finding(CriterionId.AIR_REMOVAL_PULSES)
                        .measured()
                        .orElseThrow()
                        .value())
                .isEqualTo(pulses);
        if (to - from >= DECLARED_SECONDS) {
            assertThat(dried.outcome()).isEqualTo(Outcome.PASS);
        } else {
            assertThat(dried.outcome()).isIn(Outcome.FAIL, Outcome.INVALID);
        }
        if (to - from != drying.toSeconds() - drying.fromSeconds()) {
            assertThat(dried.sentence())
                    .contains("by the stated border", "as found", "an invented person", "an invented reason");
        }
    }

    private static List<StatedBorder> borders(long seed, RunEvaluation evaluation) {
        Random random = new Random(seed * 31 + 7);
        List<Phase> phases = evaluation.phases().orElseThrow().phases();
        List<StatedBorder> borders = new ArrayList<>();
        for (Phase phase : phases) {
            if (!StatedBorder.isStatable(phase.kind())) {
                continue;
            }
            for (StatedBorder.End end : StatedBorder.End.values()) {
                if (random.nextInt(4) == 0) {
                    double at = end == StatedBorder.End.FROM ? phase.fromSeconds() : phase.toSeconds();
                    double wide = random.nextInt(4) == 0 ? 2000 : 40;
                    borders.add(stated(phase.kind(), end, at + wide * (random.nextDouble() - 0.5)));
                }
            }
        }
        if (borders.isEmpty()) {
            borders.add(stated(Phase.Kind.DRYING, StatedBorder.End.TO, 900 + random.nextInt(60)));
        }
        return borders;
    }

    private static StatedBorder stated(Phase.Kind kind, StatedBorder.End end, double at) {
        return new StatedBorder(kind, end, at, "an invented person", "an invented reason");
    }

    /** Some evacuations, a plateau of 134 °C, an exhaust and a drying under vacuum, all of random length. */
    private static TestRun run(Random random) {
        int pulses = 1 + random.nextInt(3);
        int air = 20 + 80 * pulses;
        int reached = air + 60 + random.nextInt(40);
        int left = reached + 200 + random.nextInt(60);
        int exhausted = left + 40 + random.nextInt(30);
        int dried = exhausted + 120 + random.nextInt(100);
        int samples = dried + 40;
        double[] celsius = new double[samples];
        double[] kilopascal = new double[samples];
        for (int i = 0; i < samples; i++) {
            double steam = i < air ? 60 : i < reached ? 60 + 75.0 * (i - air) / (reached - air) : 135;
            steam = i < left ? steam : Math.max(100, 135 - 0.9 * (i - left));
            celsius[i] = steam + 0.03 * (i % 3);
            double pressure = i >= reached && i < left
                    ? IapwsR797.INSTANCE.kilopascalAt(135)
                    : i < 20 ? 101.3 : i < air ? triangle(i - 20) : 101.3;
            if (i >= air && i < reached) {
                pressure = 15 + (IapwsR797.INSTANCE.kilopascalAt(135) - 15) * (i - air) / (reached - air);
            } else if (i >= left && i < exhausted) {
                pressure = 313 - 212.0 * (i - left) / (exhausted - left);
            } else if (i >= exhausted && i < dried) {
                pressure = Math.max(10, 101 - 3.0 * (i - exhausted));
            }
            kilopascal[i] = pressure;
        }
        TimeAxis axis = TimeAxis.regular(samples, 1);
        TestRun run = new InventedRun()
                .temperature("reference", ChannelRole.REFERENCE_POINT, 0.1, axis, celsius)
                .temperature("load", ChannelRole.LOAD, 0.1, axis, celsius.clone())
                .pressure("pressure", PressureReference.ABSOLUTE, 0.5, axis, kilopascal)
                .build();
        return new TestRun(
                run.id(),
                run.kind(),
                new CycleDefinition(
                        "invented",
                        CycleType.B,
                        Temperature.ofCelsius(134),
                        Optional.empty(),
                        OptionalInt.of(pulses),
                        Optional.of(40.0),
                        Optional.of(Duration.ofSeconds(DECLARED_SECONDS))),
                run.trace(),
                run.instruments(),
                run.ambient(),
                run.leakPeriods());
    }

    /** Down to 15 kPa and up again in 80 s, over and over. */
    private static double triangle(int second) {
        int phase = second % 80;
        return phase < 40 ? 101.3 - 86.3 * phase / 40 : 15 + 86.3 * (phase - 40) / 40;
    }

    private static CriteriaSet set() {
        return InventedSets.allDeciding(
                DecisionRule.SIMPLE, IapwsR797.INSTANCE, false, 134, 180, Optional.of(4.0), ASKED);
    }
}
