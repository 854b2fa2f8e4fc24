package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.FAIL;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;
import static org.steamwright.visit.LoadFindingsTest.indicator;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.failure.ChangeMatrix;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.failure.InventedMatrix;
import org.steamwright.visit.failure.Letters;
import org.steamwright.visit.failure.LookBack;
import org.steamwright.visit.failure.RetestScope;
import org.steamwright.visit.job.ChangesSince;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.validity.InterimStanding;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.ValidatedState;

/** What the job sheet adds to the answer of a visit. */
class JobSheetTest {

    static final LocalDate DAY = LocalDate.of(2026, 11, 25);

    final Invented invented = new Invented();

    @Test
    void an_empty_job_sheet_changes_nothing() {
        complete();
        assertThat(invented.assessed().openPoints()).isEmpty();
        assertThat(FailurePath.of(invented.assessed())).isEmpty();
        assertThat(invented.visit().job().isEmpty()).isTrue();
    }

    @Test
    void a_failed_penetration_test_keeps_its_cycle_from_being_run_until_one_passes() {
        complete();
        invented.job.penetration.add(device(PenetrationTest.Result.FAIL, false));
        assertThat(invented.assessed().qualifiedCycles()).isEmpty();
        assertThat(invented.assessed().summary().get(0))
                .isEqualTo(
                        "Nothing may be run on the strength of this visit: the runs pass, but something beside them does not.");
        invented.job.penetration.add(device(PenetrationTest.Result.PASS, false));
        assertThat(invented.assessed().qualifiedCycles()).containsExactly("EX-0001: Wrapped 134");
    }

    @Test
    void a_device_out_of_date_proves_nothing_unless_it_fails() {
        complete();
        invented.job.penetration.add(device(PenetrationTest.Result.PASS, true));
        assertThat(invented.assessed().openPoints())
                .contains(
                        "Steriliser EX-0001, steam penetration test (hollow) in cycle ‘Wrapped-134’: void. Proves nothing: the device of lot L-1 was out of date on the day. Repeat it with a fresh device.");
        invented.job.penetration.add(device(PenetrationTest.Result.FAIL, true));
        assertThat(invented.assessed().qualifiedCycles()).isEmpty();
    }

    @Test
    void a_safety_reading_beyond_its_limit_lets_nothing_be_run_and_opens_no_look_back() {
        complete();
        Task earth = new Task(
                "earth",
                "Protective earth",
                "",
                Optional.of(new Task.TaskLimit(Comparison.AT_MOST, 0.2, "Ω", "local")));
        TaskList list = new TaskList(
                "bench-safety",
                "1",
                "0".repeat(64),
                TaskList.Part.SAFETY,
                "bench",
                "yearly",
                "invented",
                List.of(earth));
        invented.job.tasks.add(new TaskRecord(
                "A",
                list,
                List.of(new TaskEntry(
                        "earth",
                        TaskEntry.Outcome.DONE,
                        "",
                        TaskEntry.Condition.NOT_STATED,
                        Optional.empty(),
                        "",
                        "",
                        Optional.of(0.5),
                        "ET-2"))));
        assertThat(invented.assessed().qualifiedCycles()).isEmpty();
        Failure failure = FailurePath.of(invented.assessed()).get(0);
        assertThat(failure.blame()).isEqualTo(Failure.Blame.DANGER);
        assertThat(failure.lookBack()).isEmpty();
        assertThat(failure.isAllOut()).isTrue();
    }

    @Test
    void moved_or_changed_asks_for_a_new_installation_qualification() {
        complete();
        invented.checklists = List.of(Invented.checklist(Checklist.Section.MAINTENANCE, "door seal", "done"));
        invented.job.changes.add(
                new ChangesSince("A", Optional.of(true), Optional.empty(), Optional.of(false), "into a cupboard"));
        assertThat(invented.assessed().openPoints())
                .contains(
                        "Steriliser EX-0001: nobody answered whether anything was added since last time.",
                        "Steriliser EX-0001 was moved or changed since last time, so its installation is qualified anew and not confirmed.");
    }

    @Test
    void a_condition_is_said_beside_the_answer_and_a_silent_renewal_counts_as_lapsed() {
        complete();
        invented.job.conditions.add(condition("Fit a new air filter", Optional.empty()));
        assertThat(invented.assessed().qualifiedCycles()).hasSize(1);
        assertThat(invented.assessed().summary())
                .contains(
                        "On condition, to be put right by practice manager up to and including 25 December 2026: Fit a new air filter.");
        invented.job.earlierConditions.add("fit a  new air-filter");
        assertThat(invented.assessed().qualifiedCycles()).isEmpty();
        invented.job.conditions.set(
                0,
                condition(
                        "Fit a new air filter",
                        Optional.of(new PassCondition.Renewal("R-0", "not delivered", "Robin Example"))));
        assertThat(invented.assessed().qualifiedCycles()).hasSize(1);
        assertThat(invented.assessed().openPoints())
                .anyMatch(point -> point.contains("Renewed from report R-0: not delivered. Agreed by Robin Example."));
    }

    @Test
    void a_load_above_the_makers_maximum_qualifies_nothing() {
        invented.leak("without sensors", PASS).empty(PASS);
        for (int i = 0; i < 3; i++) {
            invented.run(TestKind.LOADED, B134, PASS, run -> run.load(heavy(4.2)));
        }
        invented.job.loads.add(frame(4.0, List.of(), Optional.empty()));
        AssessedVisit assessed = invented.assessed();
        assertThat(assessed.qualifiedCycles()).isEmpty();
        assertThat(ValidatedState.of(assessed).get(0).cycles().get(0).reasons())
                .containsExactly(
                        "The load of 4.20 kg is above the maker's maximum of 4.00 kg (instructions for use). A pass with it qualifies nothing; test a load within the maximum.");
    }

    @ParameterizedTest(name = "owned {0}, in the load {1}: missing {2}")
    @CsvSource({
        "hollow A, hollow A, false",
        "hollow A, hollow B, true",
        "hollow B, hollow A, false",
        "porous,   hollow A, true",
        "solid,    hollow B, false",
    })
    void what_the_clinic_owns_and_the_load_lacks_is_said(String owned, String tested, boolean isMissing) {
        ReferenceLoad load = Invented.load("one tray", tested, "single pouch");
        assertThat(LoadComparison.of(load, Optional.of(frame(9, List.of(owned), Optional.empty()))))
                .extracting(LoadComparison.LoadRemark::kind)
                .satisfies(kinds -> assertThat(kinds.contains(LoadComparison.Kind.LACKS_OWNED_ITEMS))
                        .isEqualTo(isMissing));
    }

    @Test
    void smaller_than_last_year_and_copied_from_last_year_are_said() {
        ReferenceLoad small = heavy(2.0);
        assertThat(LoadComparison.of(small, Optional.of(frame(9, List.of(), Optional.of(heavy(3.0)))))
                        .get(0)
                        .sentence())
                .isEqualTo(
                        "The load is smaller than the one before (report R-2025-7): 2.00 kg and not 3.00 kg. What was covered until now may not be any more.");
        assertThat(LoadComparison.of(small, Optional.of(frame(9, List.of(), Optional.of(heavy(2.0))))))
                .extracting(LoadComparison.LoadRemark::kind)
                .contains(LoadComparison.Kind.SAME_WORDS_AS_LAST);
    }

    @Test
    void a_leak_as_found_opens_the_look_back_even_if_the_repair_passes() {
        invented.counterAtArrival = OptionalInt.of(4711);
        invented.leak("as found", FAIL)
                .leak("without sensors", PASS)
                .empty(PASS)
                .loaded(PASS, PASS, PASS);
        invented.job.earlier.add(evidence(EarlierEvidence.Kind.AIR_LEAKAGE, DAY.minusDays(9), 4650));
        invented.job.earlier.add(evidence(EarlierEvidence.Kind.AIR_LEAKAGE, DAY.minusDays(40), 4400));
        invented.job.earlier.add(evidence(EarlierEvidence.Kind.BIOLOGICAL, DAY.minusDays(2), 4700));
        AssessedVisit assessed = invented.assessed();
        assertThat(assessed.qualifiedCycles()).as("the repair passes").hasSize(1);
        Failure failure = FailurePath.of(assessed).get(0);
        assertThat(failure.isAsFound()).isTrue();
        assertThat(failure.outOfService()).isEmpty();
        LookBack lookBack = failure.lookBack().orElseThrow();
        assertThat(lookBack.words())
                .as("evidence of another kind, though later, does not shorten it")
                .isEqualTo(
                        "Loads after 16 November 2026 (last good evidence of the kind ‘air leakage’: log book) up to 25 November 2026; cycles 4651 to 4711.");
        assertThat(lookBack.cycles()).hasValue(61);
        assertThat(Letters.of(assessed, FailurePath.of(assessed), DAY))
                .extracting(Letters.Letter::title)
                .containsExactly("Look-back: steriliser EX-0001, air leakage");
    }

    @Test
    void without_good_evidence_the_look_back_has_no_beginning() {
        invented.leak("as found", FAIL);
        assertThat(FailurePath.of(invented.assessed())
                        .get(0)
                        .lookBack()
                        .orElseThrow()
                        .words())
                .startsWith("No good evidence of the kind ‘air leakage’ is named, so nobody can say where it begins");
    }

    @Test
    void a_leak_along_our_own_cables_opens_none() {
        invented.leak("without sensors", PASS).leak("with sensors", FAIL);
        Failure failure = FailurePath.of(invented.assessed()).get(0);
        assertThat(failure.blame()).isEqualTo(Failure.Blame.MEASUREMENT);
        assertThat(failure.lookBack()).isEmpty();
        assertThat(failure.outOfService()).isEmpty();
    }

    @ParameterizedTest(name = "without {0}, with {1}, after {2}: {3}")
    @CsvSource(
            nullValues = "-",
            value = {
                "PASS, PASS, PASS, TIGHT",
                "PASS, FAIL, PASS, CABLES",
                "PASS, PASS, FAIL, PORT",
                "PASS, PASS, -,    PORT_UNKNOWN",
                "FAIL, FAIL, -,    STERILIZER",
                "FAIL, PASS, -,    WET_OR_COOLING",
                "-,    FAIL, -,    NOT_TOLD_APART",
                "PASS, -,    -,    TIGHT",
                "INVALID, -, -,    UNDECIDED",
            })
    void the_trio_makes_a_pattern(RunOutcome without, RunOutcome with, RunOutcome after, LeakPattern expected) {
        leak("without sensors", without);
        leak("with sensors", with);
        leak("after", after);
        LeakTrio trio = LeakTrio.of(invented.assessed()).get(0);
        assertThat(trio.pattern()).isEqualTo(expected);
        assertThat(trio.with().isPresent()).isEqualTo(with != null);
        assertThat(trio.sentence()).isNotBlank();
    }

    @Test
    void a_grown_indicator_withdraws_and_looks_back_without_calling_it_the_steriliser() {
        invented.requiresIndicators();
        for (int i = 0; i < 3; i++) {
            String result = i == 1 ? "grown" : "clear";
            invented.run(
                    TestKind.LOADED,
                    B134,
                    PASS,
                    run -> run.indicators(indicator("1", false, result), indicator("C", true, "grown")));
        }
        AssessedVisit assessed = invented.assessed();
        InterimStanding interim = InterimStanding.of(assessed, DAY);
        assertThat(interim.standing()).isEqualTo(InterimStanding.Standing.POSITIVE);
        Failure failure = FailurePath.of(assessed).get(0);
        assertThat(failure.kind()).isEqualTo(EarlierEvidence.Kind.BIOLOGICAL);
        assertThat(failure.blame()).isEqualTo(Failure.Blame.INDICATOR_ALONE);
        List<Letters.Letter> letters = Letters.of(assessed, List.of(failure), DAY);
        assertThat(letters)
                .extracting(Letters.Letter::title)
                .containsExactly(
                        "Out of service: steriliser EX-0001",
                        "Look-back: steriliser EX-0001, biological indicators",
                        "Withdrawal of an interim or issued report");
        assertThat(letters.get(1).paragraphs()).last().asString().contains("the clinic decides");
    }

    @ParameterizedTest(name = "asked on {0}: {1}")
    @CsvSource({"2026-12-02, AWAITED, the last day is itself good", "2026-12-03, LAPSED, one day later"})
    void an_interim_report_lapses_by_itself(LocalDate asked, InterimStanding.Standing expected, String why) {
        invented.requiresIndicators();
        invented.run(
                TestKind.LOADED,
                B134,
                PASS,
                run -> run.indicators(indicator("1", false, "awaited"), indicator("C", true, "awaited")));
        invented.job.interimUntil = Optional.of(LocalDate.of(2026, 12, 2));
        assertThat(InterimStanding.of(invented.assessed(), asked).standing())
                .as(why)
                .isEqualTo(expected);
    }

    @Test
    void a_dead_control_makes_the_indicators_void() {
        invented.requiresIndicators();
        invented.run(
                TestKind.LOADED,
                B134,
                PASS,
                run -> run.indicators(indicator("1", false, "clear"), indicator("C", true, "clear")));
        assertThat(InterimStanding.of(invented.assessed(), DAY).standing()).isEqualTo(InterimStanding.Standing.VOID);
    }

    @Test
    void the_state_ends_with_a_day_or_a_count_and_agrees_with_the_answer() {
        complete();
        invented.counterAtDeparture = OptionalInt.of(4718);
        invented.job.cyclesUntilDue = OptionalInt.of(1500);
        AssessedVisit assessed = invented.assessed();
        ValidatedState state = ValidatedState.of(assessed).get(0);
        assertThat(state.until()).contains(LocalDate.of(2027, 11, 25));
        assertThat(state.untilCount()).hasValue(6218);
        assertThat(state.cycles())
                .extracting(QualifiedCycle::name, QualifiedCycle::status)
                .containsExactly(tuple("Wrapped 134", QualifiedCycle.Status.QUALIFIED));
        assertThat(state.cycles().get(0).loads()).hasSize(1);
    }

    @Test
    void a_closed_failure_names_its_re_test_by_the_matrix() {
        invented.leak("as found", FAIL)
                .leak("without sensors", PASS)
                .empty(PASS)
                .loaded(PASS, PASS, PASS);
        invented.job.failures.add(new FailureNote(
                "A",
                EarlierEvidence.Kind.AIR_LEAKAGE,
                "door seal hard",
                "seal replaced",
                List.of("seal"),
                Optional.of(DAY),
                "Alex Example",
                "leak test of run 2 passes"));
        assertThat(FailurePath.of(invented.assessed()).get(0).retests())
                .as("no matrix: everything")
                .hasSize(4);
        Failure failure = FailurePath.of(
                        invented.assessed(), change -> change.equals("seal") ? List.of("air leakage test") : List.of())
                .get(0);
        assertThat(failure.retests()).containsExactly("air leakage test");
        assertThat(failure.isClosed()).isTrue();
        assertThat(invented.assessed().openPoints()).noneMatch(point -> point.contains("not closed"));
    }

    @Test
    void the_matrix_of_the_visit_says_what_is_tested_again_and_why() {
        invented.leak("as found", FAIL)
                .leak("without sensors", PASS)
                .empty(PASS)
                .loaded(PASS, PASS, PASS);
        assertThat(retest().because()).as("no matrix at hand").contains("nothing narrower can be justified");
        invented.job.afterChange = Optional.of(InventedMatrix.get());
        assertThat(retest().tests()).as("nobody wrote anything down").isEqualTo(ChangeMatrix.EVERYTHING);
        changed("seal");
        assertThat(retest().tests())
                .containsExactly(
                        "air leakage test",
                        "operational qualification, one run of the cycle that is hardest to do right");
        assertThat(retest().because()).startsWith("after-change matrix: Door seal (");
        assertThat(Letters.of(invented.assessed(), FailurePath.of(invented.assessed()), DAY)
                        .toString())
                .doesNotContain("of every cycle in use");
    }

    private RetestScope retest() {
        return FailurePath.of(invented.assessed()).get(0).scope();
    }

    private void changed(String... changes) {
        invented.job.failures.clear();
        invented.job.failures.add(new FailureNote(
                "A", EarlierEvidence.Kind.AIR_LEAKAGE, "", "", List.of(changes), Optional.empty(), "", ""));
    }

    private void complete() {
        invented.leak("without sensors", PASS).empty(PASS).loaded(PASS, PASS, PASS);
    }

    private void leak(String stage, @Nullable RunOutcome outcome) {
        if (outcome != null) {
            invented.leak(stage, outcome);
        }
    }

    private static PassCondition condition(String text, Optional<PassCondition.Renewal> renewal) {
        return new PassCondition(
                "A",
                "",
                text,
                "practice manager",
                Optional.of(DAY.plusDays(30)),
                OptionalInt.empty(),
                Optional.empty(),
                renewal);
    }

    private static PenetrationTest device(PenetrationTest.Result result, boolean isExpired) {
        return new PenetrationTest(
                "A",
                "Wrapped-134",
                OptionalInt.empty(),
                PenetrationTest.Kind.HOLLOW,
                "hollow device",
                "L-1",
                Optional.of(isExpired ? DAY.minusDays(1) : DAY),
                result,
                "Alex Example",
                false,
                "");
    }

    private static EarlierEvidence evidence(EarlierEvidence.Kind kind, LocalDate on, int cycle) {
        return new EarlierEvidence("A", kind, on, OptionalInt.of(cycle), "log book");
    }

    private static LoadFrame frame(double maximum, List<String> owned, Optional<ReferenceLoad> last) {
        return new LoadFrame("A", Optional.of(maximum), "instructions for use", owned, last, "R-2025-7", "");
    }

    private static ReferenceLoad heavy(double kilogram) {
        return new ReferenceLoad(
                "one tray",
                List.of(new ReferenceLoad.Item("cassette", 3, "solid", "wrapped once")),
                "a lumen",
                "rear",
                "wrapped once",
                Optional.of(kilogram),
                "manager",
                List.of());
    }
}
