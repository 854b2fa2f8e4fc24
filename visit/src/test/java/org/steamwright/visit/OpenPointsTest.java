package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;
import static org.steamwright.visit.Invented.LOAD;
import static org.steamwright.visit.Invented.S134;
import static org.steamwright.visit.LoadFindingsTest.indicator;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.register.Person;

class OpenPointsTest {

    final Invented invented = new Invented();

    @Test
    void a_remark_of_rank_doubt_has_to_be_answered_and_a_note_has_not() {
        invented.remarks = List.of(
                new Remark("INTAKE-001", Rank.NOTE, "visit.yaml", "Seen."),
                new Remark("INTAKE-002", Rank.DOUBT, "visit.yaml", "Two loggers bear one label"));
        invented.run(
                TestKind.LOADED,
                B134,
                PASS,
                run -> run.remarks(
                        new Remark("INTAKE-017", Rank.UNUSABLE, "kitchen.csv, row 812", "The clock went back.")));
        assertThat(points())
                .contains(
                        "INTAKE-002 visit.yaml: Two loggers bear one label. To be answered before anybody signs.",
                        "Run 1, INTAKE-017 kitchen.csv, row 812: The clock went back. To be answered before anybody signs.")
                .noneMatch(point -> point.contains("INTAKE-001"));
    }

    @Test
    void awaited_indicators_are_named_by_run() {
        invented.requiresIndicators()
                .run(
                        TestKind.LOADED,
                        B134,
                        PASS,
                        run -> run.indicators(indicator("1", false, "awaited"), indicator("C", true, "grown")));
        assertThat(points())
                .contains("Run 1, biological indicators. Awaited: 1 is not read to the end of incubation yet.");
    }

    @Test
    void as_found_is_what_was_stated_so_however_it_is_written() {
        for (String stage : List.of("as found", "As-Found", "as found, cold")) {
            invented.run(TestKind.LEAK, Invented.LEAK, PASS, run -> run.stage(stage));
        }
        for (String stage : List.of("", "after", "without sensors")) {
            invented.run(TestKind.LEAK, Invented.LEAK, PASS, run -> run.stage(stage));
        }
        assertThat(invented.visit().runs().stream().map(VisitRun::isAsFound))
                .containsExactly(true, true, true, false, false, false);
    }

    @Test
    void a_failure_as_found_concerns_loads_of_the_past() {
        invented.run(TestKind.LEAK, Invented.LEAK, FAIL, run -> run.stage("as found"));
        assertThat(points())
                .contains(
                        "Run 1 failed as found, before the service: loads since the last good evidence are concerned. The clinic looks back and decides.");
    }

    @Test
    void a_load_has_to_be_described_agreed_and_challenged() {
        ReferenceLoad bare = new ReferenceLoad(
                LOAD.description(), LOAD.items(), " ", "", LOAD.packaging(), Optional.empty(), " ", List.of());
        invented.run(TestKind.LOADED, B134, PASS, Invented.Draft::noLoad)
                .run(TestKind.LOADED, B134, PASS, run -> run.load(bare));
        assertThat(points())
                .contains(
                        "Run 1: the load is not described, so nobody can say later what is covered.",
                        "Run 2: nobody of the clinic has agreed that nothing larger or harder than this load will be run.",
                        "Run 2: no challenge pack is named.");
    }

    @Test
    void a_cycle_of_type_s_is_compared_with_the_makers_list() {
        invented.cycles = List.of(S134);
        invented.run(TestKind.LOADED, S134, PASS);
        assertThat(points())
                .contains(
                        "Cycle ‘Special 134’ is of type S: only loads on the maker's list are covered; compare the load with it.");
    }

    @Test
    void every_machine_cycle_between_arrival_and_departure_has_to_be_explained() {
        invented.counterAtArrival = OptionalInt.of(1000);
        invented.counterAtDeparture = OptionalInt.of(1009);
        cycle(1001).cycle(1003).cycle(1006);
        assertThat(points())
                .contains(
                        "Steriliser EX-0001: cycle 1002 between run 1 and run 2 is not explained. Name the number in a note and say what it was.",
                        "Steriliser EX-0001: cycles 1004 to 1005 between run 2 and run 3 are not explained. Name the first and the last number in a note and say what they were.",
                        "Steriliser EX-0001: cycles 1007 to 1009 between run 3 and departure are not explained. Name the first and the last number in a note and say what they were.");
    }

    @Test
    void numbers_without_holes_need_no_explanation() {
        invented.counterAtArrival = OptionalInt.of(1000);
        invented.counterAtDeparture = OptionalInt.of(1003);
        cycle(1001).cycle(1002).cycle(1003);
        assertThat(points()).noneMatch(point -> point.contains("explained") || point.contains("come after"));
    }

    @Test
    void a_run_whose_number_was_not_read_takes_one_number() {
        cycle(1001);
        invented.empty(PASS);
        cycle(1003);
        assertThat(points()).noneMatch(point -> point.contains("explained"));
    }

    @Test
    void a_note_that_names_the_number_explains_it() {
        cycle(1001);
        invented.run(
                TestKind.EMPTY_CHAMBER,
                B134,
                PASS,
                run -> run.machineCycle(1003).note("1002 was a warm-up cycle without sensors"));
        assertThat(points()).noneMatch(point -> point.contains("explained"));
    }

    @Test
    void a_deviation_that_names_both_ends_explains_a_longer_gap() {
        invented.deviations = List.of("Cycles 1002 to 1004 were the user's own loads.");
        cycle(1001).cycle(1005);
        assertThat(points()).noneMatch(point -> point.contains("explained"));
    }

    @Test
    void a_longer_number_that_only_contains_the_missing_one_explains_nothing() {
        invented.deviations = List.of("Part number 21002.");
        cycle(1001).cycle(1003);
        assertThat(points()).anyMatch(point -> point.contains("cycle 1002 between run 1 and run 2"));
    }

    @Test
    void a_counter_that_goes_back_is_asked_about() {
        cycle(1001).cycle(3);
        assertThat(points())
                .contains(
                        "Steriliser EX-0001: the cycle number at run 2 does not come after the one at run 1. Was the counter reset or misread?");
    }

    @Test
    void the_same_number_twice_is_asked_about() {
        cycle(1001).cycle(1001);
        assertThat(points()).anyMatch(point -> point.contains("does not come after"));
    }

    @Test
    void missing_lists_are_named_for_each_sterilizer() {
        invented.checklists = List.of();
        assertThat(points())
                .contains(
                        "Steriliser EX-0001: no list of installation qualification (IQ).",
                        "Steriliser EX-0001: no list of preventive maintenance.",
                        "Steriliser EX-0001: no list of the state as found.",
                        "Steriliser EX-0001: no list of electrical and pressure safety.",
                        "Steriliser EX-0001: no steam penetration test, and a cycle of type B is in use.");
        invented.cycles = List.of(Invented.N134);
        assertThat(points()).noneMatch(point -> point.contains("penetration"));
    }

    @Test
    void a_check_with_a_bad_result_is_named_with_its_remark() {
        invented.checklists = List.of(new Checklist(
                Checklist.Section.SAFETY,
                "A",
                List.of(
                        new CheckItem("door interlock", "Failed", "switch worn", "", "", "", ""),
                        new CheckItem("protective earth", "good", "", "", "", "", ""))));
        assertThat(points())
                .contains("Steriliser EX-0001, Electrical and pressure safety: door interlock – Failed. switch worn.")
                .noneMatch(point -> point.contains("protective earth"));
    }

    @Test
    void a_single_recording_is_a_verdict_of_itself_only() {
        invented.clinic = Optional.empty();
        invented.checklists = List.of();
        assertThat(points())
                .contains(
                        "A single recording: no clinic, no installation, no maintenance is on record, so this is the verdict of the recording and of nothing else.")
                .noneMatch(point -> point.contains("no list of"))
                .noneMatch(point -> point.contains("review"));
    }

    @Test
    void a_technician_who_reviews_alone_is_no_independent_review() {
        invented.people = List.of(
                new Person("Alex Example", "technician", "", "", ""),
                new Person(" alex example", "Reviewer", "", "", ""));
        assertThat(points()).contains("No independent review: nobody but the technician has looked at this.");
        invented.people = List.of();
        assertThat(points()).contains("No independent review: nobody but the technician has looked at this.");
    }

    @Test
    void a_large_chamber_belongs_to_other_documents() {
        invented.litres = Optional.of(60.0);
        assertThat(points())
                .contains(
                        "Steriliser EX-0001 has a chamber of 60 L or more: documents for small sterilisers do not apply to it.");
        invented.litres = Optional.of(59.9);
        assertThat(points()).noneMatch(point -> point.contains("60 L"));
    }

    @Test
    void a_run_without_a_recording_keeps_its_number_and_is_told_and_the_others_are_assessed() {
        invented.run(TestKind.EMPTY_CHAMBER, B134, PASS, run -> run.machineCycle(1001))
                .unrecorded(TestKind.LOADED, B134, 1002)
                .run(TestKind.LOADED, B134, PASS, run -> run.machineCycle(1003));
        invented.counterAtArrival = OptionalInt.of(1000);
        AssessedVisit assessed = invented.assessed();
        assertThat(assessed.runs()).extracting(run -> run.run().number()).containsExactly(1, 3);
        assertThat(assessed.find(2)).isEmpty();
        assertThat(assessed.find(3)).contains(assessed.runs().get(1));
        assertThat(assessed.openPoints())
                .contains("Run 2: no recording yet, so nothing of it is assessed.")
                .as("its cycle is explained by it")
                .noneMatch(point -> point.contains("cycle 1002"));
        assertThat(CycleBook.of(invented.visit(), invented.visit().getSterilizer("A"))
                        .lines(1002, 1002))
                .extracting(CycleLedger.Line::what)
                .containsExactly("run 2, reference load, Wrapped 134");
    }

    @Test
    void a_load_that_nobody_weighed_is_told_where_the_moisture_decides_and_nowhere_else() {
        String point = "Run 1: no pack was weighed before and after, but the criteria set judges the moisture left.";
        invented.run(TestKind.LOADED, B134, PASS);
        assertThat(points()).doesNotContain(point);
        invented.requires(CriterionId.LOAD_DRYNESS, Use.REPORTS, Optional.of(Invented.atMostPercent(2)));
        assertThat(points()).doesNotContain(point);
        invented.requires(CriterionId.LOAD_DRYNESS, Use.DECIDES, Optional.of(Invented.atMostPercent(2)))
                .run(
                        TestKind.LOADED,
                        B134,
                        PASS,
                        run -> run.weighings(new Weighing("pack 1", Weighing.Kind.SOLID, 500, 500.5)));
        assertThat(points()).contains(point).noneMatch(one -> one.startsWith("Run 2: no pack was weighed"));
    }

    @Test
    void an_awaited_answer_wants_a_last_day_of_the_interim_report_also_without_a_job_sheet() {
        invented.requiresIndicators()
                .run(
                        TestKind.LOADED,
                        B134,
                        PASS,
                        run -> run.indicators(indicator("1", false, "awaited"), indicator("C", true, "grown")));
        assertThat(invented.visit().job().isEmpty()).isTrue();
        assertThat(points())
                .contains(
                        "An answer is awaited and no last day of the interim report is stated. State until when it stands.");
    }

    @Test
    void a_visit_without_a_day_has_no_end_of_validity() {
        invented.date = Optional.empty();
        assertThat(points()).contains("The day of the visit is not stated, so no end of validity can be given.");
    }

    private OpenPointsTest cycle(int number) {
        invented.run(TestKind.EMPTY_CHAMBER, B134, PASS, run -> run.machineCycle(number));
        return this;
    }

    @Test
    void each_point_knows_where_it_is_mended_whatever_people_wrote_in_it() {
        ReferenceLoad bare = new ReferenceLoad(
                LOAD.description(), LOAD.items(), " ", "", LOAD.packaging(), Optional.empty(), "not yet", List.of());
        invented.run(TestKind.LOADED, B134, PASS, run -> run.load(bare)).leak("as found", FAIL);
        invented.checklists = new ArrayList<>(List.of(
                Invented.checklist(Checklist.Section.AS_FOUND, "the load indicator", "failed"),
                Invented.checklist(Checklist.Section.INSTALLATION, "maintenance of the safety valve", "so lala")));
        invented.job.conditions.add(new PassCondition(
                "A",
                "",
                "look at the indicator",
                "practice manager",
                Optional.of(LocalDate.of(2027, 1, 1)),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.empty()));
        Map<String, Where> where = new LinkedHashMap<>();
        invented.assessed().points().forEach(point -> where.put(point.sentence(), point.where()));

        assertThat(where)
                .containsEntry(
                        "Run 1: nobody of the clinic has agreed that nothing larger or harder than this load will be run.",
                        Where.of(Where.Part.LOAD, "runs", 1, "load", "agreed-by"))
                .containsEntry(
                        "Steriliser EX-0001, As found: the load indicator – failed.",
                        Where.of(Where.Part.AS_FOUND, "checklists", 1, "items", 1, "result"))
                .containsEntry(
                        "Steriliser EX-0001: no list of preventive maintenance.", Where.of(Where.Part.MAINTENANCE))
                .containsEntry(
                        "Run 2 failed as found, before the service: loads since the last good evidence are concerned. The clinic looks back and decides.",
                        Where.of(Where.Part.RUNS, "runs", 2));
        assertThat(where.keySet())
                .anySatisfy(sentence -> {
                    assertThat(sentence).contains("maintenance of the safety valve – ‘so lala’");
                    assertThat(where.get(sentence))
                            .isEqualTo(Where.of(Where.Part.INSTALLATION, "checklists", 2, "items", 1, "result"));
                })
                .anySatisfy(sentence -> {
                    assertThat(sentence).startsWith("On condition: look at the indicator.");
                    assertThat(where.get(sentence)).isEqualTo(Where.of(Where.Part.FAILURES));
                });
    }

    @Test
    void a_day_a_time_and_a_quantity_in_a_note_are_no_numbers_of_cycles() {
        for (String note : List.of("ambient 1002 hPa", "read at 10:02", "1002.5 as shown", "until 1002-01-01")) {
            Invented those = new Invented();
            those.run(TestKind.LOADED, B134, PASS, run -> run.machineCycle(1001))
                    .run(
                            TestKind.LOADED,
                            B134,
                            PASS,
                            run -> run.machineCycle(1003).note(note));
            assertThat(those.assessed().openPoints())
                    .as(note)
                    .anyMatch(point -> point.contains("cycle 1002 between run 1 and run 2 is not explained"));
        }
    }

    @Test
    void a_word_for_nobody_is_no_name_and_a_role_is_not_read_by_its_letters() {
        for (String nobody : List.of("-", "not yet", "niemand", "N. N.", "pas encore")) {
            assertThat(Words.isName(nobody)).as(nobody).isEqualTo(nobody.equals("N. N."));
        }
        for (String role : List.of("to be reviewed", "no reviewer", "reviews nothing", "nicht Prüfer")) {
            invented.people =
                    List.of(new Person("Alex Example", "technician", "", "", ""), new Person("Kim", role, "", "", ""));
            assertThat(points())
                    .as(role)
                    .contains("No independent review: nobody but the technician has looked at this.");
        }
        invented.people = List.of(
                new Person("Alex Example", "technician", "", "", ""),
                new Person("Alex  Example.", "independent reviewer", "", "", ""));
        assertThat(points()).contains("No independent review: nobody but the technician has looked at this.");
        invented.people = List.of(
                new Person("Alex Example", "technician", "", "", ""),
                new Person("Kim Sample", "independent reviewer", "", "", ""));
        assertThat(points()).noneMatch(point -> point.startsWith("No independent review"));
    }

    private List<String> points() {
        return invented.assessed().openPoints();
    }
}
