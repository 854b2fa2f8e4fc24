package org.steamwright.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/** Visits that still want something, on both engines. */
class AheadBookTest {

    private static final Author ALEX = new Author("Alex Example", "office");
    private static final LocalDate TODAY = LocalDate.of(2026, 8, 3);

    /** A visit awaits what its fact says. */
    private static final DueRule AS_STATED = new DueRule() {
        @Override
        public List<DueDate> due(Subject sterilizer, List<Subject> visits) {
            return List.of();
        }

        @Override
        public Optional<Instant> awaits(Subject visit) {
            return visit.fact("awaits").map(moment -> Instant.parse(moment.plain()));
        }

        @Override
        public Optional<LocalDate> lapses(Subject subject) {
            return subject.fact("ends").map(day -> LocalDate.parse(day.plain()));
        }
    };

    @TempDir
    Path folder;

    private static SubjectId visit(Records records, Map<String, ?> facts) {
        SubjectId id = records.newSubject();
        records.append(ALEX, Records.changes(Kind.VISIT, id, facts));
        return id;
    }

    private static SubjectId issue(Records records, SubjectId visit, Map<String, ?> more) {
        SubjectId id = records.newSubject();
        Map<String, Object> facts = new HashMap<>(more);
        facts.put("visit", visit.toString());
        records.append(ALEX, Records.changes(Kind.ISSUE, id, facts));
        return id;
    }

    private static List<SubjectId> ids(List<AheadVisit> rows) {
        return rows.stream().map(AheadVisit::visit).toList();
    }

    private static List<String> differences(Records records) {
        return Verifier.verify(records, List.of(), Reassessment.NONE).differences().stream()
                .map(Object::toString)
                .filter(text -> text.contains("still wants"))
                .toList();
    }

    @ParameterizedTest
    @EnumSource
    void a_visit_stands_among_them_until_nothing_is_wanted_of_it(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        try (Records records = Records.open(place, new TestClock(), AS_STATED)) {
            SubjectId old = visit(records, Map.of("date", "2026-07-01", "awaits", "2026-07-08T06:30:00Z"));
            SubjectId dayless = visit(records, Map.of("number", "R-2", "date", "some day"));
            SubjectId today = visit(records, Map.of("date", "2026-08-03", "awaits", "2026-08-03T09:00:00Z"));
            SubjectId later = visit(records, Map.of("date", "2026-09-02"));
            SubjectId sooner = visit(records, Map.of("date", "2026-08-04"));
            AheadBook ahead = records.ahead();
            assertThat(ids(ahead.open(TODAY, 0, 10))).containsExactly(today, old, dayless);
            assertThat(ids(ahead.open(TODAY, 1, 1))).containsExactly(old);
            assertThat(ahead.countOpen(TODAY)).isEqualTo(3);
            assertThat(ids(ahead.planned(TODAY, 10))).containsExactly(sooner, later);
            assertThat(ahead.countPlanned(TODAY)).isEqualTo(2);
            assertThat(ids(ahead.awaiting(10))).containsExactly(old, today);
            assertThat(ahead.countAwaiting()).isEqualTo(2);
            assertThat(ahead.countAwaiting(Instant.parse("2026-08-03T08:59:59Z")))
                    .isEqualTo(1);
            assertThat(ahead.countAwaiting(Instant.parse("2026-08-03T09:00:00Z")))
                    .isEqualTo(2);

            // read: nothing is awaited; given up, signed: gone
            records.append(ALEX, List.of(Change.set(Kind.VISIT, today, "awaits", JsonText.NULL)));
            records.append(ALEX, Records.changes(Kind.VISIT, dayless, Map.of(Issues.BROKEN_OFF, "a mistake")));
            issue(records, sooner, Map.of("number", "R-5"));
            assertThat(ids(ahead.awaiting(10))).containsExactly(old);
            assertThat(ids(ahead.open(TODAY, 0, 10))).containsExactly(today, old);
            assertThat(ids(ahead.planned(TODAY, 10))).containsExactly(later);
            assertThat(differences(records)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource
    void an_interim_report_stands_among_them_until_its_correction_is_signed(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        try (Records records = Records.open(place, new TestClock(), AS_STATED)) {
            AheadBook ahead = records.ahead();
            SubjectId first = visit(records, Map.of("date", "2026-07-01", "awaits", "2026-07-08T06:30:00Z"));
            SubjectId interim = issue(records, first, Map.of(Issues.INTERIM_UNTIL, "2026-07-10"));
            Instant moment = Instant.parse("2026-07-08T06:30:00Z");
            assertThat(ahead.awaiting(10))
                    .as("signed, and read by nobody")
                    .containsExactly(new AheadVisit(first, true, "2026-07-01", Optional.of(moment)));
            assertThat(ahead.awaitingAfter(moment, 10)).isEmpty();
            assertThat(ids(ahead.awaitingAfter(moment.minusSeconds(1), 10))).containsExactly(first);
            SubjectId undated = visit(records, Map.of("date", "2026-07-02"));
            issue(records, undated, Map.of(Issues.INTERIM_UNTIL, "2026-07-10"));
            assertThat(ids(ahead.interimWithoutMoment(10))).containsExactly(undated);
            assertThat(ahead.countInterimWithoutMoment()).isEqualTo(1);

            Map<String, String> amends = Map.of("id", interim.toString(), "reason", "indicators were read");
            SubjectId correction = visit(records, Map.of("date", "2026-07-01", "amends", amends));
            assertThat(ids(ahead.open(TODAY, 0, 10))).containsExactly(correction);
            assertThat(ahead.countAwaiting()).as("told once, by the correction").isZero();
            records.append(ALEX, Records.changes(Kind.VISIT, correction, Map.of(Issues.BROKEN_OFF, "not needed")));
            assertThat(ids(ahead.awaiting(10))).as("given up again").containsExactly(first);

            SubjectId second = visit(records, Map.of("date", "2026-07-01", "amends", amends));
            issue(records, second, Map.of("amends", amends));
            assertThat(ahead.awaiting(10)).isEmpty();
            assertThat(ahead.open(TODAY, 0, 10)).isEmpty();
            assertThat(differences(records)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_row_that_is_not_what_the_facts_say_is_found_and_made_anew(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        try (Records records = Records.open(place, new TestClock(), AS_STATED)) {
            SubjectId visit = visit(records, Map.of("date", "2026-07-01", "awaits", "2026-07-08T06:30:00Z"));
            records.database().write(session -> session.run("update ahead set awaits = ''"));
            assertThat(differences(records)).hasSize(1);
            records.database().write(session -> session.run("delete from ahead"));
            assertThat(differences(records)).hasSize(1);
            records.rebuildIndex();
            assertThat(differences(records)).isEmpty();
            assertThat(ids(records.ahead().awaiting(10))).containsExactly(visit);
        }
    }

    @ParameterizedTest
    @EnumSource
    void an_index_that_was_made_without_a_rule_is_made_anew_with_one(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        SubjectId visit;
        try (Records records = Records.open(place, new TestClock())) {
            visit = visit(records, Map.of("date", "2026-07-01", "awaits", "2026-07-08T06:30:00Z"));
            assertThat(records.ahead().countAwaiting()).isZero();
        }
        try (Records records = Records.open(place, new TestClock(), AS_STATED)) {
            assertThat(ids(records.ahead().awaiting(10))).containsExactly(visit);
        }
    }

    private static SubjectId of(Records records, Kind kind, Map<String, ?> facts) {
        SubjectId id = records.newSubject();
        records.append(ALEX, Records.changes(kind, id, facts));
        return id;
    }

    @ParameterizedTest
    @EnumSource
    void what_the_office_has_stands_there_by_the_day_on_which_it_ends(Stores.Engine engine) {
        Place place = Stores.fresh(engine, folder);
        AheadLapse.Span span = new AheadLapse.Span(TODAY.minusDays(366), TODAY.minusDays(60), TODAY.plusDays(60));
        SubjectId logger;
        SubjectId person;
        SubjectId unstated;
        try (Records records = Records.open(place, new TestClock(), AS_STATED)) {
            logger = of(records, Kind.INSTRUMENT, Map.of("ends", "2026-02-01"));
            of(records, Kind.LOT, Map.of("ends", "2026-02-01"));
            SubjectId lot = of(records, Kind.LOT, Map.of("ends", "2026-08-03"));
            person = of(records, Kind.TECHNICIAN, Map.of("ends", "2026-10-02"));
            of(records, Kind.INSTRUMENT, Map.of("ends", "2026-10-03"));
            of(records, Kind.INSTRUMENT, Map.of("ends", "2025-08-01"));
            of(records, Kind.INSTRUMENT, Map.of("name", "without an end"));
            of(records, Kind.STERILIZER, Map.of("ends", "2026-08-03"));
            unstated = of(records, Kind.INSTRUMENT, Map.of("ends", AheadLapse.NOT_STATED.toString()));
            assertThat(records.ahead().lapses(span, 0, 10))
                    .as("what states no day first; neither too far back, a lot sooner, nor too far ahead, nor machines")
                    .extracting(AheadLapse::subject)
                    .containsExactly(unstated, logger, lot, person);
            assertThat(records.ahead().lapses(span, 1, 2))
                    .extracting(AheadLapse::subject)
                    .containsExactly(logger, lot);
            assertThat(records.ahead().countLapses(span)).isEqualTo(4);
            records.append(ALEX, Records.changes(Kind.LOT, lot, Map.of("ends", "2028-01-01")));
            assertThat(records.ahead().lapses(span, 0, 10))
                    .as("a newer day is followed at once")
                    .extracting(AheadLapse::subject)
                    .containsExactly(unstated, logger, person);
            assertThat(records.ahead().open(TODAY, 0, 10))
                    .as("they are no visits")
                    .isEmpty();
            assertThat(differences(records)).isEmpty();
        }
        try (Records records = Records.open(place, new TestClock())) {
            assertThat(differences(records))
                    .as("without a rule nobody knows better")
                    .isEmpty();
        }
        try (Records records = Records.open(place, new TestClock(), AS_STATED)) {
            assertThat(records.ahead().lapses(span, 0, 10))
                    .extracting(AheadLapse::subject)
                    .containsExactly(unstated, logger, person);
        }
    }
}
