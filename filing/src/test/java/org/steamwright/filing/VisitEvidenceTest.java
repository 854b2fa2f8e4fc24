package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.signing.Issue;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.state.VisitState;

/** What signed visits show of a machine, beside what the register states of it. */
class VisitEvidenceTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);
    private static final Author KIM = new Author("Kim Sample (invented)", "office");

    @TempDir
    Path folder;

    private static Counter.Reading reading(LocalDate on, long shown, String evidence) {
        return new Counter.Reading(on, shown, evidence);
    }

    private static SterilizerRecord machine(Counter counter, SterilizerRecord.Done... done) {
        return new SterilizerRecord(
                "ST-1",
                new SterilizerRecord.Identity("Example Works", "Small", "", "EX-1", "2021", Optional.empty()),
                SterilizerRecord.Status.IN_USE,
                false,
                "",
                List.of(),
                List.of(),
                counter,
                List.of(),
                List.of(),
                List.of(),
                List.of(done),
                List.of(),
                List.of());
    }

    private static Subject subject(Map<String, Object> shown) {
        TreeMap<String, JsonText> facts = new TreeMap<>();
        facts.put(Shelf.STATED + "id", JsonText.of("ST-1"));
        facts.put("serial", JsonText.of("EX-1"));
        shown.forEach((number, value) ->
                facts.put(VisitEvidence.PREFIX + number, value.equals("") ? JsonText.NULL : JsonText.of(value)));
        return new Subject(new SubjectId(new UUID(1, 2)), Kind.STERILIZER, facts);
    }

    private static Map<String, Object> shown(LocalDate on, List<String> done, List<Integer> counter) {
        return Map.of("on", on.toString(), "done", done, "counter", counter);
    }

    @Test
    void duties_and_readings_of_signed_visits_stand_beside_what_is_stated() {
        SterilizerRecord.Done stated = new SterilizerRecord.Done(Duty.SERVICE, DAY.minusYears(1), "R-0");
        SterilizerRecord with = VisitEvidence.with(
                machine(new Counter(List.of(reading(DAY.minusYears(1), 100, "")), List.of()), stated),
                subject(Map.of("R-1", shown(DAY, List.of("validation", "service", "juggling"), List.of(1400, 1489)))));
        assertThat(with.done())
                .containsExactly(
                        stated,
                        new SterilizerRecord.Done(Duty.VALIDATION, DAY, "R-1"),
                        new SterilizerRecord.Done(Duty.SERVICE, DAY, "R-1"));
        assertThat(with.counter().readings())
                .containsExactly(
                        reading(DAY.minusYears(1), 100, ""), reading(DAY, 1400, "R-1"), reading(DAY, 1489, "R-1"));
    }

    @Test
    void what_is_stated_already_is_not_said_twice() {
        SterilizerRecord stated = machine(
                new Counter(List.of(reading(DAY, 1400, "by hand")), List.of()),
                new SterilizerRecord.Done(Duty.VALIDATION, DAY, "by hand"));
        SterilizerRecord with =
                VisitEvidence.with(stated, subject(Map.of("R-1", shown(DAY, List.of("validation"), List.of(1400)))));
        assertThat(with.done()).isEqualTo(stated.done());
        assertThat(with.counter()).isEqualTo(stated.counter());
        SterilizerRecord later = VisitEvidence.with(
                stated, subject(Map.of("R-1", shown(DAY.plusDays(1), List.of("validation"), List.of(1400)))));
        assertThat(later.done()).as("of another day").hasSize(2);
        assertThat(later.counter().readings()).as("of another day").hasSize(2);
        SterilizerRecord more =
                VisitEvidence.with(stated, subject(Map.of("R-1", shown(DAY, List.of("service"), List.of(1401)))));
        assertThat(more.done()).as("another duty").hasSize(2);
        assertThat(more.counter().readings()).as("another figure").hasSize(2);
    }

    @Test
    void a_duty_that_two_visits_of_one_day_show_has_the_number_of_each() {
        SterilizerRecord with = VisitEvidence.with(
                machine(Counter.UNREAD),
                subject(Map.of(
                        "R-1", shown(DAY, List.of("validation"), List.of()),
                        "R-2", shown(DAY, List.of("validation"), List.of()))));
        assertThat(with.done()).extracting(SterilizerRecord.Done::evidence).containsExactlyInAnyOrder("R-1", "R-2");
        assertThat(VisitEvidence.without(Set.of("R-1"), with).done())
                .as("one of them withdrawn, the other stands")
                .extracting(SterilizerRecord.Done::evidence)
                .containsExactly("R-2");
    }

    @Test
    void what_was_taken_away_by_a_later_issue_shows_nothing() {
        SterilizerRecord stated = machine(Counter.UNREAD);
        assertThat(VisitEvidence.with(stated, subject(Map.of("R-1", "")))).isSameAs(stated);
        assertThat(VisitEvidence.with(stated, subject(Map.of()))).isSameAs(stated);
        assertThat(VisitEvidence.with(stated, subject(Map.of("R-1", shown(DAY, List.of(), List.of(7)))))
                        .counter()
                        .readings())
                .as("a visit that shows readings alone")
                .hasSize(1);
        assertThat(VisitEvidence.with(stated, subject(Map.of("R-1", shown(DAY, List.of("service"), List.of()))))
                        .done())
                .as("a visit that shows duties alone")
                .hasSize(1);
    }

    @Test
    void a_reading_that_contradicts_the_others_is_left_out_and_the_later_ones_stand() {
        SterilizerRecord with = VisitEvidence.with(
                machine(new Counter(List.of(reading(DAY.minusDays(9), 1000, "")), List.of())),
                subject(Map.of(
                        "R-1", shown(DAY, List.of(), List.of(12)),
                        "R-2", shown(DAY.plusDays(1), List.of(), List.of(1010)))));
        assertThat(with.counter().readings()).extracting(Counter.Reading::shown).containsExactly(1000L, 1010L);
        SterilizerRecord reset = VisitEvidence.with(
                machine(new Counter(
                        List.of(reading(DAY.minusDays(9), 1000, "")),
                        List.of(new Counter.Reset(DAY.minusDays(1), 1005, 0, "board exchanged")))),
                subject(Map.of("R-1", shown(DAY, List.of(), List.of(12)))));
        assertThat(reset.counter().last()).contains(new Counter.Total(DAY, 1017));
        assertThat(reset.counter().resets()).hasSize(1);
    }

    /** Taken in order of their days whatever their numbers: else the first to come would push the others out. */
    @Test
    void readings_are_taken_in_the_order_of_their_days() {
        SterilizerRecord with = VisitEvidence.with(
                machine(Counter.UNREAD),
                subject(Map.of(
                        "R-1", shown(DAY.plusDays(2), List.of(), List.of(5)),
                        "R-2", shown(DAY.plusDays(1), List.of(), List.of(30, 20)),
                        "R-3", shown(DAY, List.of(), List.of(10)))));
        assertThat(with.counter().readings()).extracting(Counter.Reading::shown).containsExactly(10L, 20L, 30L);
    }

    @Test
    void a_withdrawn_report_shows_neither_duties_nor_readings() {
        SterilizerRecord all = machine(
                new Counter(
                        List.of(reading(DAY, 1400, "R-1"), reading(DAY.plusDays(1), 1500, "R-2")),
                        List.of(new Counter.Reset(DAY.minusDays(1), 10, 0, "board exchanged"))),
                new SterilizerRecord.Done(Duty.VALIDATION, DAY, "R-1"),
                new SterilizerRecord.Done(Duty.SERVICE, DAY, "R-2"));
        SterilizerRecord without = VisitEvidence.without(Set.of("R-1"), all);
        assertThat(without.done()).extracting(SterilizerRecord.Done::evidence).containsExactly("R-2");
        assertThat(without.counter().readings())
                .extracting(Counter.Reading::evidence)
                .containsExactly("R-2");
        assertThat(without.counter().resets()).isEqualTo(all.counter().resets());
        assertThat(VisitEvidence.without(Set.of("R-3"), all)).isEqualTo(all);
    }

    @Test
    void of_a_register_only_the_machines_that_were_visited_change() {
        SterilizerRecord one = machine(Counter.UNREAD);
        Register register =
                new Register(List.of(), List.of(one), List.of(), List.of(), List.of(), List.of(), List.of());
        assertThat(VisitEvidence.in(register, List.of(subject(Map.of())))).isSameAs(register);
        Register with = VisitEvidence.in(
                register, List.of(subject(Map.of("R-1", shown(DAY, List.of("validation"), List.of())))));
        assertThat(with.sterilizers().get(0).done()).hasSize(1);
        Subject other = new Subject(
                new SubjectId(new UUID(3, 4)),
                Kind.STERILIZER,
                new TreeMap<>(Map.of(
                        Shelf.STATED + "id",
                        JsonText.of("ST-2"),
                        VisitEvidence.PREFIX + "R-1",
                        JsonText.of(shown(DAY, List.of("validation"), List.of())))));
        assertThat(VisitEvidence.in(register, List.of(other)).sterilizers()).containsExactly(one);
    }

    // what is entered when a visit is signed

    private Records open() {
        return Records.open(Place.folder(folder.resolve("record")), KilledSigner.CLOCK);
    }

    private static Subject add(Records records, Kind kind, Map<String, Object> facts) {
        SubjectId id = records.newSubject();
        records.append(
                KIM,
                facts.entrySet().stream()
                        .map(fact -> Change.set(kind, id, fact.getKey(), JsonText.of(fact.getValue())))
                        .toList());
        return records.subject(id);
    }

    private static StatedVisit stated(Subject visit, VisitState state) {
        return new StatedVisit(visit, state, Optional.<Issue>empty(), Optional.empty(), "");
    }

    private static AssessedVisit yearly() {
        return YearVisits.assessed("2-final");
    }

    private static Optional<JsonText> entered(List<Change> changes, Subject machine) {
        return changes.stream()
                .filter(change -> change.subject().equals(machine.id()))
                .map(Change::value)
                .findFirst();
    }

    @Test
    void each_machine_of_a_visit_gets_what_the_visit_shows_of_it() {
        try (Records records = open()) {
            Subject one = add(records, Kind.STERILIZER, Map.of("serial", "EX-1001"));
            Subject two = add(records, Kind.STERILIZER, Map.of("serial", "EX-2002"));
            Subject visit = add(
                    records,
                    Kind.VISIT,
                    Map.of("number", KilledSigner.NUMBER, "sterilizer", List.of(one.id() + "", two.id() + "")));
            List<Change> changes = new VisitEvidence(records).changes(visit, yearly());
            assertThat(changes).extracting(Change::property).containsOnly(VisitEvidence.PREFIX + KilledSigner.NUMBER);
            assertThat(entered(changes, one).orElseThrow().node().toString())
                    .contains("\"on\":\"2026-03-02\"")
                    .contains("\"validation\"")
                    .contains("\"counter\":[");
            assertThat(entered(changes, one).orElseThrow().node().path("counter"))
                    .hasSize(2);
            assertThat(entered(changes, two).orElseThrow().node().toString()).doesNotContain("validation");
            assertThat(changes).extracting(Change::why).containsOnly("report " + KilledSigner.NUMBER);
            records.append(KIM, changes);
            assertThat(new VisitEvidence(records).changes(visit, yearly()))
                    .as("entered once")
                    .isEmpty();
        }
    }

    private static AssessedVisit stating(String number, Optional<LocalDate> day) {
        Visit bare = yearly().visit();
        return Visits.assess(new Visit(
                number,
                bare.purpose(),
                day,
                bare.zone(),
                bare.company(),
                bare.clinic(),
                bare.sterilizers(),
                bare.people(),
                bare.conditions(),
                bare.instruments(),
                bare.checklists(),
                List.of(),
                bare.criteriaSet(),
                bare.deviations(),
                bare.recommendations(),
                bare.nextDue(),
                bare.notTested(),
                bare.remarks()));
    }

    @Test
    void a_visit_without_a_number_or_a_day_is_evidence_of_nothing() {
        try (Records records = open()) {
            Subject one = add(records, Kind.STERILIZER, Map.of("serial", "EX-1001"));
            Subject visit = add(records, Kind.VISIT, Map.of("sterilizer", List.of(one.id() + "")));
            VisitEvidence evidence = new VisitEvidence(records);
            assertThat(evidence.changes(visit, stating(" ", Optional.of(DAY)))).isEmpty();
            assertThat(evidence.changes(visit, stating("R-7", Optional.empty())))
                    .isEmpty();
            assertThat(evidence.changes(visit, stating("R-7", Optional.of(DAY))))
                    .hasSize(1);
        }
    }

    @Test
    void a_machine_that_a_later_issue_leaves_out_loses_what_the_earlier_one_showed() {
        try (Records records = open()) {
            Subject one = add(records, Kind.STERILIZER, Map.of("serial", "EX-1001"));
            Subject two = add(records, Kind.STERILIZER, Map.of("serial", "EX-2002"));
            Subject wrong = add(records, Kind.STERILIZER, Map.of("serial", "EX-1001"));
            Subject never = add(records, Kind.STERILIZER, Map.of("serial", "EX-3003"));
            Map<String, Object> facts =
                    Map.of("number", KilledSigner.NUMBER, "sterilizer", List.of(wrong.id() + "", two.id() + ""));
            Subject earlier = add(records, Kind.VISIT, facts);
            add(records, Kind.VISIT, Map.of("number", KilledSigner.NUMBER, "sterilizer", List.of(never.id() + "")));
            records.append(KIM, new VisitEvidence(records).changes(earlier, yearly()));
            Subject later = add(
                    records,
                    Kind.VISIT,
                    Map.of("number", KilledSigner.NUMBER, "sterilizer", List.of(one.id() + "", two.id() + "")));
            List<Change> changes = new VisitEvidence(records).changes(later, yearly());
            assertThat(entered(changes, one)).isPresent();
            assertThat(entered(changes, two)).as("shows the same").isEmpty();
            assertThat(entered(changes, wrong)).contains(JsonText.NULL);
            assertThat(entered(changes, never))
                    .as("nothing is taken away where nothing was")
                    .isEmpty();
            assertThat(changes.stream().filter(change -> change.subject().equals(wrong.id())))
                    .extracting(Change::why)
                    .containsExactly("not in the later issue of report " + KilledSigner.NUMBER);
        }
    }

    @Test
    void what_is_out_and_was_not_entered_is_made_up_once_and_nothing_else_is() {
        try (Records records = open()) {
            Subject one = add(records, Kind.STERILIZER, Map.of("serial", "EX-1001"));
            Subject two = add(records, Kind.STERILIZER, Map.of("serial", "EX-2002"));
            Subject visit = add(
                    records,
                    Kind.VISIT,
                    Map.of("number", KilledSigner.NUMBER, "sterilizer", List.of(one.id() + "", two.id() + "")));
            VisitEvidence evidence = new VisitEvidence(records);
            for (VisitState state : VisitState.values()) {
                if (!state.isOut()) {
                    evidence.makeUp(stated(visit, state), yearly());
                    assertThat(evidence.isEntered(stated(visit, state)))
                            .as("nothing is to be entered")
                            .isTrue();
                }
            }
            String fact = VisitEvidence.PREFIX + KilledSigner.NUMBER;
            assertThat(records.subject(one.id()).fact(fact)).isEmpty();
            assertThat(evidence.isEntered(stated(visit, VisitState.ISSUED))).isFalse();
            evidence.makeUp(stated(visit, VisitState.ISSUED), yearly());
            assertThat(evidence.isEntered(stated(visit, VisitState.ISSUED))).isTrue();
            assertThat(evidence.isEntered(stated(visit, VisitState.INTERIM))).isTrue();
            JournalEntry entry = records.history(one.id()).stream()
                    .filter(change -> change.property().equals(fact))
                    .findFirst()
                    .orElseThrow();
            assertThat(entry.author()).isEqualTo(new Author("Steamwright", "program"));
            long size = records.head().tree().size();
            evidence.makeUp(stated(visit, VisitState.ISSUED), yearly());
            assertThat(records.head().tree().size()).as("made up once").isEqualTo(size);
            records.append(KIM, List.of(Change.set(Kind.STERILIZER, two.id(), fact, JsonText.NULL)));
            assertThat(evidence.isEntered(stated(visit, VisitState.ISSUED)))
                    .as("one of two is not all")
                    .isFalse();
        }
    }

    @Test
    void a_visit_of_machines_that_the_record_does_not_know_enters_nothing() {
        try (Records records = open()) {
            Subject visit = add(
                    records,
                    Kind.VISIT,
                    Map.of("number", KilledSigner.NUMBER, "sterilizer", List.of(records.newSubject() + "")));
            assertThat(new VisitEvidence(records).changes(visit, yearly())).isEmpty();
        }
    }
}
