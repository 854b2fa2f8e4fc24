package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.indicator.Agreement;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.ExpectedReduction;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.Invented.Draft;

class IndicatorPlacesTest {

    private static final Optional<Resistance> SPORES = Optional.of(new Resistance(1.5, Optional.empty(), 121, 10));
    private static final Optional<Double> MILLION = Optional.of(1e6);

    private final Invented invented = new Invented();

    /** A quarter of an hour at 121 °C at position A (channel T1), three minutes at E (channel T3). */
    private AssessedVisit assessed(RunOutcome outcome, UnaryOperator<Draft> change) {
        invented.run(TestKind.LOADED, B134, outcome, change);
        return Visits.assess(
                invented.visit(), (test, set) -> measured(invented.evaluator().apply(test, set)));
    }

    private AssessedRun run(UnaryOperator<Draft> change) {
        return assessed(PASS, change).runs().get(0);
    }

    private static RunEvaluation measured(RunEvaluation from) {
        return new RunEvaluation(
                from.run(),
                from.criteriaSet(),
                new CorrectedTrace(from.run().trace(), List.of(channel("T1", "A", 15), channel("T3", "E", 3))),
                from.phases(),
                from.plateau(),
                from.plateauLowered(),
                from.plateauRaised(),
                from.statistics(),
                from.steam(),
                from.lethality(),
                from.lethalityChannels(),
                from.leakTest(),
                from.findings(),
                from.verdict(),
                from.simpleVerdict(),
                from.guardedVerdict(),
                from.hints());
    }

    private static CorrectedChannel channel(String name, String letter, int minutes) {
        double[] celsius = new double[minutes * 60 + 1];
        Arrays.fill(celsius, 121);
        Channel channel = new Channel(
                name,
                ChannelRole.LOAD,
                new Position(letter, ""),
                Optional.empty(),
                Optional.empty(),
                TimeAxis.regular(celsius.length, 1),
                new Column(name, Quantity.TEMPERATURE, Optional.empty(), "°C", celsius, 0.01));
        return new CorrectedChannel(channel, celsius, Optional.empty(), Optional.empty());
    }

    private static IndicatorUse exposed(
            String position, String channel, boolean grown, Optional<Resistance> spores, Optional<Double> population) {
        return new IndicatorUse(
                "1",
                false,
                "strip",
                "L1",
                Optional.empty(),
                population,
                position,
                Optional.of(grown),
                "",
                spores,
                channel,
                Optional.empty(),
                Optional.empty(),
                "");
    }

    private static IndicatorUse control(boolean grown) {
        return new IndicatorUse(
                "C",
                true,
                "strip",
                "L1",
                Optional.empty(),
                MILLION,
                "",
                Optional.of(grown),
                "",
                SPORES,
                "",
                Optional.empty(),
                Optional.empty(),
                "");
    }

    private static ChemicalIndicator strip(ChemicalIndicator.Result result, String position, LocalDate expires) {
        return new ChemicalIndicator(
                "CI-1",
                ChemicalIndicator.Type.EMULATING,
                "strip",
                "L9",
                Optional.of(expires),
                List.of(new ChemicalIndicator.StatedValue(121, 600)),
                position,
                result);
    }

    @ParameterizedTest(name = "position {0}, channel {1}: {2}, {3}")
    @CsvSource({
        "A,  '', T1, at the same position",
        "e,  '', T3, letters are compared as people write them",
        "A,  T3, T3, a declared channel goes first",
        "'', T3, T3, a declared channel needs no position",
    })
    void takes_the_sensor_beside_it(String position, String channel, String expected, String why) {
        AssessedRun run = run(d -> d.indicators(exposed(position, channel, false, SPORES, MILLION), control(true)));
        assertThat(run.indicators().get(0).expected().map(ExpectedReduction::channel))
                .as(why)
                .contains(expected);
        assertThat(run.indicators().get(1).expected())
                .as("a control lay in no place")
                .isEmpty();
    }

    @Test
    void says_why_nothing_was_compared() {
        AssessedRun run = run(d -> d.indicators(
                exposed("A", "", false, Optional.empty(), MILLION),
                exposed("", "", false, SPORES, MILLION),
                exposed("F", "", false, SPORES, MILLION),
                exposed("A", "T9", false, SPORES, MILLION),
                exposed("A", "", false, SPORES, Optional.empty()),
                control(true)));
        assertThat(run.indicators().subList(0, 5))
                .extracting(IndicatorComparison::sentence)
                .containsExactly(
                        "The D-value of the lot is not stated.",
                        "Neither its position nor the channel beside it is stated.",
                        "No sensor lay at position F.",
                        "No temperature in the chamber is called T9.",
                        "The population of the lot is not stated.");
        assertThat(run.indicators().subList(0, 5))
                .extracting(IndicatorComparison::agreement)
                .containsOnly(Agreement.NOT_COMPARED);
    }

    @Test
    void a_contradiction_is_an_open_point_and_changes_no_verdict() {
        invented.requiresIndicators();
        AssessedVisit grown = assessed(PASS, d -> d.indicators(exposed("A", "", true, SPORES, MILLION), control(true)));
        assertThat(grown.runs().get(0).indicators().get(0).agreement()).isEqualTo(Agreement.GROWTH_UNEXPECTED);
        assertThat(grown.runs().get(0).isFail())
                .as("growth fails whatever was expected")
                .isTrue();
        assertThat(grown.openPoints())
                .filteredOn(point -> point.startsWith("Run 1, indicator 1 contradicts the thermometry. It grew"))
                .singleElement()
                .asString()
                .contains("Look for: air left around the spores")
                .endsWith("To be explained before anybody signs.");
    }

    @Test
    void a_clear_indicator_mends_no_failed_run() {
        invented.requiresIndicators();
        AssessedVisit clear =
                assessed(FAIL, d -> d.indicators(exposed("E", "", false, SPORES, MILLION), control(true)));
        assertThat(clear.runs().get(0).indicators().get(0).agreement()).isEqualTo(Agreement.NO_GROWTH_UNEXPECTED);
        assertThat(clear.runs().get(0).isFail()).isTrue();
        assertThat(clear.runs().get(0).isPass()).isFalse();
        assertThat(clear.openPoints()).anyMatch(point -> point.contains("indicator 1 contradicts the thermometry"));
    }

    @Test
    void agreement_asks_nothing() {
        invented.requiresIndicators();
        AssessedVisit good = assessed(PASS, d -> d.indicators(exposed("A", "", false, SPORES, MILLION), control(true)));
        assertThat(good.runs().get(0).isPass()).isTrue();
        assertThat(good.openPoints()).noneMatch(point -> point.contains("indicator"));
    }

    @Test
    void a_dead_lot_is_told_even_where_the_set_does_not_ask() {
        AssessedVisit dead =
                assessed(PASS, d -> d.indicators(exposed("A", "", false, SPORES, MILLION), control(false)));
        assertThat(dead.openPoints())
                .filteredOn(point -> point.contains("is no evidence"))
                .containsExactly(
                        "Run 1, indicator 1 is no evidence. It did not grow, but neither did the control of its lot: it may have been dead before.",
                        "Run 1, indicator C is no evidence. The control did not grow: its lot may be dead, so an indicator of it without growth proves nothing.");
        Invented asking = new Invented().requiresIndicators();
        asking.run(
                TestKind.LOADED,
                B134,
                PASS,
                d -> d.indicators(exposed("A", "", false, SPORES, MILLION), control(false)));
        assertThat(asking.assessed().openPoints())
                .as("the finding says it already")
                .noneMatch(point -> point.contains("is no evidence"));
    }

    @Test
    void weak_spores_are_told() {
        Optional<Resistance> weak = Optional.of(new Resistance(1.4, Optional.empty(), 121, 10));
        AssessedRun run = run(d -> d.indicators(exposed("A", "", false, weak, MILLION), control(true)));
        assertThat(run.indicators().get(0).sentence())
                .isEqualTo(
                        "It did not grow, as the temperature lets expect. Its stated figures are weaker than a steam indicator's have to be (1E5 spores, D 1.5 min at 121 °C, z 6 K).");
    }

    @Test
    void chemical_indicators_ask_and_never_decide() {
        LocalDate good = LocalDate.of(2026, 11, 25);
        AssessedVisit visit = assessed(
                PASS,
                d -> d.chemicals(
                        strip(ChemicalIndicator.Result.REACHED, "A", good),
                        strip(ChemicalIndicator.Result.NOT_REACHED, "A", good),
                        strip(ChemicalIndicator.Result.REACHED, "E", good),
                        strip(ChemicalIndicator.Result.UNCLEAR, "", good),
                        strip(ChemicalIndicator.Result.REACHED, "A", good.minusDays(1))));
        AssessedRun run = visit.runs().get(0);
        assertThat(run.chemicals())
                .extracting(c -> c.agreement())
                .containsExactly(
                        Agreement.AGREES,
                        Agreement.END_POINT_MISSED,
                        Agreement.END_POINT_UNEXPECTED,
                        Agreement.NOT_COMPARED,
                        Agreement.AGREES);
        assertThat(run.chemicals()).extracting(c -> c.isQuestion()).containsExactly(false, true, true, true, true);
        assertThat(run.isPass()).isTrue();
        assertThat(visit.openPoints())
                .filteredOn(point -> point.contains("chemical indicator"))
                .containsExactly(
                        "Run 1, chemical indicator CI-1 (type 6, emulating): end point not reached. The stated time was stayed for, yet the end point was missed: look for air, a dry place, or a pack that steam did not reach. To be explained before anybody signs.",
                        "Run 1, chemical indicator CI-1 (type 6, emulating): end point reached. It changed although the stated time was not stayed for: look for a hot dry place, a wrong or old indicator, a sensor that reads low. To be explained before anybody signs.",
                        "Run 1, chemical indicator CI-1 (type 6, emulating): unclear. Its end point counts as not reached. To be explained before anybody signs.",
                        "Run 1, chemical indicator CI-1 (type 6, emulating): end point reached. As the temperature beside it lets expect. It was out of date on the day. To be explained before anybody signs.");
    }
}
