package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.table.TableRecordings;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.signing.Keys;
import org.steamwright.records.verify.Verifier;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.simulator.LoggerFile;
import org.steamwright.visit.due.Today;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.state.VisitState;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.TodaysLoad;

/** The states of a visit in the record, from the first entry to the report that nobody relies on any more. */
class VisitStatesTest {

    private static final String NUMBER = "DEMO-2026-001";
    private static final String NAME = "Kim Sample (invented)";
    private static final Author KIM = new Author(NAME, "technician");

    @TempDir
    static Path year;

    @TempDir
    Path folder;

    Records records;
    Filing filing;
    VisitStates states;

    @BeforeAll
    static void write_the_year_as_if_it_were_real() throws IOException {
        YearVisits.write(year);
    }

    @BeforeEach
    void open() {
        open("2026-03-04T09:00:00Z");
    }

    @AfterEach
    void close() {
        records.close();
    }

    private void open(String now) {
        records = Records.open(Place.folder(folder), Clock.fixed(Instant.parse(now), ZoneOffset.ofHours(10)));
        filing = new Filing(records);
        states = new VisitStates(records);
    }

    private static char[] secret() {
        return "open sesame 1".toCharArray();
    }

    private void key() throws FilingException {
        new Keys(records).make(filing.technician(NAME), secret(), KIM);
    }

    private Issue sign() throws Exception {
        return filing.sign(filing.open(NUMBER).visit(), NAME, "performed and recorded", secret(), KIM)
                .orElseThrow();
    }

    private List<String> words() {
        return states.ofNumber(NUMBER).stream().map(StatedVisit::words).toList();
    }

    @Test
    void a_visit_goes_from_open_over_interim_to_issued_and_withdrawn() throws Exception {
        filing.take(year.resolve("1-interim"), KIM, "");
        key();
        assertThat(words()).containsExactly("open");
        sign();
        assertThat(words()).containsExactly("interim, issue 1, until 2026-03-16");

        StatedVisit correction = filing.amend(NUMBER, "indicators read", KIM);
        assertThat(correction.state()).isEqualTo(VisitState.OPEN);
        assertThat(words())
                .containsExactly("open, a correction: indicators read", "interim, issue 1, until 2026-03-16");
        assertThat(filing.visit(NUMBER).state())
                .as("what is being corrected stands until the correction is signed")
                .isEqualTo(VisitState.INTERIM);
        Filing.Taken taken = filing.take(year.resolve("2-final"), KIM, "indicators read");
        assertThat(taken.isNew()).isFalse();
        assertThat(taken.visit().id())
                .as("facts go into the one that is open")
                .isEqualTo(correction.visit().id());
        assertThat(sign().number()).isEqualTo(2);
        assertThat(words()).containsExactly("issued, issue 2: indicators read", "replaced, issue 1: indicators read");
        assertThat(filing.visit(NUMBER, 1).state()).isEqualTo(VisitState.REPLACED);
        assertThat(filing.assess(filing.visit(NUMBER, 1).visit()).visit().job().interimUntil())
                .as("the replaced one stays readable as it was")
                .contains(LocalDate.of(2026, 3, 16));

        Issue withdrawal = filing.withdraw(filing.visit(NUMBER), NAME, "recordings of another machine", secret(), KIM);
        assertThat(words())
                .containsExactly(
                        "withdrawn, issue 2: recordings of another machine", "replaced, issue 1: indicators read");
        assertThat(filing.visit(NUMBER).state()).as("the last that there was").isEqualTo(VisitState.WITHDRAWN);
        assertThat(states.count()).isEqualTo(Map.of(VisitState.REPLACED, 1, VisitState.WITHDRAWN, 1));
        assertThat(states.inForceTwice()).isEmpty();
        assertThat(states.ofIssue(records.subject(withdrawal.id()))).isEqualTo("withdrawal");
        assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                .isEmpty();
    }

    @Test
    void nobody_signs_for_another_name_plate_and_what_says_nothing_of_it_is_signed_as_it_states() throws Exception {
        FactPath plate = FactPath.parse("sterilizers/1/name-plate/serial");
        Drafts drafts = new Drafts(records);
        Draft draft =
                drafts.of(filing.take(year.resolve("2-final"), KIM, "").visit().id());
        key();
        assertThat(draft.text(plate)).isEqualTo("EX-1001");
        draft.set(plate, Optional.of("EX-9999"), KIM, "");
        assertThatThrownBy(this::sign)
                .isInstanceOf(FilingException.class)
                .hasMessageContaining(
                        "the name plate says 'EX-9999' and the visit is for 'EX-1001', so nobody signs it");
        assertThat(words()).containsExactly("open");
        draft.now().set(plate, Optional.empty(), KIM, "");
        sign();
        assertThat(words()).containsExactly("issued, issue 1");
    }

    @Test
    void what_is_signed_is_what_was_seen_and_assessed() throws Exception {
        Subject seen = filing.take(year.resolve("1-interim"), KIM, "").visit();
        key();
        Subject now =
                filing.take(year.resolve("2-final"), KIM, "indicators read").visit();
        assertThatThrownBy(() -> filing.sign(seen, NAME, "", secret(), KIM))
                .as("assessed as it was before")
                .isInstanceOf(VisitChangedException.class)
                .hasMessageContaining(NUMBER + " was changed after it was looked at");
        assertThatThrownBy(
                        () -> filing.sign(now, Optional.of(Filing.content(seen).hex()), NAME, "", secret(), KIM))
                .as("seen as it was before")
                .isInstanceOf(VisitChangedException.class);
        assertThat(words()).containsExactly("open");

        records.append(KIM, List.of(Change.set(Kind.VISIT, now.id(), Filing.REVIEW, "sent back")));
        assertThatThrownBy(
                        () -> filing.sign(now, Optional.of(Filing.content(now).hex()), NAME, "", secret(), KIM))
                .as("a reviewer answered in between")
                .isInstanceOf(VisitChangedException.class);
        Subject read = records.subject(now.id());
        records.append(KIM, List.of(Change.set(Kind.VISIT, now.id(), "note/running", "1 10:00")));
        Issue issue = filing.sign(read, Optional.of(Filing.content(now).hex()), NAME, "", secret(), KIM)
                .orElseThrow();
        JsonNode document = new Issues(records).document(issue).node();
        assertThat(document.path("facts").path("note/running").asText())
                .as("a note beside the visit may come between, and is sealed with it")
                .isEqualTo("1 10:00");
        assertThat(document.path("result"))
                .isEqualTo(Results.of(filing.assess(now)).node());
        assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                .isEmpty();
    }

    @Test
    void turn_around_is_counted_from_the_day_at_the_site_and_a_day_after_the_signature_is_told() throws Exception {
        Subject visit = filing.take(year.resolve("1-interim"), KIM, "").visit();
        key();
        sign();
        KeptResults results = new KeptResults(records, filing::assess);
        results.catchUp(5);
        Instant begin = LocalDate.parse(visit.text("date"))
                .atStartOfDay(ZoneId.of(visit.text("zone")))
                .toInstant();
        assertThat(results.book().find(visit.id()).orElseThrow().turnAround())
                .hasValue(Duration.between(begin, Instant.parse("2026-03-04T09:00:00Z"))
                        .toMinutes());
        assertThat(results.book().countDatedAfterSignature(LocalDate.MIN, LocalDate.of(2099, 1, 1)))
                .isZero();

        records.close();
        Files.walk(folder)
                .sorted(Comparator.reverseOrder())
                .forEach(one -> one.toFile().delete());
        open("2026-03-01T09:00:00Z");
        SubjectId dated =
                filing.take(year.resolve("1-interim"), KIM, "").visit().id();
        key();
        sign();
        results = new KeptResults(records, filing::assess);
        results.catchUp(5);
        assertThat(results.book().find(dated).orElseThrow().turnAround()).isEmpty();
        assertThat(results.book().countDatedAfterSignature(LocalDate.MIN, LocalDate.of(2099, 1, 1)))
                .isOne();
    }

    @Test
    void a_folder_that_is_taken_in_long_after_its_day_is_marked_late() throws Exception {
        records.close();
        open("2026-03-03T09:00:00Z");
        Subject visit = filing.take(year.resolve("1-interim"), KIM, "").visit();
        assertThat(records.history(visit.id()))
                .as("within a day of its day, %s", visit.text("date"))
                .isNotEmpty()
                .noneMatch(JournalEntry::isLate);
        filing.take(year.resolve("2-final"), KIM, "indicators read");
        assertThat(records.history(visit.id())).as("what came later held later").noneMatch(JournalEntry::isLate);

        records.close();
        Files.walk(folder)
                .sorted(Comparator.reverseOrder())
                .forEach(one -> one.toFile().delete());
        open("2026-03-20T09:00:00Z");
        SubjectId late = filing.take(year.resolve("1-interim"), KIM, "").visit().id();
        assertThat(records.history(late)).allMatch(JournalEntry::isLate);
        assertThat(records.history(late).get(0).stated())
                .contains(LocalDate.parse(visit.text("date"))
                        .plusDays(1)
                        .atStartOfDay(ZoneId.of(visit.text("zone")))
                        .toInstant());
        KeptResults results = new KeptResults(records, filing::assess);
        results.catchUp(5);
        assertThat(results.book().find(late).orElseThrow().exceptions())
                .as("a reviewer has to look at it")
                .isEqualTo(KeptResults.exceptions(filing.assess(records.subject(late))) + 1);
    }

    @Test
    void two_programs_that_take_visits_in_at_once_make_one_of_a_number_and_do_not_mix() throws Exception {
        Path invented = folder.resolve("invented");
        DemoVisit.write(invented);
        Path again = folder.resolve("again");
        DemoVisit.write(again);
        Files.writeString(
                again.resolve("visit.yaml"), Files.readString(again.resolve("visit.yaml")) + "\n# written twice\n");
        for (int round = 0; round < 2; round++) {
            Place place = Place.folder(folder.resolve("round-" + round));
            List<Path> both = List.of(invented, round == 0 ? again : year.resolve("3-retest"));
            List<Exception> refused = new ArrayList<>();
            CyclicBarrier start = new CyclicBarrier(2);
            List<Thread> programs = new ArrayList<>();
            for (Path one : both) {
                programs.add(new Thread(() -> {
                    try (Records own = Records.open(place, records.clock())) {
                        start.await(30, TimeUnit.SECONDS);
                        new Filing(own).take(one, KIM, "");
                    } catch (Exception e) {
                        synchronized (refused) {
                            refused.add(e);
                        }
                    }
                }));
            }
            programs.forEach(Thread::start);
            for (Thread program : programs) {
                program.join();
            }
            try (Records own = Records.open(place, records.clock())) {
                assertThat(own.count(Kind.VISIT))
                        .as("round %d: %s", round, refused)
                        .isOne();
                if (round == 0) {
                    assertThat(refused).isEmpty();
                } else {
                    assertThat(refused).hasSize(1);
                    assertThat(refused.get(0))
                            .isInstanceOf(FilingException.class)
                            .hasMessageContaining("invented");
                }
            }
        }
    }

    @Test
    void all_rooms_know_invented_recordings_by_the_same_mark() {
        assertThat(Issues.SIMULATED_MARK).isEqualTo(TableRecordings.SIMULATED_MARK);
        assertThat(LoggerFile.MARK).startsWith(TableRecordings.SIMULATED_MARK);
    }

    @Test
    void an_interim_report_whose_last_day_is_over_is_not_signed() throws Exception {
        records.close();
        open("2026-03-20T09:00:00Z");
        filing.take(year.resolve("1-interim"), KIM, "");
        key();
        assertThatThrownBy(this::sign)
                .isInstanceOf(FilingException.class)
                .hasMessage(
                        "the visit can't become interim: The last day of the interim report, 2026-03-16, lies before"
                                + " 2026-03-20. State a later one");
        assertThat(words()).containsExactly("open");
    }

    @Test
    void what_is_signed_replaced_or_withdrawn_takes_no_other_step() throws Exception {
        filing.take(year.resolve("2-final"), KIM, "");
        key();
        assertThatThrownBy(() -> filing.amend(NUMBER, "too early", KIM))
                .hasMessageContaining(
                        "A visit that is open can't become replaced. It can become performed or broken off");
        sign();
        assertThatThrownBy(this::sign).hasMessage(NUMBER + " is issued, issue 1, so there is nothing to sign");
        assertThatThrownBy(() -> filing.take(year.resolve("1-interim"), KIM, "x"))
                .hasMessage(NUMBER + " is issued, issue 1; its facts do not change any more");
        assertThat(filing.take(year.resolve("2-final"), KIM, "").changed())
                .as("equal again")
                .isZero();
        assertThatThrownBy(() -> filing.breakOff(filing.visit(NUMBER), "x", KIM))
                .hasMessageContaining("can't become broken off");
        assertThatThrownBy(() -> filing.amend(NUMBER, " ", KIM)).hasMessageContaining("No reason is stated");
        filing.amend(NUMBER, "one", KIM);
        assertThatThrownBy(() -> filing.amend(NUMBER, "two at once", KIM)).hasMessageStartingWith("RECORD-038");
        filing.breakOff(filing.correction(NUMBER), "nothing was wrong", KIM);
        assertThat(words()).containsExactly("broken off, a correction: nothing was wrong", "issued, issue 1");
        assertThatThrownBy(() -> filing.correction(NUMBER)).hasMessageContaining("no correction of");
        filing.withdraw(filing.visit(NUMBER), NAME, "wrong clinic", secret(), KIM);
        assertThatThrownBy(() -> filing.withdraw(filing.visit(NUMBER, 1), NAME, "again", secret(), KIM))
                .hasMessageContaining("A visit that is withdrawn stays so");
        assertThatThrownBy(() -> filing.amend(NUMBER, "after all", KIM))
                .hasMessageContaining("A visit that is withdrawn stays so");
        assertThatThrownBy(this::sign).hasMessageContaining("so there is nothing to sign");
        assertThatThrownBy(() -> filing.visit(NUMBER, 7)).hasMessageContaining("has no issue 7; there is");
    }

    private CoverageInRecord.Answer ask(String cycle, LocalDate day) throws Exception {
        return ask(new CoverageInRecord(records), cycle, day);
    }

    private static CoverageInRecord.Answer ask(CoverageInRecord covering, String cycle, LocalDate day)
            throws Exception {
        return covering.of(
                covering.sterilizer("EX-1001"),
                new TodaysLoad(
                        "EX-1001",
                        cycle,
                        day,
                        OptionalInt.empty(),
                        List.of(new TodaysLoad.Thing("mirrors", 2, "solid", "pouch")),
                        Optional.of(0.4),
                        Optional.empty(),
                        Optional.of(true)));
    }

    /** What the record answers while visits of that report number can't be read. */
    private CoverageInRecord without(String unread) {
        return new CoverageInRecord(
                records,
                visit -> {
                    if (visit.text("number").equals(unread)) {
                        throw new FilingException("a recording is lost", "Restore it.");
                    }
                    return filing.assess(visit);
                },
                visit -> true);
    }

    @Test
    void nothing_is_called_qualified_that_depends_on_a_visit_that_can_not_be_read(@TempDir Path again)
            throws Exception {
        LocalDate day = LocalDate.of(2026, 3, 10);
        String later = "DEMO-2026-009";
        filing.take(year.resolve("2-final"), KIM, "");
        key();
        sign();
        CoverageInRecord alone = without(NUMBER);
        Subject machine = alone.sterilizer("EX-1001");
        String lost =
                "Visit %s of 2026-03-02 can't be read, so nobody can say what it found. What depends on it is not relied on.";
        assertThat(alone.cycles(machine, day, OptionalInt.empty())).isEmpty();
        assertThat(alone.unread(machine))
                .extracting(one -> one.visit().text("number"))
                .containsExactly(NUMBER);
        assertThat(ask(alone, "134 wrapped", day).coverage().isCovered()).isFalse();
        assertThat(ask(alone, "134 wrapped", day).coverage().reasons()).containsExactly(lost.formatted(NUMBER));

        try (Stream<Path> all = Files.walk(year.resolve("2-final"))) {
            for (Path one : all.toList()) {
                Path to = again.resolve("later")
                        .resolve(year.resolve("2-final").relativize(one).toString());
                Files.copy(one, to);
            }
        }
        Path visit = again.resolve("later/visit.yaml");
        Files.writeString(visit, Files.readString(visit).replace(NUMBER, later));
        filing.take(again.resolve("later"), KIM, "");
        filing.sign(filing.open(later).visit(), NAME, "performed and recorded", secret(), KIM);
        assertThat(ask("134 wrapped", day).coverage().isCovered())
                .as("both can be read")
                .isTrue();
        assertThat(without(later).cycles(machine, day, OptionalInt.empty()))
                .as("the earlier visit names the cycles, and none may be run")
                .isNotEmpty()
                .allSatisfy(standing -> assertThat(standing.against()).contains(lost.formatted(later)));
        assertThat(ask(without(later), "134 wrapped", day).coverage().isCovered())
                .isFalse();
        assertThat(without(later).unread(machine)).hasSize(1);
        assertThat(ask(without(NUMBER), "134 wrapped", day).coverage().isCovered())
                .as("nothing depends on the earlier visit any more")
                .isTrue();
        assertThat(without(NUMBER).unread(machine)).isEmpty();
    }

    @Test
    void only_what_is_signed_and_stands_covers_a_load() throws Exception {
        LocalDate day = LocalDate.of(2026, 3, 10);
        filing.take(year.resolve("2-final"), KIM, "");
        key();
        Coverage open = ask("134 wrapped", day).coverage();
        assertThat(open.isCovered()).isFalse();
        assertThat(open.reasons())
                .containsExactly(
                        "No visit to steriliser EX-1001 in this record is signed and in force.",
                        "Visit DEMO-2026-001 is open.");
        sign();
        CoverageInRecord.Answer signed = ask("134 wrapped", day);
        assertThat(signed.coverage().reasons()).isEmpty();
        assertThat(signed.coverage().isCovered()).isTrue();
        assertThat(signed.visit().orElseThrow().state()).isEqualTo(VisitState.ISSUED);
        assertThat(ask("134 wrapped", LocalDate.of(2027, 3, 3)).coverage().reasons())
                .containsExactly("It ended with 2027-03-02.");
        assertThat(ask("121 textiles", day).coverage().reasons()).contains("The cycle ‘121 textiles’ was not tested.");
        filing.amend(NUMBER, "lot read wrongly", KIM);
        assertThat(ask("134 wrapped", day).coverage())
                .satisfies(now -> assertThat(now.isCovered()).isTrue())
                .satisfies(now -> assertThat(now.notes())
                        .contains("A correction of DEMO-2026-001 is being worked on: lot read wrongly"));
        filing.withdraw(filing.visit(NUMBER), NAME, "indicator grew", secret(), KIM);
        assertThat(ask("134 wrapped", day).coverage().reasons())
                .contains("Visit DEMO-2026-001 is withdrawn, issue 1: indicator grew.");
    }

    @Test
    void a_duty_whose_report_was_withdrawn_is_due_again() throws Exception {
        records.close();
        records = Records.open(
                Place.folder(folder),
                Clock.fixed(Instant.parse("2026-03-04T09:00:00Z"), ZoneOffset.ofHours(10)),
                DueInRecord.RULE);
        filing = new Filing(records);
        states = new VisitStates(records);
        filing.take(year.resolve("2-final"), KIM, "");
        key();
        sign();
        Path office = Files.createDirectories(folder.resolve("office"));
        Files.writeString(office.resolve("register.yaml"), """
            steamwright-register: 1
            sterilizers:
              - {id: ST-1, serial: EX-1001, done: [{duty: validation, on: 2026-03-02, evidence: DEMO-2026-001}]}
            """);
        new RegisterFiling(records).take(office, KIM, "");
        assertThat(validation()).isEqualTo("due in 362 days, on 2027-03-02");
        filing.withdraw(filing.visit(NUMBER), NAME, "indicator grew", secret(), KIM);
        assertThat(validation()).isEqualTo("due now, never recorded as done");
    }

    @Test
    void a_signed_visit_is_evidence_until_it_is_withdrawn_and_its_counters_are_readings() throws Exception {
        records.close();
        records = Records.open(
                Place.folder(folder),
                Clock.fixed(Instant.parse("2026-03-04T09:00:00Z"), ZoneOffset.ofHours(10)),
                DueInRecord.RULE);
        filing = new Filing(records);
        states = new VisitStates(records);
        filing.take(year.resolve("2-final"), KIM, "");
        key();
        Path office = Files.createDirectories(folder.resolve("office"));
        Files.writeString(office.resolve("register.yaml"), """
            steamwright-register: 1
            sterilizers:
              - {id: ST-1, serial: EX-1001, counter: {readings: [{on: 2025-11-02, shows: 100}]}}
            """);
        new RegisterFiling(records).take(office, KIM, "");
        assertThat(validation()).isEqualTo("due now, never recorded as done");
        sign();
        assertThat(validation()).isEqualTo("due in 362 days, on 2027-03-02");
        SterilizerRecord machine =
                new RegisterFiling(records).register().sterilizers().get(0);
        assertThat(machine.done())
                .allMatch(done -> done.evidence().equals(NUMBER))
                .hasSizeGreaterThan(1);
        Sterilizer seen = filing.assess(filing.visit(NUMBER).visit())
                .visit()
                .sterilizers()
                .get(0);
        assertThat(machine.counter().readings())
                .extracting(Counter.Reading::shown)
                .containsExactly(100L, (long) seen.counterAtArrival().orElseThrow(), (long)
                        seen.counterAtDeparture().orElseThrow());
        assertThat(new RegisterFiling(records).take(office, KIM, "").changed())
                .as("the register as it was stated is not touched, and doesn't touch it")
                .isZero();
        assertThat(validation()).isEqualTo("due in 362 days, on 2027-03-02");
        assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                .isEmpty();
        filing.withdraw(filing.visit(NUMBER), NAME, "indicator grew", secret(), KIM);
        assertThat(validation()).isEqualTo("due now, never recorded as done");
    }

    @Test
    void an_interim_report_is_no_evidence_of_a_validation_and_the_final_one_is() throws Exception {
        filing.take(year.resolve("1-interim"), KIM, "");
        key();
        Path office = Files.createDirectories(folder.resolve("office"));
        Files.writeString(office.resolve("register.yaml"), """
            steamwright-register: 1
            sterilizers: [{id: ST-1, serial: EX-1001}]
            """);
        new RegisterFiling(records).take(office, KIM, "");
        sign();
        assertThat(validation()).isEqualTo("due now, never recorded as done");
        filing.amend(NUMBER, "indicators read", KIM);
        filing.take(year.resolve("2-final"), KIM, "indicators read");
        sign();
        assertThat(validation()).isEqualTo("due in 362 days, on 2027-03-02");
    }

    private String validation() throws Exception {
        return new DueInRecord(records)
                        .list(
                                DataFiles.dueRules(),
                                true,
                                Today.on(LocalDate.of(2026, 3, 5)),
                                ZoneOffset.UTC,
                                Optional.of(LocalDate.of(2027, 12, 31)))
                        .stream()
                        .filter(due -> due.title().equals("Validation")
                                && due.subject().id().equals("ST-1"))
                        .findFirst()
                        .orElseThrow()
                        .when();
    }

    @Test
    void what_the_register_says_since_the_visit_speaks_against_it() throws Exception {
        LocalDate day = LocalDate.of(2026, 3, 10);
        filing.take(year.resolve("2-final"), KIM, "");
        key();
        sign();
        Path office = Files.createDirectories(folder.resolve("office"));
        Files.writeString(office.resolve("register.yaml"), """
            steamwright-register: 1
            sterilizers:
              - id: ST-1
                serial: EX-1001
                status: out-of-service
                movements: [{on: 2026-03-05, reason: lent}]
                changes:
                  - {on: 2026-03-06, reason: sensor, what: sensor exchanged}
                  - {on: 2026-03-06, reason: seal-filter-hose, what: seal, settled-on: 2026-03-07}
                  - {on: 2026-03-20, reason: sensor, what: still to come}
            """);
        new RegisterFiling(records).take(office, KIM, "");
        assertThat(ask("134 wrapped", day).coverage().reasons())
                .containsExactly(
                        "The register has it as out of service.",
                        "On 2026-03-05 it was moved (lent). That ended it.",
                        "On 2026-03-06: sensor exchanged. The tests that this asks for are not recorded as passed.");
        assertThat(new CoverageInRecord(records).sterilizer("ST-1").text("serial"))
                .as("known by its id in the register too")
                .isEqualTo("EX-1001");
        assertThatThrownBy(() -> new CoverageInRecord(records).sterilizer("nobody"))
                .hasMessageContaining("knows no steriliser");
    }
}
