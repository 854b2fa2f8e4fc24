package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.filing.DraftRefusal.Reason;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.intake.register.VisitDraft;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.signing.Keys;
import org.steamwright.records.signing.SignRequest;
import org.steamwright.records.verify.Verifier;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.Register;

/** A visit written in the record, fact by fact; people, clinic and machine are invented. */
class DraftsTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final Author LEE = new Author("Lee Sample (invented)", "technician");
    private static final Map<String, Object> START = Map.of(
            "zone", "Australia/Adelaide",
            "criteria-set", "eu-en13060",
            "clinic", Map.of("name", "Harbour Street Dental (invented)", "address", "1 Harbour Street"),
            "sterilizers",
                    List.of(Map.of(
                            "key", "A",
                            "serial", "EX-2001",
                            "cycles",
                                    List.of(Map.of(
                                            "name", "134 wrapped",
                                            "type", "B",
                                            "sterilizing-temperature", "134 °C")))),
            "people", List.of(Map.of("name", "Kim Sample (invented)", "role", "technician")));

    @TempDir
    Path folder;

    Records records;
    Drafts drafts;

    @BeforeEach
    void open_a_record() {
        records = Records.open(
                Place.folder(folder.resolve("record")),
                Clock.fixed(Instant.parse("2026-03-02T09:00:00Z"), ZoneOffset.ofHours(10)));
        drafts = new Drafts(records);
    }

    @AfterEach
    void close_it() {
        records.close();
    }

    private static FactPath path(String path) {
        return FactPath.parse(path);
    }

    private static Optional<Object> text(String text) {
        return Optional.of(text);
    }

    private static InputStream bytes(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
    }

    private Draft begun() throws DraftRefusal {
        return drafts.open(KIM, "R-2026-0050", START);
    }

    interface Trying {
        void run() throws Exception;
    }

    private static DraftRefusal refused(Trying trying) {
        return catchThrowableOfType(DraftRefusal.class, trying::run);
    }

    // ---- beginning

    @Test
    void a_new_visit_is_found_by_number_clinic_and_serial_and_says_what_is_missing() throws Exception {
        Draft draft = begun();
        assertThat(drafts.find("R-2026-0050").map(Draft::id)).contains(draft.id());
        assertThat(records.find("harbour", 5).hits())
                .extracting(hit -> hit.subject().kind())
                .contains(Kind.CLINIC);
        assertThat(records.find("EX-2001", 5).hits())
                .extracting(hit -> hit.subject().kind())
                .contains(Kind.STERILIZER, Kind.VISIT);
        assertThat(draft.assessed()).isEmpty();
        DraftProblem missing = draft.problems().get(0);
        assertThat(missing.missing()).contains("runs");
        assertThat(missing.field()).contains(path("runs"));
        assertThat(missing.place()).containsExactly("the visit");
    }

    @Test
    void a_number_is_taken_once_also_by_a_change() throws Exception {
        begun();
        assertThat(refused(() -> drafts.open(LEE, " R-2026-0050 ", START)).reason())
                .isEqualTo(Reason.NUMBER_TAKEN);
        assertThat(refused(() -> drafts.open(LEE, " ", START)).reason()).isEqualTo(Reason.NUMBER_MISSING);
        Draft other = drafts.open(LEE, "R-2026-0051", START);
        assertThat(refused(() -> other.set(path("report-number"), text("R-2026-0050"), LEE, ""))
                        .reason())
                .isEqualTo(Reason.NUMBER_TAKEN);
        assertThat(refused(() -> other.set(path("report-number"), Optional.empty(), LEE, ""))
                        .reason())
                .isEqualTo(Reason.NUMBER_MISSING);
        assertThat(other.set(path("report-number"), text("R-2026-0052"), LEE, "")
                        .number())
                .isEqualTo("R-2026-0052");
        assertThat(drafts.find("R-2026-0051")).isEmpty();
    }

    @Test
    void a_register_gives_clinic_machine_and_cycles() throws Exception {
        DemoVisit.writeYear(folder.resolve("year"));
        Register register = RegisterFile.read(folder.resolve("year/office")).register();
        var machine = register.sterilizers().get(0);
        Draft draft = drafts.open(
                KIM,
                register,
                machine,
                new VisitDraft.Visit(
                        "R-2026-0060",
                        "yearly requalification",
                        LocalDate.of(2026, 3, 9),
                        "eu-en13060",
                        Optional.empty(),
                        false),
                Map.of());
        assertThat(draft.text(path("sterilizers/1/serial")))
                .isEqualTo(machine.identity().serial());
        assertThat(draft.text(path("date"))).isEqualTo("2026-03-09");
        assertThat(draft.count(path("sterilizers/1/cycles"))).isPositive();
    }

    // ---- changing

    @Test
    void every_change_is_one_submission_of_the_journal_and_names_who_and_what() throws Exception {
        Draft draft = begun();
        long before = records.head().tree().size();
        Draft after = draft.change()
                .set(path("conditions/barometer"), "100.2 kPa")
                .add(path("runs"), Map.of("kind", "air-leakage", "sterilizer", "A"))
                .putFile("recordings/run 1.csv", bytes("time;T1\n"))
                .note("gate/A", "EX-2001")
                .keep(LEE, "read at the door");
        List<UUID> submissions = records.entries(before, 100).stream()
                .map(entry -> entry.submission())
                .distinct()
                .toList();
        assertThat(submissions).hasSize(1);
        assertThat(after.lastChange().orElseThrow().author()).isEqualTo(LEE);
        assertThat(after.lastChange().orElseThrow().why()).isEqualTo("read at the door");
        assertThat(after.lastChange().orElseThrow().facts())
                .extracting(changed -> changed.path().toString().replace("~1", "/"))
                .containsExactlyInAnyOrder("conditions", "runs", "files/recordings/run 1.csv", "way/gate/A");
        assertThat(after.note("gate/A")).isEqualTo("EX-2001");
        assertThat(after.bytes("recordings/run 1.csv")).contains("time;T1\n".getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void what_is_the_same_already_makes_no_entry() throws Exception {
        Draft draft = begun();
        long before = records.head().tree().size();
        draft.set(path("zone"), text("Australia/Adelaide"), KIM, "");
        draft.set(path("purpose"), text(" "), KIM, "");
        assertThat(records.head().tree().size()).isEqualTo(before);
    }

    @Test
    void two_windows_do_not_overwrite_each_other_silently() throws Exception {
        Draft seen = begun();
        seen.set(path("purpose"), text("yearly requalification"), Optional.empty(), KIM, "");
        DraftRefusal refusal =
                refused(() -> seen.set(path("purpose"), text("after repair"), Optional.empty(), LEE, ""));
        assertThat(refusal.reason()).isEqualTo(Reason.CHANGED_MEANWHILE);
        assertThat(refusal.clash())
                .contains(new DraftRefusal.Clash(
                        "purpose", Optional.empty(), text("yearly requalification"), text("after repair")));
        assertThat(drafts.of(seen.id()).text(path("purpose"))).isEqualTo("yearly requalification");
    }

    @Test
    void two_windows_may_change_different_fields_of_one_run() throws Exception {
        Draft seen = begun().add(path("runs"), Map.of("kind", "empty-chamber"), KIM, "");
        seen.set(path("runs/1/cycle"), text("134 wrapped"), Optional.empty(), KIM, "");
        Draft after = seen.set(path("runs/1/machine-cycle"), text("1207"), Optional.empty(), LEE, "");
        assertThat(after.find(path("runs/1")))
                .contains(Map.of("kind", "empty-chamber", "cycle", "134 wrapped", "machine-cycle", "1207"));
    }

    @Test
    void sending_the_same_value_twice_is_no_clash() throws Exception {
        Draft seen = begun();
        seen.set(path("purpose"), text("after repair"), Optional.empty(), KIM, "");
        assertThat(seen.set(path("purpose"), text("after repair"), Optional.empty(), KIM, "")
                        .text(path("purpose")))
                .isEqualTo("after repair");
    }

    @Test
    void a_run_that_went_in_another_window_is_not_written_to() throws Exception {
        Draft seen = begun().add(path("runs"), Map.of("kind", "empty-chamber"), KIM, "");
        seen.remove(path("runs/1"), KIM, "");
        assertThat(refused(() -> seen.set(path("runs/1/cycle"), text("134 wrapped"), LEE, ""))
                        .reason())
                .isEqualTo(Reason.NO_SUCH_PLACE);
    }

    @Test
    void what_is_no_fact_is_refused_and_nothing_of_the_change_is_kept() throws Exception {
        Draft draft = begun();
        long before = records.head().tree().size();
        assertThat(refused(() -> draft.change()
                                .set(path("purpose"), "after repair")
                                .set(path("company"), "a\u0000b")
                                .keep(KIM, ""))
                        .reason())
                .isEqualTo(Reason.NOT_A_VALUE);
        assertThat(refused(() -> draft.set(path("company"), text("half \uD83D"), KIM, ""))
                        .reason())
                .isEqualTo(Reason.NOT_A_VALUE);
        assertThat(refused(() -> draft.set(path("Company"), text("x"), KIM, "")).reason())
                .isEqualTo(Reason.NO_SUCH_PLACE);
        assertThat(refused(() -> draft.add(path("runs"), Map.of("kind", " "), KIM, ""))
                        .reason())
                .isEqualTo(Reason.NOT_A_VALUE);
        assertThat(records.head().tree().size()).isEqualTo(before);
    }

    @Test
    void a_text_comes_back_as_it_was_typed() throws Exception {
        String typed = "yes: \"100 %\"\n- #3 \\ 'null' \u00e4\u00b0\u2028\uD83D\uDE00 *x &y {a: [b]}";
        Draft draft = begun().set(path("company"), text(typed), KIM, "");
        assertThat(draft.text(path("company"))).isEqualTo(typed);
        Path out = folder.resolve("out");
        new Filing(records).giveBack(draft.subject(), out);
        assertThat(org.steamwright.intake.folder.StatedFacts.of(out.resolve("visit.yaml")))
                .containsEntry("company", typed.strip());
    }

    // ---- files

    @Test
    void a_file_is_never_replaced_and_its_name_leads_nowhere_else() throws Exception {
        Draft draft = begun().change().putFile("a.csv", bytes("1")).keep(KIM, "");
        assertThat(draft.change().putFile("a.csv", bytes("1")).keep(KIM, "").files())
                .containsOnlyKeys("a.csv");
        assertThat(refused(() -> draft.change().putFile("A.csv", bytes("2")).keep(KIM, ""))
                        .reason())
                .isEqualTo(Reason.FILE_THERE);
        for (String name :
                Set.of("../a.csv", "/a", "a//b", "visit.yaml", "Result.json", ".hidden", "c:a", "a\\b", "a ")) {
            assertThat(refused(() -> draft.change().putFile(name, bytes("2")).keep(KIM, ""))
                            .reason())
                    .as(name)
                    .isEqualTo(Reason.FILE_NAME);
        }
        assertThat(draft.change().removeFile("a.csv").keep(KIM, "").files()).isEmpty();
        assertThat(refused(() -> draft.change().removeFile("a.csv").keep(KIM, ""))
                        .reason())
                .isEqualTo(Reason.NO_SUCH_PLACE);
    }

    @Test
    void invented_recordings_and_real_ones_do_not_come_into_one_record() throws Exception {
        Draft invented = begun().change()
                .putFile("run-1.csv", bytes("# Steamwright simulated recording - invented data, not a real cycle\n"))
                .add(path("runs"), Map.of("kind", "empty-chamber", "recording", "run-1.csv"))
                .keep(KIM, "");
        assertThat(invented.subject().text("simulated")).isEqualTo("true");
        Draft real = drafts.open(KIM, "R-2026-0051", START);
        assertThat(real.subject().fact("simulated")).as("no recordings yet").isEmpty();
        DraftRefusal refusal = refused(() -> real.change()
                .putFile("run-1.csv", bytes("time;T1\n"))
                .add(path("runs"), Map.of("kind", "empty-chamber", "recording", "run-1.csv"))
                .keep(KIM, ""));
        assertThat(refusal.reason()).isEqualTo(Reason.MIXED);
        assertThat(refusal.remedy()).isEqualTo("Keep invented visits in a record of their own.");
    }

    // ---- taking back

    @Test
    void changes_are_taken_back_one_by_one_down_to_the_beginning() throws Exception {
        Draft start = begun();
        Draft one = start.set(path("purpose"), text("after repair"), KIM, "");
        Draft two = one.change()
                .putFile("a.csv", bytes("1"))
                .note("gate/A", "EX-2001")
                .keep(KIM, "");
        long entries = records.head().tree().size();
        Draft back = two.undo(LEE, two.lastChange().map(Draft.Step::id));
        assertThat(back.files()).isEmpty();
        assertThat(back.notes()).isEmpty();
        assertThat(back.facts()).isEqualTo(one.facts());
        Draft begin = back.undo(LEE, Optional.empty());
        assertThat(begin.facts()).isEqualTo(start.facts());
        assertThat(begin.lastChange()).isEmpty();
        assertThat(refused(() -> begin.undo(LEE, Optional.empty())).reason()).isEqualTo(Reason.NOTHING_TO_UNDO);
        assertThat(records.head().tree().size()).as("the journal grows").isGreaterThan(entries);
        Draft other = begin.set(path("purpose"), text("new machine"), KIM, "");
        assertThat(other.undo(KIM, Optional.empty()).facts()).isEqualTo(start.facts());
    }

    @Test
    void another_change_is_not_taken_back_in_place_of_the_one_meant() throws Exception {
        Draft one = begun().set(path("purpose"), text("after repair"), KIM, "");
        Optional<UUID> meant = one.lastChange().map(Draft.Step::id);
        one.set(path("company"), text("Sample Service (invented)"), LEE, "");
        assertThat(refused(() -> one.undo(KIM, meant)).reason()).isEqualTo(Reason.CHANGED_MEANWHILE);
    }

    // ---- signed

    @Test
    void the_answer_of_a_review_is_not_taken_back_with_the_work_of_the_visit() throws Exception {
        Draft draft = begun().set(path("company"), text("one"), KIM, "");
        UUID meant = draft.lastChange().map(Draft.Step::id).orElseThrow();
        records.append(
                LEE,
                List.of(Change.set(org.steamwright.records.Kind.VISIT, draft.id(), "review", JsonText.of("seen"))));
        assertThat(draft.now().lastChange().map(Draft.Step::id)).contains(meant);
        Draft back = draft.now().undo(KIM, Optional.of(meant));
        assertThat(back.text(path("company"))).isEmpty();
        assertThat(back.subject().text("review")).isEqualTo("seen");
        assertThat(back.lastChange()).as("the review is no change of the visit").isEmpty();
    }

    @Test
    void taking_back_keeps_to_the_checks_of_every_change() throws Exception {
        Draft draft = begun().set(path("report-number"), text("R-2026-0051"), KIM, "");
        drafts.open(LEE, "R-2026-0050", START);
        DraftRefusal taken = refused(() -> draft.undo(KIM, Optional.empty()));
        assertThat(taken.reason()).isEqualTo(Reason.NUMBER_TAKEN);
        assertThat(draft.now().number()).isEqualTo("R-2026-0051");
    }

    @Test
    void what_a_settled_visit_is_found_by_goes_with_the_change_that_is_taken_back() throws Exception {
        Draft draft = begun().set(path("clinic/name"), text("Hill Street Dental (invented)"), KIM, "")
                .settle(KIM);
        assertThat(draft.subject().text("clinic-name")).isEqualTo("Hill Street Dental (invented)");
        Draft back = draft.undo(KIM, Optional.empty());
        assertThat(back.text(path("clinic/name"))).isEqualTo("Harbour Street Dental (invented)");
        assertThat(back.subject().text("clinic-name")).isEqualTo("Harbour Street Dental (invented)");
    }

    @Test
    void files_and_notes_are_taken_back_too() throws Exception {
        Draft draft = begun().change()
                .putFile("photos/a.jpg", bytes("picture"))
                .note("running", "1 2026-03-02T09:00:00Z")
                .keep(KIM, "");
        Draft back = draft.undo(KIM, Optional.empty());
        assertThat(back.files()).isEmpty();
        assertThat(back.notes()).isEmpty();
    }

    @Test
    void the_visit_before_is_the_last_that_was_neither_broken_off_nor_another_issue() throws Exception {
        for (String day : List.of("2024-03-04", "2025-03-03", "2025-09-01")) {
            Map<String, Object> start = new TreeMap<>(START);
            start.put("date", day);
            drafts.open(KIM, "R-" + day, start).settle(KIM);
        }
        Map<String, Object> start = new TreeMap<>(START);
        start.put("date", "2026-03-02");
        Draft now = drafts.open(KIM, "R-2026-0050", start).settle(KIM);
        SubjectId machine = SubjectId.parse(
                now.subject().fact("sterilizer").orElseThrow().node().get(0).asText());
        VisitStates states = new VisitStates(records);
        assertThat(states.before(now.subject(), machine).map(StatedVisit::visit).map(one -> one.text("number")))
                .contains("R-2025-09-01");
        Filing filing = new Filing(records);
        filing.breakOff(filing.open("R-2025-09-01"), "steam supply failed", KIM);
        assertThat(states.before(now.subject(), machine).map(StatedVisit::visit).map(one -> one.text("number")))
                .contains("R-2025-03-03");
    }

    @Test
    void a_signed_visit_refuses_every_change() throws Exception {
        Draft draft = begun().set(path("purpose"), text("after repair"), KIM, "");
        char[] secret = "correct horse battery".toCharArray();
        var technician = new Filing(records).technician(KIM.name());
        new Keys(records).make(technician, secret.clone(), KIM);
        new Issues(records)
                .sign(
                        new SignRequest(
                                draft.id(),
                                draft.subject().hash(),
                                technician,
                                "released",
                                JsonText.of(Map.of("name", "x")),
                                Results.ALGORITHM_VERSION,
                                JsonText.of(Map.of()),
                                false),
                        secret.clone());
        assertThat(draft.isSigned()).isTrue();
        assertThat(refused(() -> draft.change().set(path("purpose"), "x").glance())
                        .reason())
                .isEqualTo(Reason.SIGNED);
        assertThat(refused(() -> draft.set(path("purpose"), text("x"), KIM, "")).reason())
                .isEqualTo(Reason.SIGNED);
        assertThat(refused(() -> draft.undo(KIM, Optional.empty())).reason()).isEqualTo(Reason.SIGNED);
    }

    // ---- the same as a folder

    @Test
    void record_and_folder_come_to_equal_results_and_the_visit_is_found_by_the_same_facts() throws Exception {
        Path demo = folder.resolve("demo");
        DemoVisit.write(demo);
        Filing filing = new Filing(records);
        Filing.Taken taken = filing.take(demo, KIM, "");
        Draft draft = drafts.of(taken.visit().id());
        assertThat(draft.problems()).isEmpty();
        Draft after = draft.set(path("company"), text("Sample Service Ltd (invented)"), KIM, "");
        Path out = folder.resolve("out");
        filing.giveBack(after.subject(), out);
        assertThat(Results.of(after.assessed().orElseThrow())).isEqualTo(Results.of(filing.read(out)));
        assertThat(Results.of(filing.assess(after.subject()))).isEqualTo(Results.of(filing.read(out)));
        Draft back = after.undo(KIM, Optional.empty());
        assertThat(Results.of(back.assessed().orElseThrow())).isEqualTo(Results.of(taken.assessed()));
        try (Records second = Records.open(Place.folder(folder.resolve("second")), records.clock())) {
            Subject again = new Filing(second).take(out, KIM, "").visit();
            assertThat(found(after.subject())).isEqualTo(found(again));
        }
        assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                .isEmpty();
    }

    /** Facts but for the identities, which differ from record to record. */
    private static Map<String, JsonText> found(Subject subject) {
        Map<String, JsonText> facts = new TreeMap<>(subject.facts());
        facts.keySet().removeAll(Set.of("clinic", "sterilizer", "technicians"));
        return facts;
    }

    @Test
    void names_that_are_being_typed_make_nobody_until_they_are_settled() throws Exception {
        Draft draft = begun().set(path("clinic/name"), text("Harb"), KIM, "");
        assertThat(records.subjects(Kind.CLINIC, 10)).hasSize(1);
        assertThat(draft.subject().fact("clinic")).isEmpty();
        Draft typed = draft.set(path("clinic/name"), text("Harbour Lane Dental (invented)"), KIM, "");
        Draft settled = typed.settle(KIM);
        assertThat(records.subjects(Kind.CLINIC, 10)).hasSize(2);
        assertThat(settled.subject().fact("clinic")).isPresent();
    }

    @Test
    void a_problem_leads_to_its_fact() throws Exception {
        Draft draft = begun().change()
                .add(path("runs"), Map.of("kind", "empty-chamber", "recording", "run-1.csv", "barometer", "1 banana"))
                .keep(KIM, "");
        List<DraftProblem> problems = draft.problems();
        assertThat(problems)
                .anySatisfy(problem -> {
                    assertThat(problem.path()).contains(path("runs/1/recording"));
                    assertThat(problem.place()).containsExactly("run 1", "recording");
                    assertThat(problem.flaw().sentence()).startsWith("found no file \"run-1.csv\"");
                    assertThat(problem.flaw().remedy()).startsWith("Copy it into the folder");
                })
                .anySatisfy(problem -> assertThat(problem.path()).contains(path("runs/1/barometer")));
    }

    @Test
    void entries_that_are_begun_are_left_out_and_told_and_the_rest_is_assessed_but_not_signed() throws Exception {
        Path demo = folder.resolve("demo");
        DemoVisit.write(demo);
        Draft whole = drafts.of(new Filing(records).take(demo, KIM, "").visit().id());
        int run = 1;
        while (!whole.text(FactPath.of("runs", run, "kind")).equals("reference-load")) {
            run++;
        }
        FactPath indicators = FactPath.of("runs", run, "indicators");
        int before = whole.count(indicators);
        Draft begun = whole.change()
                .add(indicators, Map.of("control", "no", "result", "awaited"))
                .add(indicators, Map.of("control", "yes", "result", "awaited"))
                .add(path("job-sheet/penetration"), Map.of("kind", "hollow"))
                .add(path("runs"), Map.of("kind", "reference-load"))
                .keep(KIM, "");
        DraftReading reading = begun.read();
        assertThat(reading.isWhole()).isFalse();
        assertThat(reading.problems())
                .extracting(problem -> problem.path().map(FactPath::toString).orElse(""))
                .contains(
                        indicators.then(before + 1).toString(),
                        indicators.then(before + 2).toString(),
                        "job-sheet/penetration/" + begun.count(path("job-sheet/penetration")));
        AssessedVisit rest = reading.assessed().orElseThrow();
        assertThat(rest.runs()).hasSize(whole.assessed().orElseThrow().runs().size());
        assertThat(rest.openPoints())
                .contains(
                        "Run %s: no recording yet, so nothing of it is assessed.".formatted(begun.count(path("runs"))))
                .anyMatch(point -> point.contains("3 entries are not finished and were left out."));
        assertThat(drafts.assess(begun.subject()).standing()).isEqualTo(rest.standing());
        assertThat(catchThrowableOfType(VisitFolderException.class, () -> new Filing(records).assess(begun.subject())))
                .as("what is signed is read whole")
                .isNotNull();
        Draft wrong = begun.set(path("conditions/barometer"), text("1 banana"), KIM, "");
        assertThat(wrong.read().assessed()).as("what is wrong is not left out").isEmpty();
    }

    private Draft demo() throws Exception {
        Path demo = folder.resolve("demo");
        DemoVisit.write(demo);
        return drafts.of(new Filing(records).take(demo, KIM, "").visit().id());
    }

    private static int firstLoaded(Draft draft) {
        int run = 1;
        while (!draft.text(FactPath.of("runs", run, "kind")).equals("reference-load")) {
            run++;
        }
        return run;
    }

    /** That the visit is assessed but for so many runs, and can't be signed. */
    private void isAssessedBut(Draft draft, int leftOut, String because) throws Exception {
        DraftReading reading = draft.read();
        assertThat(reading.problems()).as(because).isNotEmpty();
        assertThat(reading.assessed()).as(because + ": %s", reading.problems()).isPresent();
        AssessedVisit rest = reading.assessed().orElseThrow();
        assertThat(rest.runs()).as(because).hasSize(draft.count(path("runs")) - leftOut);
        assertThat(catchThrowableOfType(VisitFolderException.class, () -> new Filing(records).assess(draft.subject())))
                .as(because + " is not signed")
                .isNotNull();
    }

    @Test
    void a_steriliser_or_cycle_that_is_begun_does_not_hide_the_rest() throws Exception {
        Draft whole = demo();
        isAssessedBut(whole.add(path("sterilizers"), Map.of("key", "C"), KIM, ""), 0, "a steriliser");
        Draft cycle = whole.now().undo(KIM, Optional.empty());
        isAssessedBut(cycle.add(path("sterilizers/1/cycles"), Map.of("type", "B"), KIM, ""), 0, "a cycle");
        Draft both = whole.now()
                .change()
                .add(path("sterilizers"), Map.of("serial", "EX-9"))
                .add(path("sterilizers/3/cycles"), Map.of("type", "B"))
                .keep(KIM, "");
        isAssessedBut(both, 0, "a cycle of a steriliser");
    }

    @Test
    void a_load_with_an_item_both_begun_is_left_out_once() throws Exception {
        Draft whole = demo();
        Draft begun = whole.change()
                .set(FactPath.of("runs", firstLoaded(whole), "load"), Optional.empty())
                .add(FactPath.of("runs", firstLoaded(whole), "load", "items"), Map.of("count", "1"))
                .keep(KIM, "");
        isAssessedBut(begun, 0, "an item of a load without a description");
    }

    @Test
    void a_run_whose_recording_cannot_be_assessed_yet_is_left_out_and_told_and_never_counts_as_passed()
            throws Exception {
        Draft whole = demo();
        int run = firstLoaded(whole);
        FactPath channels = FactPath.of("runs", run, "channels");
        Draft unsaid = whole.set(channels, Optional.empty(), KIM, "");
        isAssessedBut(unsaid, 1, "columns of which nothing is said");
        assertThat(unsaid.read().assessed().orElseThrow().openPoints())
                .contains("Run %s: its recording can't be assessed yet and was left out.".formatted(run))
                .noneMatch(point -> point.startsWith("Run %s: no recording yet".formatted(run)));
        Draft unknown =
                unsaid.undo(KIM, Optional.empty()).set(channels.then("T1").then("instrument"), text("TL-99"), KIM, "");
        isAssessedBut(unknown, 1, "an instrument that nobody knows");
        Draft twice = unknown.undo(KIM, Optional.empty())
                .change()
                .add(
                        path("runs"),
                        Map.of(
                                "kind", "reference-load",
                                "sterilizer", "A",
                                "cycle", "134 wrapped",
                                "recording", whole.text(FactPath.of("runs", run, "recording"))))
                .keep(KIM, "");
        isAssessedBut(twice, 1, "the recording of another run");
        Draft junk = twice.undo(KIM, Optional.empty())
                .change()
                .putFile("junk.csv", bytes("no recording at all"))
                .add(path("runs"), Map.of("kind", "air-leakage", "sterilizer", "A", "recording", "junk.csv"))
                .keep(KIM, "");
        isAssessedBut(junk, 1, "a file that is no recording");
        Draft renamed = junk.undo(KIM, Optional.empty())
                .set(FactPath.of("runs", run, "cycle"), text("a cycle that is not there"), KIM, "");
        isAssessedBut(renamed, 1, "a cycle that the steriliser does not have");
        Draft ahead = renamed.undo(KIM, Optional.empty())
                .change()
                .add(
                        path("runs"),
                        Map.of("kind", "empty-chamber", "sterilizer", "A", "load", Map.of("description", "five")))
                .keep(KIM, "");
        isAssessedBut(ahead, 1, "a load at a run of an empty chamber that is still to come");
        assertThat(ahead.read().assessed().orElseThrow().openPoints())
                .contains(
                        "Run %s: no recording yet, so nothing of it is assessed.".formatted(ahead.count(path("runs"))));
        Draft taken = ahead.undo(KIM, Optional.empty())
                .change()
                .set(FactPath.of("runs", run, "recording"), Optional.empty())
                .add(
                        FactPath.of("runs", run, "taken-away"),
                        Map.of("recording", "x.csv", "because", "wrong file", "by", "Kim Sample (invented)"))
                .keep(KIM, "");
        assertThat(taken.read().isWhole())
                .as("without a recording it is a run to come: %s", taken.read().problems())
                .isTrue();
        assertThat(taken.read().assessed().orElseThrow().runs()).hasSize(whole.count(path("runs")) - 1);
    }

    @Test
    void a_glance_tells_wrong_words_without_reading_recordings_and_keeps_nothing() throws Exception {
        Draft draft = begun().change()
                .putFile("run-1.csv", bytes("no recording at all"))
                .add(path("runs"), Map.of("kind", "empty-chamber", "recording", "run-1.csv"))
                .keep(KIM, "");
        assertThat(draft.glance()).isEmpty();
        assertThat(draft.change()
                        .putFile("tasks.yaml", bytes("steamwright-visit: 1\n"))
                        .set(path("register"), "task.yaml")
                        .glance())
                .as("a file that is there is proposed for one that is not, which is told nevertheless")
                .anySatisfy(problem -> assertThat(problem.flaw().sentence()).startsWith("found no file \"task.yaml\""));
        long before = records.head().tree().size();
        List<DraftProblem> problems =
                draft.change().set(path("conditions/barometer"), "1004").glance();
        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).path()).contains(path("conditions/barometer"));
        assertThat(records.head().tree().size()).isEqualTo(before);
        assertThat(draft.peek()).isEmpty();
        assertThat(draft.problems()).as("the recording is unreadable").isNotEmpty();
        assertThat(draft.peek()).isPresent();
    }

    @Test
    void what_is_kept_survives_closing_and_opening() throws IOException, DraftRefusal {
        Draft draft = begun().set(path("purpose"), text("after repair"), KIM, "");
        records.close();
        open_a_record();
        assertThat(drafts.of(draft.id()).facts()).isEqualTo(draft.facts());
        assertThat(Files.exists(folder.resolve("record"))).isTrue();
    }
}
