package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.steam.ShortFormula;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.whatif.Change;
import org.steamwright.visit.whatif.WhatIf;
import org.steamwright.visit.whatif.WhatIf.RunDifference;

/** The demo visit judged under other premises. Its run 3 is a passing empty chamber at 134 °C of steriliser A. */
class WhatIfTest {
    private static final int EMPTY_RUN = 3;

    @TempDir
    static Path folder;

    static Session session;
    static AssessedVisit demo;

    @BeforeAll
    static void make_the_demo_once() throws Exception {
        session = new Session(folder);
        assertThat(session.run("demo", "--no-report").status()).isEqualTo(ExitStatus.PASS);
        demo = Visits.assess(VisitFolder.read(folder.resolve("demo"), new Presets()));
    }

    @Test
    void an_instrument_that_read_too_high_lowers_the_minimum_by_as_much() {
        String instrument = instrumentOfTheLowest(demo);
        WhatIf whatIf = WhatIf.of(demo, List.of(new Change.InstrumentError(instrument, 0.1, Quantity.TEMPERATURE)));
        assertThat(lowest(whatIf.after())).isCloseTo(lowest(demo) - 0.1, within(1e-9));
    }

    @Test
    void an_error_well_above_the_margin_flips_the_run_and_its_qualification() {
        String instrument = instrumentOfTheLowest(demo);
        double margin = lowest(demo) - 134;
        WhatIf whatIf =
                WhatIf.of(demo, List.of(new Change.InstrumentError(instrument, margin + 1, Quantity.TEMPERATURE)));
        RunDifference run = whatIf.runs().stream()
                .filter(one -> one.number() == EMPTY_RUN)
                .findFirst()
                .orElseThrow();
        assertThat(run.before().word()).isEqualTo("pass");
        assertThat(run.after().word()).isEqualTo("fail");
        assertThat(run.isFlipped()).isTrue();
        assertThat(run.findings())
                .filteredOn(finding -> finding.id() == CriterionId.LOWEST_TEMPERATURE)
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.isFlipped()).isTrue();
                    assertThat(finding.before().map(Finding::outcome)).contains(Outcome.PASS);
                });
        assertThat(whatIf.qualifications()).isNotEmpty();
        assertThat(whatIf.isFlipped()).isTrue();
    }

    @Test
    void nothing_changes_under_the_same_premises() {
        WhatIf whatIf = WhatIf.of(demo, List.of(new Change.OtherSet(demo.visit().criteriaSet())));
        assertThat(whatIf.runs()).isEmpty();
        assertThat(whatIf.qualifications()).isEmpty();
        assertThat(whatIf.isFlipped()).isFalse();
    }

    @Test
    void another_formula_moves_the_theoretical_temperature_and_nothing_else() {
        WhatIf whatIf = WhatIf.of(demo, List.of(new Change.OtherFormula(ShortFormula.INSTANCE)));
        assertThat(whatIf.runs())
                .isNotEmpty()
                .allSatisfy(run -> assertThat(run.findings())
                        .extracting(finding -> finding.id())
                        .containsOnly(CriterionId.SATURATION_DIFFERENCE));
    }

    @Test
    void the_clock_of_one_of_two_recordings_moves_its_channels_and_nothing_else() {
        WhatIf whatIf = WhatIf.of(demo, List.of(new Change.ClockMoved("05-a-empty-l2.csv", 200)));
        assertThat(whatIf.runs()).extracting(RunDifference::number).containsExactly(5);
        WhatIf back = WhatIf.of(demo, List.of(new Change.ClockMoved("recordings/05-a-empty-l2.csv", 0)));
        assertThat(back.runs()).isEmpty();
    }

    @Test
    void a_clock_that_ran_two_minutes_late_breaks_the_holding_time() {
        WhatIf whatIf = WhatIf.of(demo, List.of(new Change.ClockMoved(instrumentOfTheLowest(demo), 120)));
        RunDifference run = whatIf.runs().stream()
                .filter(one -> one.number() == EMPTY_RUN)
                .findFirst()
                .orElseThrow();
        assertThat(run.findings())
                .filteredOn(finding -> finding.id() == CriterionId.MINIMUM_HOLDING_TIME)
                .singleElement()
                .satisfies(finding -> assertThat(finding.after()
                                .flatMap(Finding::measured)
                                .orElseThrow()
                                .value())
                        .isCloseTo(
                                finding.before()
                                                .flatMap(Finding::measured)
                                                .orElseThrow()
                                                .value()
                                        - 120,
                                within(10.0)));
    }

    @Test
    void every_decision_rule_can_be_tried() {
        for (DecisionRule rule : DecisionRule.values()) {
            AssessedVisit after =
                    WhatIf.of(demo, List.of(new Change.OtherRule(rule))).after();
            assertThat(after.runs().stream()
                            .flatMap(run -> run.evaluation().findings().stream())
                            .filter(finding -> finding.id() == CriterionId.LEAK_RATE
                                    || finding.id() == CriterionId.MINIMUM_HOLDING_TIME)
                            .map(Finding::rule))
                    .as("those that know doubt; what is counted is always held simply")
                    .hasSize(demo.runs().size())
                    .containsOnly(rule);
        }
    }

    @Test
    void the_command_lists_verdicts_and_the_findings_behind_them() {
        String instrument = instrumentOfTheLowest(demo);
        Session.Said said = session.run("whatif", "demo", "--error", instrument + "=±1.5 K");
        assertThat(said.err()).isEmpty();
        assertThat(said.status()).isEqualTo(ExitStatus.PASS);
        assertThat(said.out())
                .contains("demo, if " + instrument + " reads +1.5 K too high:")
                .contains("demo, if " + instrument + " reads −1.5 K too high:")
                .contains("Run 3, steriliser A, empty chamber (OQ): pass → fail")
                .contains("Lowest temperature in the holding time: pass (")
                .contains("runs get another verdict");
        assertThat(session.run("whatif", "demo", "--error", instrument + "=+1.5 K", "--plain")
                        .out())
                .contains("\trun\t3\tpass\tfail\n")
                .contains("\tfinding\t3\tlowest-temperature\t");
    }

    @Test
    void a_folder_of_visits_is_looked_through_whole() throws IOException {
        Path visits = folder.resolve("visits");
        Session own = new Session(folder);
        Files.createDirectories(visits);
        own.run("demo", "--out", "visits/one", "--no-report");
        own.run("demo", "--out", "visits/two", "--no-report");
        Files.createDirectories(visits.resolve("three"));
        Files.writeString(visits.resolve("three/visit.yaml"), "steamwright-visit: 1\n");
        Session.Said said = own.run("whatif", "visits", "--criteria", "us-cdc");
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(said.out())
                .contains("visits/one, if judged by us-cdc")
                .contains("visits/two, if judged by us-cdc")
                .contains("3 visits found, 1 of them can't be read; judged 2 times");
        assertThat(said.err()).contains("visits/three").contains("line");
    }

    @Test
    void nothing_is_written() throws IOException {
        byte[] before = Files.readAllBytes(folder.resolve("demo/result.json"));
        session.run("whatif", "demo", "--rule", "simple");
        assertThat(folder.resolve("demo/result.json")).hasBinaryContent(before);
        assertThat(folder.resolve("demo/report.pdf")).doesNotExist();
    }

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource(delimiter = '|', textBlock = """
            --error | TL-01 | expected a name, an equals sign
            --error | TL-01=0.3 | expected a name, an equals sign
            --error | TL-01=0.3 furlong | the unit is not known here
            --error | TL-99=+0.3 K | is touched by that
            --error | TL-01=+3 kPa | is touched by that
            --clock | TL-01=+3 K | the unit is not known here
            --clock | nobody=+3 s | is touched by that
            --rule | mild | there is no such decision rule
            --formula | mine | there is no such formula
            --criteria | mine | there is no criteria set
            """)
    void says_what_is_wrong_with_a_premise(String option, String value, String words) {
        Session.Said said = session.run("whatif", "demo", option, value);
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(said.err()).contains(words);
        assertThat(said.out()).isEmpty();
    }

    @Test
    void asks_for_a_change_and_for_a_visit() {
        assertThat(session.run("whatif", "demo").err()).contains("nothing is changed");
        Session.Said nowhere = session.run("whatif", "nowhere", "--rule", "simple");
        assertThat(nowhere.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(nowhere.err()).contains("there is no such visit");
        assertThat(session.run("whatif", "demo/recordings", "--rule", "simple").err())
                .contains("no visit.yaml");
        Session.Said many = session.run(
                "whatif", "demo", "--error", "a=±1 K", "--error", "b=±1 K", "--error", "c=±1 K", "--error", "d=±1 K",
                "--error", "e=±1 K");
        assertThat(many.err()).contains("at most 4 can be combined");
    }

    private static Finding lowestFinding(AssessedVisit visit) {
        return visit.runs().get(EMPTY_RUN - 1).evaluation().findings().stream()
                .filter(finding -> finding.id() == CriterionId.LOWEST_TEMPERATURE)
                .findFirst()
                .orElseThrow();
    }

    private static double lowest(AssessedVisit visit) {
        return lowestFinding(visit).measured().orElseThrow().value();
    }

    private static String instrumentOfTheLowest(AssessedVisit visit) {
        String channel = lowestFinding(visit).evidence().channels().get(0);
        return visit.runs().get(EMPTY_RUN - 1).evaluation().run().trace().channels().stream()
                .filter(one -> one.name().equals(channel))
                .findFirst()
                .flatMap(one -> one.instrument())
                .orElseThrow();
    }
}
