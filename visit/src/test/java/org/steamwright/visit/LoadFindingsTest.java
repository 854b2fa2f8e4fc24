package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.criteria.CriterionId.BIOLOGICAL_INDICATORS;
import static org.steamwright.assessment.criteria.CriterionId.LOAD_DRYNESS;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.Invented.Draft;

class LoadFindingsTest {

    final Invented invented = new Invented();

    @ParameterizedTest(name = "{0} {1} g to {2} g: {3}")
    @CsvSource({
        "SOLID,  8600, 8615.5,  PASS, check value 99",
        "SOLID,  8600, 8617.2,  PASS, check value 100: the limit itself is dry",
        "SOLID,  8600, 8617.3,  FAIL, just over",
        "POROUS, 1500, 1516,    FAIL, check value 101",
        "POROUS, 1500, 1515,    PASS, the limit for porous loads",
        "SOLID,  1500, 1515,    FAIL, the same mass in metal is wet",
        "SOLID,  1000, 999,     PASS, lighter is not wet",
    })
    void judges_the_moisture_by_the_kind_of_load(
            Weighing.Kind kind, double before, double after, Outcome expected, String why) {
        dryIsAsked(Use.DECIDES);
        Finding finding = dryness(run -> run.weighings(new Weighing("tray 1", kind, before, after)));
        assertThat(finding.outcome()).as(why).isEqualTo(expected);
    }

    @Test
    void shows_the_masses_and_the_limit() {
        dryIsAsked(Use.DECIDES);
        Finding finding = dryness(run -> run.weighings(new Weighing("tray 1", Weighing.Kind.SOLID, 8600, 8615.5)));
        assertThat(finding.sentence())
                .isEqualTo(
                        "Tray 1 went from 8600.0 g to 8615.5 g, a change of 0.19 % of its dry mass; the limit is ≤ 0.2 %.");
        assertThat(finding.printedMeasured()).isEqualTo("0.19 %");
        assertThat(finding.margin().getAsDouble()).isCloseTo(0.0198, org.assertj.core.data.Offset.offset(1e-4));
    }

    @Test
    void takes_the_weighing_that_is_worst_for_its_own_limit() {
        dryIsAsked(Use.DECIDES);
        Finding finding = dryness(run -> run.weighings(
                new Weighing("gauze", Weighing.Kind.POROUS, 1000, 1005),
                new Weighing("tray", Weighing.Kind.SOLID, 1000, 1003)));
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(finding.sentence()).startsWith("Tray went").endsWith("It is the worst of 2 weighed.");
    }

    @Test
    void asks_whether_a_load_that_became_lighter_was_dry_at_first() {
        dryIsAsked(Use.DECIDES);
        assertThat(dryness(run -> run.weighings(new Weighing("tray", Weighing.Kind.SOLID, 1000, 990)))
                        .sentence())
                .endsWith("It became lighter: was it dry when it was first weighed?");
    }

    @ParameterizedTest
    @CsvSource({"0, 10", "-1, 10", "10, 0", "NaN, 10", "10, Infinity"})
    void an_impossible_mass_is_invalid(double before, double after) {
        dryIsAsked(Use.DECIDES);
        Finding finding = dryness(run -> run.weighings(
                new Weighing("good", Weighing.Kind.SOLID, 1000, 1000),
                new Weighing("tray", Weighing.Kind.SOLID, before, after)));
        assertThat(finding.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding.sentence()).startsWith("The masses of tray can't be used");
    }

    @Test
    void nothing_weighed_is_not_assessed_and_keeps_the_run_from_passing() {
        dryIsAsked(Use.DECIDES);
        AssessedRun run = only(draft -> draft);
        assertThat(run.loadFindings().get(0).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(run.loadFindings().get(0).sentence())
                .isEqualTo("Not assessed: nothing was weighed before and after the run.");
        assertThat(run.isPass()).isFalse();
        assertThat(run.isFail()).isFalse();
        assertThat(run.cause()).isEqualTo("Not assessed: nothing was weighed before and after the run.");
    }

    @Test
    void a_wet_load_that_only_advises_does_not_fail_the_run() {
        dryIsAsked(Use.ADVISES);
        AssessedRun run = only(draft -> draft.weighings(new Weighing("tray", Weighing.Kind.SOLID, 1000, 1010)));
        assertThat(run.loadFindings().get(0).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(run.isPass()).isTrue();
    }

    @Test
    void packs_that_were_wet_to_the_eye_fail_the_run_whatever_is_asked_for_and_weighed() {
        AssessedRun silent = only(draft -> draft.after(false, true, "Alex Example"));
        assertThat(silent.isFail()).as("the set says nothing about moisture").isTrue();
        assertThat(silent.cause())
                .isEqualTo(
                        "Packs were wet to the eye when they were taken out, says Alex Example. A wet pack is not sterile.");
        dryIsAsked(Use.ADVISES);
        assertThat(only(draft -> draft.after(false, true, "")
                                .weighings(new Weighing("tray", Weighing.Kind.SOLID, 1000, 1000)))
                        .isFail())
                .isTrue();
        dryIsAsked(Use.DECIDES);
        assertThat(only(draft -> draft.after(true, true, "")).isPass())
                .as("what looks dry proves nothing about the limit")
                .isFalse();
    }

    @Test
    void packs_stay_wet_whatever_else_of_the_run_becomes_another() {
        VisitRun wet = only(draft -> draft.after(false, true, "Alex Example")).run();
        assertThat(wet.withChemicalEntries(List.of())).isEqualTo(wet);
        assertThat(wet.withTest(wet.test())).isEqualTo(wet);
        assertThat(wet.after()).isPresent();
    }

    @Test
    void torn_packs_are_to_be_explained() {
        String torn = "seals of packs were not intact when they were taken out. To be explained before anybody signs.";
        only(draft -> draft.after(true, true, ""));
        assertThat(invented.assessed().openPoints()).noneMatch(point -> point.endsWith(torn));
        only(draft -> draft.after(true, false, ""));
        assertThat(invented.assessed().openPoints()).contains("Run 2: " + torn);
    }

    @Test
    void what_is_only_reported_is_measured_and_not_judged() {
        dryIsAsked(Use.REPORTS);
        Finding finding = dryness(run -> run.weighings(new Weighing("tray", Weighing.Kind.SOLID, 1000, 1010)));
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.printedMeasured()).isEqualTo("1.00 %");
        assertThat(finding.sentence()).endsWith("; reported only.");
    }

    @Test
    void what_the_set_does_not_ask_is_not_assessed() {
        Finding finding = dryness(run -> run.weighings(new Weighing("tray", Weighing.Kind.SOLID, 1000, 1000)));
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.use()).isEqualTo(Use.OFF);
        assertThat(finding.source().document()).isEqualTo("criteria set example-set");
    }

    @ParameterizedTest(name = "exposed {0}, control {1}: {2}")
    @CsvSource({
        "clear,   grown,   PASS,         killed by the run and alive without it",
        "grown,   grown,   FAIL,         spores survived",
        "grown,   clear,   FAIL,         growth counts whatever the control says",
        "grown,   ,        FAIL,         growth counts without a control too",
        "grown,   awaited, FAIL,         growth counts at once",
        "clear,   clear,   INVALID,      a dead control proves nothing",
        "clear,   ,        INVALID,      no control proves nothing",
        "clear,   awaited, AWAITED,      the control may still turn out dead",
        "awaited, grown,   AWAITED,      not read yet",
        "awaited, clear,   INVALID,      nothing that is read later can heal a dead control",
    })
    void reads_indicators_together_with_their_control(String exposed, String control, Outcome expected, String why) {
        invented.requiresIndicators();
        IndicatorUse[] uses = control == null
                ? new IndicatorUse[] {indicator("1", false, exposed)}
                : new IndicatorUse[] {indicator("1", false, exposed), indicator("C", true, control)};
        assertThat(indicators(run -> run.indicators(uses)).outcome()).as(why).isEqualTo(expected);
    }

    @Test
    void one_that_grew_among_many_fails_and_is_named() {
        invented.requiresIndicators();
        Finding finding = indicators(run -> run.indicators(
                indicator("1", false, "clear"),
                indicator("2", false, "grown"),
                indicator("3", false, "clear"),
                indicator("C", true, "grown")));
        assertThat(finding.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(finding.sentence()).isEqualTo("Growth in 1 of 3 exposed indicators (2): spores survived this run.");
    }

    @Test
    void a_lot_is_good_to_the_end_of_its_last_day() {
        invented.requiresIndicators();
        assertThat(indicators(run -> run.indicators(expiring(LocalDate.of(2026, 11, 25)), control()))
                        .outcome())
                .isEqualTo(Outcome.PASS);
        Finding expired = indicators(run -> run.indicators(expiring(LocalDate.of(2026, 11, 24)), control()));
        assertThat(expired.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(expired.sentence())
                .isEqualTo("Indicator 1 of lot L1 was out of date on the day (last day 24 November 2026), "
                        + "so this test proves nothing. Repeat it with a fresh lot.");
    }

    @Test
    void the_day_is_the_one_at_the_site_and_not_in_greenwich() {
        invented.requiresIndicators();
        Instant lateAtTheSite = Instant.parse("2026-11-24T14:00:00Z");
        assertThat(indicators(run -> run.start(Optional.of(lateAtTheSite))
                                .indicators(expiring(LocalDate.of(2026, 11, 24)), control()))
                        .outcome())
                .as("14:00 UTC on the 24th is 01:00 on the 25th in Sydney")
                .isEqualTo(Outcome.INVALID);
    }

    @Test
    void an_unknown_day_makes_a_lot_with_a_last_day_invalid() {
        invented.requiresIndicators();
        invented.date = Optional.empty();
        Finding finding = indicators(
                run -> run.start(Optional.empty()).indicators(expiring(LocalDate.of(2030, 1, 1)), control()));
        assertThat(finding.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(finding.sentence()).startsWith("The day of the run is not known");
    }

    @Test
    void names_the_lot_without_a_control() {
        invented.requiresIndicators();
        assertThat(indicators(run -> run.indicators(indicator("1", false, "clear")))
                        .sentence())
                .isEqualTo("Lot L1 has no unexposed control, so this test proves nothing. "
                        + "Repeat it with a control of the same lot.");
    }

    @Test
    void a_control_of_another_lot_is_no_control() {
        invented.requiresIndicators();
        IndicatorUse other = new IndicatorUse(
                "C", true, "strip", "L2", Optional.empty(), Optional.empty(), "", Optional.of(true), "");
        assertThat(indicators(run -> run.indicators(indicator("1", false, "clear"), other))
                        .outcome())
                .isEqualTo(Outcome.INVALID);
    }

    @Test
    void says_in_plain_words_what_a_dead_control_means() {
        invented.requiresIndicators();
        assertThat(indicators(run -> run.indicators(indicator("1", false, "clear"), indicator("C", true, "clear")))
                        .sentence())
                .isEqualTo(
                        "The control of lot L1 did not grow, so this test proves nothing. Repeat it with a fresh lot.");
    }

    @Test
    void names_what_is_awaited() {
        invented.requiresIndicators();
        AssessedRun run =
                only(draft -> draft.indicators(indicator("1", false, "awaited"), indicator("C", true, "awaited")));
        assertThat(run.loadFindings().get(1).sentence())
                .isEqualTo("Awaited: 1 and control C are not read to the end of incubation yet.");
        assertThat(run.isAwaited()).isTrue();
        assertThat(run.isPass()).isFalse();
    }

    @ParameterizedTest(name = "{0}, read {1}: {2}")
    @CsvSource({
        "clear, 2026-03-04 16:00, PASS,    read at the end",
        "clear, 2026-03-04,       PASS,    the same day without a time",
        "clear, '',               PASS,    nobody noted when; as before there was a place for it",
        "clear, 2026-03-04 12:00, AWAITED, four hours early: it may still grow",
        "clear, 2026-03-03,       AWAITED, a day early",
        "grown, 2026-03-03,       FAIL,    growth counts whenever it is seen",
    })
    void no_growth_counts_only_from_the_end_of_incubation_on(
            String reading, String readOn, Outcome expected, String why) {
        invented.requiresIndicators();
        assertThat(indicators(run -> run.indicators(read(indicator("1", false, reading), readOn), control()))
                        .outcome())
                .as(why)
                .isEqualTo(expected);
    }

    @Test
    void says_what_was_read_too_early() {
        invented.requiresIndicators();
        AssessedRun run =
                only(draft -> draft.indicators(read(indicator("1", false, "clear"), "2026-03-04 12:00"), control()));
        assertThat(run.loadFindings().get(1).sentence())
                .isEqualTo(
                        "Awaited: 1 is not read to the end of incubation yet. 1 was read on 4 March 2026, 12:00, before its"
                                + " incubation ended on 4 March 2026, 16:00: no growth by then does not count yet.");
        assertThat(run.isPass()).isFalse();
    }

    @Test
    void a_control_that_was_clear_too_early_voids_nothing_yet() {
        invented.requiresIndicators();
        assertThat(indicators(run -> run.indicators(
                                indicator("1", false, "clear"), read(indicator("C", true, "clear"), "2026-03-03")))
                        .outcome())
                .isEqualTo(Outcome.AWAITED);
    }

    @Test
    void asked_for_but_none_exposed_is_not_assessed() {
        invented.requiresIndicators();
        assertThat(indicators(run -> run).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(indicators(run -> run.indicators(control())).sentence())
                .isEqualTo("Not assessed: no biological indicator was exposed in this run.");
    }

    @Test
    void growth_decides_even_if_the_set_does_not_ask() {
        AssessedRun run = only(draft -> draft.indicators(indicator("1", false, "grown")));
        assertThat(run.loadFindings().get(1).isDeciding()).isTrue();
        assertThat(run.isFail()).isTrue();
        assertThat(run.cause()).startsWith("Growth in 1 of 1");
    }

    @Test
    void what_was_exposed_is_awaited_even_if_the_set_does_not_ask() {
        AssessedRun run = only(draft -> draft.indicators(indicator("1", false, "awaited"), control()));
        assertThat(run.loadFindings().get(1).outcome()).isEqualTo(Outcome.AWAITED);
        assertThat(run.loadFindings().get(1).isDeciding()).isTrue();
        assertThat(run.isPass()).isFalse();
        invented.requires(BIOLOGICAL_INDICATORS, Use.REPORTS, Optional.empty());
        assertThat(indicators(draft -> draft.indicators(indicator("1", false, "awaited"), control()))
                        .outcome())
                .isEqualTo(Outcome.AWAITED);
    }

    @Test
    void no_growth_that_nobody_asked_for_is_not_a_pass() {
        Finding finding = indicators(run -> run.indicators(indicator("1", false, "clear"), control()));
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.sentence())
                .isEqualTo(
                        "Not assessed: the criteria set does not ask for biological indicators; 1 exposed, no growth read.");
    }

    @Test
    void indicators_that_are_only_reported_are_not_judged() {
        invented.requires(BIOLOGICAL_INDICATORS, Use.REPORTS, Optional.empty());
        Finding finding = indicators(run -> run.indicators(indicator("1", false, "clear"), control()));
        assertThat(finding.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(finding.sentence()).startsWith("Reported only. None of 1 exposed indicators grew");
    }

    @Test
    void an_empty_chamber_has_no_load_findings_unless_it_held_indicators() {
        invented.requiresIndicators();
        assertThat(invented.run(TestKind.EMPTY_CHAMBER, B134, PASS)
                        .assessed()
                        .runs()
                        .get(0)
                        .loadFindings())
                .isEmpty();
        AssessedRun withIndicator = new Invented()
                .requiresIndicators()
                .run(TestKind.EMPTY_CHAMBER, B134, PASS, run -> run.indicators(indicator("1", false, "grown")))
                .assessed()
                .runs()
                .get(0);
        assertThat(withIndicator.isFail()).isTrue();
    }

    private void dryIsAsked(Use use) {
        invented.requirements.put(
                LOAD_DRYNESS,
                new Requirement(
                        LOAD_DRYNESS,
                        use,
                        Optional.of(Invented.atMostPercent(0.2)),
                        Optional.of(Invented.atMostPercent(1.0)),
                        DecisionRule.SIMPLE,
                        Invented.SOURCE));
    }

    private Finding dryness(UnaryOperator<Draft> change) {
        return finding(LOAD_DRYNESS, change);
    }

    private Finding indicators(UnaryOperator<Draft> change) {
        return finding(BIOLOGICAL_INDICATORS, change);
    }

    private Finding finding(CriterionId id, UnaryOperator<Draft> change) {
        return only(change).loadFindings().stream()
                .filter(finding -> finding.id() == id)
                .findFirst()
                .orElseThrow();
    }

    private AssessedRun only(UnaryOperator<Draft> change) {
        invented.run(TestKind.LOADED, B134, PASS, change);
        AssessedVisit assessed = invented.assessed();
        return assessed.runs().get(assessed.runs().size() - 1);
    }

    static IndicatorUse indicator(String id, boolean isControl, String reading) {
        Optional<Boolean> grown = reading.equals("awaited") ? Optional.empty() : Optional.of(reading.equals("grown"));
        return new IndicatorUse(id, isControl, "strip", "L1", Optional.empty(), Optional.empty(), "", grown, "");
    }

    /** The same with an incubation to the afternoon of the fourth of March, read at a moment. */
    private static IndicatorUse read(IndicatorUse use, String readOn) {
        return new IndicatorUse(
                use.id(),
                use.isControl(),
                use.product(),
                use.lot(),
                use.expires(),
                use.population(),
                use.position(),
                use.grown(),
                "",
                Optional.empty(),
                "",
                SiteMoment.find("2026-03-04 16:00"),
                SiteMoment.find(readOn),
                "K. Sample (invented)");
    }

    private static IndicatorUse control() {
        return indicator("C", true, "grown");
    }

    private static IndicatorUse expiring(LocalDate day) {
        return new IndicatorUse(
                "1", false, "strip", "L1", Optional.of(day), Optional.empty(), "", Optional.of(false), "");
    }
}
