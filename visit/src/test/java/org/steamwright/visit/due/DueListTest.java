package org.steamwright.visit.due;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.steamwright.visit.register.InventedRegister.day;

import java.time.Instant;
import java.time.LocalDate;
import java.time.Period;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.InventedRegister;
import org.steamwright.visit.register.InventedRegister.Machine;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;
import org.steamwright.visit.register.Week;

class DueListTest {

    static final Source SOURCE =
            new Source("invented rule", "", "", Source.Provenance.COMMON_PRACTICE, Source.Confidence.MEDIUM, "");

    static DueRule rule(Duty duty, Period every) {
        return new DueRule(
                duty.word(),
                duty,
                Optional.of(every),
                OptionalLong.empty(),
                OptionalLong.empty(),
                Period.ZERO,
                false,
                false,
                SOURCE);
    }

    static DueRule count(Duty duty, long cycles) {
        return new DueRule(
                duty.word() + "-count",
                duty,
                Optional.empty(),
                OptionalLong.of(cycles),
                OptionalLong.empty(),
                Period.ZERO,
                false,
                false,
                SOURCE);
    }

    static DueRules rules(DueRule... rules) {
        return new DueRules(List.of(new DueRules.RuleSet("common", "Common", "", List.of(rules))));
    }

    static final DueRules YEARLY = rules(rule(Duty.VALIDATION, Period.ofMonths(12)));

    static Due only(Machine machine, DueRules rules, String today) {
        return DueList.of(machines(machine.build()), rules, day(today)).get(0);
    }

    static Register machines(SterilizerRecord... machines) {
        return new Register(
                List.of(InventedRegister.clinic("", Week.USUAL)),
                List.of(machines),
                List.of(),
                List.of(),
                List.of(),
                List.of());
    }

    @ParameterizedTest(name = "{0} and {1}: {2}")
    @CsvSource({
        "2025-03-31, P1M,  2025-04-30, the month is shorter: its last day",
        "2024-02-29, P12M, 2025-02-28, no 29 February next year",
        "2023-02-28, P12M, 2024-02-28, not moved to the end of a leap February",
        "2025-01-31, P1M,  2025-02-28, the last day of February",
        "2024-01-31, P1M,  2024-02-29, leap year",
        "2024-12-31, P14M, 2026-02-28, fourteen months over two turns of the year",
        "2025-06-15, P2W,  2025-06-29, weeks are days",
        "2024-02-28, P1Y,  2025-02-28, a year",
    })
    void a_date_rule_counts_months_as_calendars_do(LocalDate last, Period every, LocalDate due, String why) {
        Due found = only(
                new Machine().did(Duty.VALIDATION, last.toString()), rules(rule(Duty.VALIDATION, every)), "2025-01-01");
        assertThat(found.day()).as(why).contains(due);
    }

    @ParameterizedTest(name = "on {0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "2026-02-27 | AHEAD   | due in 3 days, on 2026-03-02",
                "2026-03-01 | AHEAD   | due in 1 day, on 2026-03-02",
                "2026-03-02 | TODAY   | due today",
                "2026-03-03 | OVERDUE | overdue since 2026-03-03 (1 day)",
                "2026-04-01 | OVERDUE | overdue since 2026-03-03 (30 days)",
            })
    void the_day_itself_is_still_in_time(String today, Due.Urgency urgency, String words) {
        Due due = only(new Machine().did(Duty.VALIDATION, "2025-03-02"), YEARLY, today);
        assertThat(due.urgency()).isEqualTo(urgency);
        assertThat(due.when()).isEqualTo(words);
    }

    @Test
    void a_tolerance_is_stated_and_ends() {
        DueRules rules = rules(new DueRule(
                "quarterly",
                Duty.PERIODIC_TEST,
                Optional.of(Period.ofMonths(3)),
                OptionalLong.empty(),
                OptionalLong.empty(),
                Period.ofWeeks(2),
                false,
                false,
                SOURCE));
        Machine machine = new Machine().did(Duty.PERIODIC_TEST, "2026-01-10");
        assertThat(only(machine, rules, "2026-04-24").when())
                .isEqualTo("was due on 2026-04-10, tolerated until 2026-04-24");
        assertThat(only(machine, rules, "2026-04-25").when())
                .as("overdue is counted from the day, not from the end of the tolerance")
                .isEqualTo("overdue since 2026-04-11 (15 days)");
    }

    @Test
    void a_list_up_to_a_day_holds_what_is_due_on_it_and_what_nothing_shows() {
        Due dated = only(new Machine().did(Duty.VALIDATION, "2025-03-02"), YEARLY, "2026-01-01");
        assertThat(dated.concerns(day("2026-03-01"))).isFalse();
        assertThat(dated.concerns(day("2026-03-02"))).isTrue();
        assertThat(only(new Machine(), YEARLY, "2026-01-01").concerns(day("2000-01-01")))
                .isTrue();
    }

    /** Two rules for one duty: one with a tolerance that comes first, one without that comes a month later. */
    @ParameterizedTest(name = "on {0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "2026-03-31 | AHEAD     | due in 10 days, on 2026-04-10",
                "2026-04-11 | TOLERATED | was due on 2026-04-10, tolerated until 2026-06-10",
                "2026-05-10 | TOLERATED | was due on 2026-04-10, tolerated until 2026-06-10",
                "2026-05-11 | OVERDUE   | overdue since 2026-05-11 (1 day)",
                "2026-06-11 | OVERDUE   | overdue since 2026-04-11 (62 days)",
            })
    void the_tolerance_of_one_rule_is_none_for_another(String today, Due.Urgency urgency, String words) {
        DueRules rules = rules(
                new DueRule(
                        "quarterly",
                        Duty.PERIODIC_TEST,
                        Optional.of(Period.ofMonths(3)),
                        OptionalLong.empty(),
                        OptionalLong.empty(),
                        Period.ofMonths(2),
                        false,
                        false,
                        SOURCE),
                rule(Duty.PERIODIC_TEST, Period.ofMonths(4)));
        Due due = only(new Machine().did(Duty.PERIODIC_TEST, "2026-01-10"), rules, today);
        assertThat(due.urgency()).isEqualTo(urgency);
        assertThat(due.when()).isEqualTo(words);
    }

    @Test
    void what_nothing_shows_as_done_is_due_at_once_and_stands_first() {
        List<Due> list = DueList.of(
                machines(
                        new Machine().did(Duty.VALIDATION, "2020-01-01").build(),
                        new Machine().named("ST-02", "SN-9").build()),
                YEARLY,
                day("2026-03-02"));
        assertThat(list).extracting(due -> due.subject().id()).containsExactly("ST-02", "ST-01");
        assertThat(list.get(0).when()).isEqualTo("due now, never recorded as done");
        assertThat(list.get(0).urgency()).isEqualTo(Due.Urgency.NO_EVIDENCE);
    }

    static Counter monthly(long first, long step, int count) {
        List<Counter.Reading> readings = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            readings.add(new Counter.Reading(day("2025-03-03").plusWeeks(4L * i), first + step * i, ""));
        }
        return new Counter(readings, List.of());
    }

    @Test
    void a_count_that_comes_first_brings_the_date_forward_and_says_so() {
        Due due = only(
                new Machine().did(Duty.VALIDATION, "2025-03-03").with(monthly(1000, 200, 4)),
                rules(rule(Duty.VALIDATION, Period.ofMonths(12)), count(Duty.VALIDATION, 1000)),
                "2025-06-01");
        assertThat(due.first().cause()).isEqualTo(Candidate.Cause.COUNT);
        assertThat(due.day()).as("400 cycles at 10 a day after 26 May").contains(day("2025-07-21"));
        assertThat(due.when())
                .matches("due in 50 days, on 2025-07-21; forecast between 2025-0\\d-\\d\\d and 2025-0\\d-\\d\\d");
        assertThat(due.reasons()).hasSize(2);
        assertThat(due.reasons().get(0).reason()).isEqualTo("12 months after 2025-03-03");
        assertThat(due.concerns(day("2025-07-18")))
                .as("the early end of the forecast lies before")
                .isTrue();
        assertThat(due.concerns(day("2025-06-20"))).isFalse();
    }

    @Test
    void a_count_already_reached_is_overdue_since_the_reading_that_shows_it() {
        Due due = only(
                new Machine().did(Duty.SERVICE, "2025-03-03").with(monthly(1000, 200, 4)),
                rules(count(Duty.SERVICE, 400)),
                "2025-06-01");
        assertThat(due.when()).isEqualTo("overdue since 2025-04-29 (34 days)");
        assertThat(due.first().reason()).isEqualTo("400 cycles after 2025-03-03: reached by the reading of 2025-04-28");
    }

    @Test
    void a_count_without_enough_readings_is_not_known_and_never_a_date() {
        Due due = only(
                new Machine().did(Duty.SERVICE, "2025-03-03").with(monthly(1000, 200, 2)),
                rules(count(Duty.SERVICE, 4000)),
                "2025-06-01");
        assertThat(due.urgency()).isEqualTo(Due.Urgency.NOT_KNOWN);
        assertThat(due.first().reason())
                .isEqualTo("4000 cycles after 2025-03-03: the day is not known, only 2 counter readings, at least 3 are"
                        + " needed");
        assertThat(due.concerns(day("2025-06-01")))
                .as("not known is never put off")
                .isTrue();
        assertThat(only(
                                new Machine().did(Duty.SERVICE, "2025-03-01").with(monthly(1000, 200, 4)),
                                rules(count(Duty.SERVICE, 400)),
                                "2025-06-01")
                        .first()
                        .reason())
                .isEqualTo("400 cycles after 2025-03-01: no counter reading of that day or before is known");
    }

    @Test
    void a_rule_for_much_used_machines_leaves_the_others_alone() {
        DueRule half = new DueRule(
                "busy",
                Duty.VALIDATION,
                Optional.of(Period.ofMonths(6)),
                OptionalLong.empty(),
                OptionalLong.of(1500),
                Period.ZERO,
                false,
                false,
                SOURCE);
        DueRules rules = rules(rule(Duty.VALIDATION, Period.ofMonths(12)), half);
        Machine busy = new Machine().did(Duty.VALIDATION, "2025-03-03").with(monthly(1000, 200, 4));
        assertThat(only(busy, rules, "2025-06-01").day()).contains(day("2025-09-03"));
        assertThat(only(busy, rules, "2025-06-01").first().reason())
                .isEqualTo("6 months after 2025-03-03, for a use of about 2610 cycles a year (from 1500)");
        Machine quiet = new Machine().did(Duty.VALIDATION, "2025-03-03").with(monthly(1000, 50, 4));
        assertThat(only(quiet, rules, "2025-06-01").day()).contains(day("2026-03-03"));
    }

    @Test
    void an_agreed_interval_takes_the_place_of_the_rules_with_its_own_reason() {
        Due due = only(
                new Machine()
                        .did(Duty.VALIDATION, "2025-03-03")
                        .with(new SterilizerRecord.OwnInterval(
                                Duty.VALIDATION, Optional.of(Period.ofMonths(6)), OptionalLong.empty(), "contract 12")),
                YEARLY,
                "2025-06-01");
        assertThat(due.day()).contains(day("2025-09-03"));
        assertThat(due.first().source().document()).isEqualTo("contract 12");
        assertThat(due.first().source().provenance()).isEqualTo(Source.Provenance.USER);
    }

    @Test
    void a_change_a_move_and_other_firmware_end_the_validated_state_until_it_is_validated_again() {
        Machine machine = new Machine()
                .did(Duty.VALIDATION, "2025-03-03")
                .with(new SterilizerRecord.ChangeMade(
                        day("2025-04-01"), "heater-generator", "generator exchanged", Optional.empty()))
                .with(new SterilizerRecord.Movement(day("2025-05-01"), "R-1", "R-2", "to the second floor"))
                .with(new SterilizerRecord.Firmware("2.1", day("2024-01-01"), ""))
                .with(new SterilizerRecord.Firmware("2.2", day("2025-05-20"), "from afar"));
        Due due = only(machine, YEARLY, "2025-06-01");
        assertThat(due.first().cause()).isEqualTo(Candidate.Cause.EVENT);
        assertThat(due.reasons())
                .extracting(Candidate::reason)
                .containsExactly(
                        "12 months after 2025-03-03",
                        "changed on 2025-04-01: generator exchanged, not validated since",
                        "moved on 2025-05-01: to the second floor, not validated since",
                        "firmware 2.2 in place of 2.1 since 2025-05-20, not validated since");
        assertThat(due.when()).isEqualTo("overdue since 2025-04-02 (61 days)");
        assertThat(only(machine.did(Duty.VALIDATION, "2025-05-20"), YEARLY, "2025-06-01")
                        .reasons())
                .as("a validation on the day of the change comes after it")
                .hasSize(1);
    }

    @Test
    void a_settled_change_and_one_to_come_are_no_events() {
        Machine machine = new Machine()
                .did(Duty.VALIDATION, "2025-03-03")
                .with(new SterilizerRecord.ChangeMade(
                        day("2025-04-01"), "seal-filter-hose", "door seal", Optional.of(day("2025-04-01"))))
                .with(new SterilizerRecord.ChangeMade(day("2025-08-01"), "moved-site", "planned", Optional.empty()));
        assertThat(only(machine, YEARLY, "2025-06-01").reasons()).hasSize(1);
    }

    @Test
    void a_condition_lapses_by_its_day_or_its_count() {
        Machine machine = new Machine()
                .did(Duty.VALIDATION, "2025-03-03")
                .with(monthly(1000, 200, 4))
                .with(new SterilizerRecord.PassCondition(
                        "second control pack",
                        "practice manager",
                        day("2025-12-31"),
                        OptionalLong.of(1700),
                        Optional.empty()));
        List<Due> list = DueList.of(machines(machine.build()), YEARLY, day("2025-06-01"));
        Due condition = list.stream()
                .filter(due -> due.title().startsWith("Condition"))
                .findFirst()
                .orElseThrow();
        assertThat(condition.title()).isEqualTo("Condition of the pass: second control pack");
        assertThat(condition.day()).as("100 cycles at 10 a day after 26 May").contains(day("2025-06-09"));
        assertThat(condition.reasons()).hasSize(2);
    }

    @Test
    void the_pressure_paper_counts_beside_the_rule_and_the_sooner_holds() {
        DueRules rules = rules(rule(Duty.PRESSURE_EXAMINATION, Period.ofMonths(14)));
        Machine machine = new Machine()
                .with(new SterilizerRecord.PressurePaper(
                        "PV-7", day("2025-01-15"), Optional.of(day("2026-01-31")), "body"));
        Due due = only(machine, rules, "2025-06-01");
        assertThat(due.first().cause()).isEqualTo(Candidate.Cause.CERTIFICATE);
        assertThat(due.day()).contains(day("2026-01-31"));
        assertThat(due.reasons())
                .extracting(Candidate::day)
                .containsExactly(Optional.of(day("2026-03-15")), Optional.of(day("2026-01-31")));
    }

    @Test
    void several_duties_of_one_machine_stand_beside_each_other() {
        List<Due> list = DueList.of(
                machines(new Machine()
                        .did(Duty.VALIDATION, "2025-03-03")
                        .did(Duty.ELECTRICAL_TEST, "2024-03-03")
                        .build()),
                rules(rule(Duty.VALIDATION, Period.ofMonths(12)), rule(Duty.ELECTRICAL_TEST, Period.ofMonths(24))),
                day("2025-06-01"));
        assertThat(list).extracting(Due::title).containsExactly("Electrical safety test", "Validation");
    }

    @Test
    void machines_in_store_have_nothing_due_and_those_out_of_service_have() {
        assertThat(DueList.of(
                        machines(
                                new Machine()
                                        .standing(SterilizerRecord.Status.STORED)
                                        .build(),
                                new Machine()
                                        .named("ST-02", "2")
                                        .standing(SterilizerRecord.Status.DISPOSED)
                                        .build(),
                                new Machine()
                                        .named("ST-03", "3")
                                        .standing(SterilizerRecord.Status.OUT_OF_SERVICE)
                                        .build()),
                        YEARLY,
                        day("2025-06-01")))
                .extracting(due -> due.subject().id())
                .containsExactly("ST-03");
    }

    @Test
    void each_site_has_its_own_today() {
        Machine machine = new Machine().did(Duty.VALIDATION, "2025-03-02");
        Instant moment = Instant.parse("2026-03-02T14:00:00Z");
        assertThat(DueList.of(machines(machine.build()), YEARLY, Today.of(moment), ZoneOffset.UTC)
                        .get(0)
                        .when())
                .as("at the site in Adelaide it is 3 March already")
                .isEqualTo("overdue since 2026-03-03 (1 day)");
        assertThat(DueList.of(machines(machine.in("").build()), YEARLY, Today.of(moment), ZoneOffset.UTC)
                        .get(0)
                        .when())
                .as("a machine in the workshop goes by the office")
                .isEqualTo("due today");
    }

    @Test
    void testers_are_calibrated_like_instruments() {
        Tester never = new Tester("ET-0", "", "", List.of());
        Tester kept = new Tester(
                "ET-1",
                "tester (invented)",
                "",
                List.of(
                        new Tester.Certificate("K-1", "", LocalDate.parse("2025-01-10"), LocalDate.parse("2026-01-10")),
                        new Tester.Certificate(
                                "K-0", "", LocalDate.parse("2024-01-10"), LocalDate.parse("2025-01-10"))));
        Register register =
                new Register(List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of(kept, never));
        assertThat(DueList.of(register, YEARLY, LocalDate.parse("2026-01-11")))
                .extracting(due -> due.subject().id() + " " + due.title() + ": " + due.when())
                .containsExactly(
                        "ET-0 Calibration: due now, never recorded as done",
                        "ET-1 Calibration: overdue since 2026-01-11 (1 day)");
    }

    @Test
    void instruments_and_competences_run_out_too() {
        List<Due> list = DueList.of(InventedRegister.register(), YEARLY, day("2026-12-01"));
        assertThat(list)
                .extracting(due -> due.subject().id() + ": " + due.when())
                .containsExactly(
                        "PL-11: overdue since 2026-12-01 (1 day)",
                        "TL-11: overdue since 2026-12-01 (1 day)",
                        "KS: due in 30 days, on 2026-12-31");
    }

    @Test
    void rules_of_a_vacuum_and_of_recorded_duties_hold_only_there() {
        DueRules rules = rules(new DueRule(
                "daily-leak",
                Duty.LEAK_TEST,
                Optional.of(Period.ofDays(1)),
                OptionalLong.empty(),
                OptionalLong.empty(),
                Period.ZERO,
                true,
                true,
                SOURCE));
        assertThat(DueList.of(machines(new Machine().build()), rules, day("2025-06-01")))
                .isEmpty();
        assertThat(DueList.of(
                        machines(new Machine()
                                .running(InventedRegister.OPEN)
                                .did(Duty.LEAK_TEST, "2025-05-30")
                                .build()),
                        rules,
                        day("2025-06-01")))
                .isEmpty();
        assertThat(only(new Machine().did(Duty.LEAK_TEST, "2025-05-30"), rules, "2025-06-01")
                        .when())
                .isEqualTo("overdue since 2025-06-01 (1 day)");
    }

    @Test
    void a_set_built_on_another_replaces_rules_of_the_same_id() {
        DueRules rules = new DueRules(List.of(
                new DueRules.RuleSet(
                        "common",
                        "",
                        "",
                        List.of(rule(Duty.VALIDATION, Period.ofMonths(12)), rule(Duty.SERVICE, Period.ofMonths(12)))),
                new DueRules.RuleSet("de", "", "common", List.of(rule(Duty.VALIDATION, Period.ofMonths(24))))));
        assertThat(rules.find("de").orElseThrow())
                .extracting(rule -> rule.id() + " " + rule.every().orElseThrow())
                .containsExactly("validation P24M", "service P12M");
        assertThat(rules.find("")).isEqualTo(rules.find("common"));
        assertThat(rules.find("mars")).isEmpty();
    }

    @Test
    void a_site_with_unknown_rules_is_refused() {
        Register register = new Register(
                List.of(InventedRegister.clinic("mars", Week.USUAL)),
                List.of(new Machine().build()),
                List.of(),
                List.of(),
                List.of(),
                List.of());
        assertThatIllegalArgumentException()
                .isThrownBy(() -> DueList.of(register, YEARLY, day("2025-06-01")))
                .withMessage("no set of due rules is called mars; there are common");
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        "P12M, 12 months",
        "P1M, 1 month",
        "P1Y, 12 months",
        "P1D, 1 day",
        "P3D, 3 days",
        "P7D, 1 week",
        "P2W, 2 weeks",
        "P8D, 8 days",
        "P1M7D, 1 month and 1 week",
        "P2M1D, 2 months and 1 day",
    })
    void a_period_is_said_as_people_say_it(Period period, String words) {
        assertThat(MachineDue.words(period)).isEqualTo(words);
    }

    @Test
    void a_rule_for_much_used_machines_holds_from_its_number_on_and_not_where_the_use_is_not_known() {
        Machine machine = new Machine().did(Duty.VALIDATION, "2025-03-03").with(monthly(1000, 200, 4));
        long use = 2610;
        for (long from : new long[] {use, use + 1}) {
            DueRules rules = rules(new DueRule(
                    "busy",
                    Duty.VALIDATION,
                    Optional.of(Period.ofMonths(6)),
                    OptionalLong.empty(),
                    OptionalLong.of(from),
                    Period.ZERO,
                    false,
                    false,
                    SOURCE));
            assertThat(DueList.of(machines(machine.build()), rules, day("2025-06-01")))
                    .hasSize(from == use ? 1 : 0);
            assertThat(DueList.of(
                            machines(new Machine()
                                    .did(Duty.VALIDATION, "2025-03-03")
                                    .build()),
                            rules,
                            day("2025-06-01")))
                    .as("never read")
                    .isEmpty();
        }
    }

    @Test
    void two_rules_for_a_duty_that_was_never_done_say_so_once_and_before_anything_with_a_day() {
        DueRules rules = rules(rule(Duty.VALIDATION, Period.ofMonths(12)), count(Duty.VALIDATION, 1000));
        Due due = only(
                new Machine()
                        .with(new SterilizerRecord.ChangeMade(
                                day("2025-01-01"), "seal", "door seal", Optional.empty())),
                rules,
                "2025-06-01");
        assertThat(due.reasons())
                .extracting(Candidate::cause)
                .containsExactly(Candidate.Cause.NO_EVIDENCE, Candidate.Cause.EVENT);
        assertThat(due.urgency()).isEqualTo(Due.Urgency.NO_EVIDENCE);
        Candidate dated = due.reasons().get(1);
        assertThat(DueList.first(List.of(dated, due.reasons().get(0)), day("2025-06-01"))
                        .cause())
                .as("in whatever order they come")
                .isEqualTo(Candidate.Cause.NO_EVIDENCE);
    }

    @ParameterizedTest(name = "done on {0}: due on {1}")
    @CsvSource({
        "2025-01-14, 2026-03-15",
        "2025-01-15, 2026-03-15",
        "2025-01-16, 2026-03-16",
    })
    void an_examination_was_done_last_on_the_day_of_its_paper_or_on_a_later_one(String done, LocalDate next) {
        Due due = only(
                new Machine()
                        .did(Duty.PRESSURE_EXAMINATION, done)
                        .with(new SterilizerRecord.PressurePaper("PV-7", day("2025-01-15"), Optional.empty(), "body")),
                rules(rule(Duty.PRESSURE_EXAMINATION, Period.ofMonths(14))),
                "2025-06-01");
        assertThat(due.day()).contains(next);
    }

    @Test
    void a_paper_that_states_its_next_day_speaks_where_no_rule_does() {
        Due due = only(
                new Machine()
                        .did(Duty.VALIDATION, "2025-05-01")
                        .with(new SterilizerRecord.PressurePaper(
                                "PV-7", day("2025-01-15"), Optional.of(day("2026-01-31")), "body")),
                YEARLY,
                "2026-02-15");
        assertThat(due.title()).isEqualTo(Duty.PRESSURE_EXAMINATION.title());
        assertThat(due.when()).isEqualTo("overdue since 2026-02-01 (15 days)");
    }

    @Test
    void a_move_without_words_says_the_day_and_one_out_of_the_house_is_none_yet() {
        Machine moved = new Machine()
                .did(Duty.VALIDATION, "2025-03-03")
                .with(new SterilizerRecord.Movement(day("2025-04-01"), "R-1", "R-2", ""));
        assertThat(only(moved, YEARLY, "2025-06-01").first().reason())
                .isEqualTo("moved on 2025-04-01, not validated since");
        assertThat(only(
                                new Machine()
                                        .did(Duty.VALIDATION, "2025-03-03")
                                        .with(new SterilizerRecord.Movement(day("2025-04-01"), "R-1", "", "workshop")),
                                YEARLY,
                                "2025-06-01")
                        .reasons())
                .hasSize(1);
    }

    private static Technician.Competence competence(
            String from, String until, List<String> families, List<Duty> duties, String document) {
        return new Technician.Competence(
                families, duties, day(from), Optional.ofNullable(until).map(InventedRegister::day), document);
    }

    private static List<String> ends(Technician.Competence... competences) {
        Register register = new Register(
                List.of(),
                List.of(),
                List.of(new Technician("KS", "Kim Sample (invented)", List.of(competences))),
                List.of(),
                List.of(),
                List.of());
        return DueList.of(register, YEARLY, day("2026-06-01")).stream()
                .map(due -> due.first().reason())
                .toList();
    }

    @Test
    void a_competence_is_renewed_by_one_of_as_much_that_ends_later_and_leaves_no_day_between() {
        List<Duty> both = List.of(Duty.VALIDATION, Duty.SERVICE);
        List<Duty> one = List.of(Duty.VALIDATION);
        Technician.Competence old = competence("2024-01-01", "2026-12-31", List.of("small-b"), one, "record 7");
        String ended = "record 7 for validation on small-b ends on 2026-12-31";
        assertThat(ends(old)).containsExactly(ended);
        assertThat(ends(old, competence("2026-06-01", null, List.of(), both, "")))
                .as("without an end, for every model")
                .isEmpty();
        assertThat(ends(old, competence("2027-01-01", null, List.of("small-b", "big"), one, "")))
                .as("from the next day on")
                .isEmpty();
        assertThat(ends(old, competence("2027-01-02", null, List.of("small-b"), one, "")))
                .as("a day without")
                .containsExactly(ended);
        assertThat(ends(old, competence("2026-01-01", null, List.of("big"), one, "")))
                .as("of other machines")
                .containsExactly(ended);
        assertThat(ends(old, competence("2026-01-01", null, List.of(), List.of(Duty.SERVICE), "")))
                .as("for something else")
                .containsExactly(ended);
        assertThat(ends(old, competence("2026-01-01", "2026-12-31", List.of(), one, "")))
                .as("ending on the same day")
                .containsExactly(ended, "the competence for validation on every model ends on 2026-12-31");
        assertThat(ends(old, competence("2026-01-01", "2027-01-01", List.of(), one, "")))
                .as("ending a day later")
                .containsExactly("the competence for validation on every model ends on 2027-01-01");
        Technician.Competence every = competence("2024-01-01", "2026-12-31", List.of(), one, "record 8");
        assertThat(ends(every, competence("2026-01-01", null, List.of("small-b"), one, "")))
                .as("what was for every model is not renewed for one")
                .hasSize(1);
    }

    @Test
    void an_instrument_in_quarantine_is_not_waited_for() {
        ReferenceInstrument logger = InventedRegister.logger("TL-1", Quantity.TEMPERATURE);
        ReferenceInstrument kept = new ReferenceInstrument(
                "TL-2",
                logger.description(),
                logger.quantity(),
                logger.rangeLow(),
                logger.rangeHigh(),
                logger.certificate(),
                logger.contributions(),
                new InstrumentHistory(
                        List.of(),
                        List.of(),
                        List.of(new Quarantine(day("2026-01-01"), Optional.empty(), "fell (invented)"))));
        Register register = new Register(List.of(), List.of(), List.of(), List.of(logger, kept), List.of(), List.of());
        assertThat(DueList.of(register, YEARLY, day("2026-12-01"))).hasSize(1);
    }

    private static DueRule asking(Period every, Long cycles, Period tolerance) {
        return new DueRule(
                "odd",
                Duty.SERVICE,
                Optional.ofNullable(every),
                cycles == null ? OptionalLong.empty() : OptionalLong.of(cycles),
                OptionalLong.empty(),
                tolerance,
                false,
                false,
                SOURCE);
    }

    @Test
    void a_rule_that_asks_for_nothing_or_for_nothing_that_can_be_is_refused() {
        Period day = Period.ofDays(1);
        assertThatIllegalArgumentException()
                .isThrownBy(() -> asking(null, null, Period.ZERO))
                .withMessage("rule odd has neither a time nor a count");
        assertThatIllegalArgumentException().isThrownBy(() -> asking(Period.ZERO, null, Period.ZERO));
        assertThatIllegalArgumentException().isThrownBy(() -> asking(Period.ofDays(-1), 5L, Period.ZERO));
        assertThatIllegalArgumentException().isThrownBy(() -> asking(day, 0L, Period.ZERO));
        assertThatIllegalArgumentException().isThrownBy(() -> asking(day, null, Period.ofDays(-1)));
        assertThat(asking(day, null, day).cycles()).isEmpty();
        assertThat(asking(null, 1L, Period.ZERO).cycles()).hasValue(1);
    }
}
