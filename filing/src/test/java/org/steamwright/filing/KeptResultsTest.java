package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.filing.fleet.FigureReading;
import org.steamwright.filing.fleet.Trend;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.verify.Verifier;
import org.steamwright.simulator.DemoVisit;

/** Results that are kept beside the visits: assessed once, as the visits stand, and never trusted unseen. */
class KeptResultsTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final LocalDate FROM = LocalDate.of(2000, 1, 1);
    private static final LocalDate UNTIL = LocalDate.of(2099, 12, 31);

    @TempDir
    Path folder;

    private Records open() {
        return Records.open(
                Place.folder(folder.resolve("record")),
                Clock.fixed(Instant.parse("2026-08-03T07:30:00Z"), ZoneOffset.UTC),
                DueInRecord.RULE);
    }

    @Test
    void each_visit_is_assessed_once_and_again_only_when_its_files_change() throws Exception {
        try (Records records = open()) {
            Filing filing = new Filing(records);
            for (Path visit : DemoVisit.writeYear(folder.resolve("year"))) {
                filing.take(visit, KIM, "taken");
            }
            List<Subject> assessed = new ArrayList<>();
            KeptResults results = new KeptResults(records, visit -> {
                assessed.add(visit);
                return filing.assess(visit);
            });
            long visits = records.count(Kind.VISIT);
            assertThat(results.book().countWaiting()).isEqualTo(visits).isPositive();
            assertThat(results.catchUp(1)).as("too many to be done at once").isEqualTo(visits);
            assertThat(results.catchUp(24)).isZero();
            assertThat(assessed).hasSize((int) visits);
            Subject visit = records.subjects(Kind.VISIT, 1).get(0);
            List<FigureReading> readings = FigureReading.of(filing.assess(visit));
            VisitResult kept = results.book().find(visit.id()).orElseThrow();
            assertThat(kept.figures()).hasSameSizeAs(readings).isNotEmpty();
            assertThat(kept.exceptions())
                    .as("one more: it was taken in months after its day")
                    .isEqualTo(KeptResults.exceptions(filing.assess(visit)) + 1);
            VisitResult.Figure figure = kept.figures().get(0);
            Trend trend = KeptResults.trend(results.book()
                    .figures(List.of(new VisitResult.Line(figure.figure(), figure.machine(), figure.cycle())))
                    .values()
                    .iterator()
                    .next());
            assertThat(trend.readings())
                    .anyMatch(reading ->
                            reading.value() == figure.value() && reading.limit().value() == figure.limit());
            assertThat(results.book().months(FROM, UNTIL).stream()
                            .mapToLong(VisitResult.Month::visits)
                            .sum())
                    .isEqualTo(visits);

            records.append(KIM, List.of(Change.set(Kind.VISIT, visit.id(), "review", "looked at")));
            assertThat(results.book().countWaiting()).isOne();
            results.catchUp(24);
            assertThat(assessed).as("no file changed, so nothing is assessed").hasSize((int) visits);
            assertThat(results.book().find(visit.id())).contains(kept);
            filing.breakOff(new VisitStates(records).of(records.subject(visit.id())), "begun twice", KIM);
            results.catchUp(24);
            assertThat(results.book().find(visit.id()).orElseThrow().state()).isEqualTo(VisitResult.GONE);
            assertThat(results.book().months(FROM, UNTIL).stream()
                            .mapToLong(VisitResult.Month::visits)
                            .sum())
                    .as("a visit that is gone counts no more")
                    .isEqualTo(visits - 1);
        }
    }

    @Test
    void two_makers_with_one_serial_number_have_lines_and_families_of_their_own() throws Exception {
        try (Records records = open()) {
            Filing filing = new Filing(records);
            Path folderOfVisit = DemoVisit.writeYear(folder.resolve("year")).get(0);
            Subject first = filing.take(folderOfVisit, KIM, "taken").visit();
            Subject machine = records.subject(SubjectId.parse(
                    first.fact("sterilizer").orElseThrow().node().get(0).asText()));
            String serial = machine.text("serial");
            Map<String, SubjectId> others = new HashMap<>();
            for (Subject one : records.subjects(Kind.STERILIZER, 9)) {
                SubjectId id = records.newSubject();
                others.put(one.text("serial"), id);
                records.append(
                        KIM,
                        Records.changes(
                                Kind.STERILIZER,
                                id,
                                Map.of(
                                        "serial",
                                        one.text("serial"),
                                        "maker",
                                        "Other Works (invented)",
                                        "model",
                                        one.text("model"))));
            }
            SubjectId other = others.getOrDefault(serial, machine.id());
            Path facts = folderOfVisit.resolve("visit.yaml");
            Files.writeString(
                    facts,
                    Files.readString(facts)
                            .replace(machine.text("maker"), "Other Works (invented)")
                            .replace(first.text("number"), "OTHER-1"));
            Subject second = filing.take(folderOfVisit, KIM, "taken").visit();
            KeptResults results = new KeptResults(records, filing::assess);
            results.catchUp(24);

            assertThat(results.book().machinesOf(serial))
                    .containsExactlyInAnyOrder(machine.id().toString(), other.toString());
            VisitResult.Figure figure = results.book().find(second.id()).orElseThrow().figures().stream()
                    .filter(one -> one.serial().equals(serial))
                    .findFirst()
                    .orElseThrow();
            assertThat(figure.machine()).isEqualTo(other.toString());
            List<VisitResult.LineStanding> lines = results.book().lines(figure.figure(), 0, 99).stream()
                    .filter(one -> one.line().cycle().equals(figure.cycle())
                            && one.serial().equals(serial))
                    .toList();
            assertThat(lines)
                    .extracting(VisitResult.LineStanding::family)
                    .as("one model name of two makers is no family")
                    .doesNotHaveDuplicates()
                    .hasSize(2);
            for (VisitResult.LineStanding one : lines) {
                assertThat(results.book().figures(List.of(one.line())).get(one.line()))
                        .as("figures of %s", one)
                        .hasSize(1);
                assertThat(results.book().countFamily(figure.figure(), one.family(), figure.cycle()))
                        .isOne();
            }

            // somebody tells that the visit meant the first machine after all
            records.append(
                    KIM,
                    List.of(Change.set(
                            Kind.VISIT,
                            second.id(),
                            "sterilizer",
                            first.fact("sterilizer").orElseThrow())));
            results.catchUp(24);
            assertThat(results.book().machinesOf(serial))
                    .containsExactly(machine.id().toString());
        }
    }

    @Test
    void a_visit_that_can_not_be_read_is_kept_as_not_assessed_and_does_not_stop_the_others() throws Exception {
        try (Records records = open()) {
            Filing filing = new Filing(records);
            List<Path> year = DemoVisit.writeYear(folder.resolve("year"));
            Subject sound = filing.take(year.get(0), KIM, "taken").visit();
            Subject damaged = filing.take(year.get(2), KIM, "taken").visit();
            Path file = records.files()
                    .path(VisitFiles.of(damaged).entrySet().stream()
                            .filter(one -> one.getKey().endsWith(".csv"))
                            .findFirst()
                            .orElseThrow()
                            .getValue());
            byte[] bytes = Files.readAllBytes(file);
            Files.writeString(file, "something else");
            KeptResults results = new KeptResults(records, filing::assess);
            assertThat(results.work(24)).isFalse();
            assertThat(results.book().countWaiting()).isZero();
            assertThat(results.book().find(sound.id()).orElseThrow().figures()).isNotEmpty();
            VisitResult kept = results.book().find(damaged.id()).orElseThrow();
            assertThat(kept.standing()).isBlank();
            assertThat(kept.why().text()).startsWith("RECORD-017").contains("the bytes are not those that were kept");
            assertThat(results.book().unassessed(5))
                    .extracting(VisitResult::visit)
                    .containsExactly(damaged.id());
            assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                    .as("the file is told of, the lists are as they were kept")
                    .allMatch(difference -> !difference.toString().contains("result of subject"));

            Files.write(file, bytes);
            new KeptResults(records, filing::assess).work(24);
            assertThat(results.book().find(damaged.id()).orElseThrow().standing())
                    .as("the file came back from a backup")
                    .isNotBlank();
        }
    }

    @Test
    void a_visit_of_which_nothing_is_written_down_says_that_and_names_no_folder_of_the_reading() throws Exception {
        try (Records records = open()) {
            SubjectId visit = records.newSubject();
            records.append(KIM, List.of(Change.set(Kind.VISIT, visit, "number", "R-9")));
            new KeptResults(records, new Drafts(records)::assess).work(24);
            VisitResult.Reason why = results(records, visit).why();
            assertThat(why.place()).isEqualTo("the visit");
            assertThat(why.text())
                    .isEqualTo("nothing is written down of it yet, expected at least its sterilisers and its runs."
                            + " Enter them, or break the visit off.");
        }
    }

    private static VisitResult results(Records records, SubjectId visit) {
        return records.results().find(visit).orElseThrow();
    }

    @Test
    void a_mistake_of_the_program_is_told_at_the_visit() throws Exception {
        Logger log = Logger.getLogger(KeptResults.class.getName());
        log.setLevel(Level.OFF);
        try (Records records = open()) {
            Filing filing = new Filing(records);
            Subject visit = filing.take(
                            DemoVisit.writeYear(folder.resolve("year")).get(0), KIM, "taken")
                    .visit();
            KeptResults results = new KeptResults(records, unread -> {
                throw new IllegalStateException("no such phase");
            });
            assertThat(results.catchUp(5)).isZero();
            assertThat(results.book().find(visit.id()).orElseThrow().why().text())
                    .contains("The program made a mistake")
                    .contains("no such phase");
        } finally {
            log.setLevel(null);
        }
    }

    @Test
    void a_list_does_not_wait_for_a_large_visit_that_somebody_else_is_at() throws Exception {
        try (Records records = open()) {
            Filing filing = new Filing(records);
            List<Path> year = DemoVisit.writeYear(folder.resolve("year"));
            filing.take(year.get(0), KIM, "taken");
            Subject large = filing.take(year.get(2), KIM, "taken").visit();
            CountDownLatch begun = new CountDownLatch(1);
            CountDownLatch end = new CountDownLatch(1);
            KeptResults results = new KeptResults(
                    records,
                    visit -> {
                        if (visit.id().equals(large.id())) {
                            begun.countDown();
                            try {
                                end.await();
                            } catch (InterruptedException stopped) {
                                throw new IOException(stopped);
                            }
                        }
                        return filing.assess(visit);
                    },
                    Duration.ofMillis(50));
            Thread background = new Thread(() -> results.work(1));
            background.start();
            begun.await();
            assertThat(results.catchUp(24)).as("all but the large one").isOne();
            end.countDown();
            background.join();
            assertThat(results.book().countWaiting()).isZero();
            assertThat(results.book().unassessed(5)).isEmpty();
        }
    }

    @Test
    void verify_finds_a_result_that_was_changed_and_making_the_index_again_mends_it() throws Exception {
        try (Records records = open()) {
            Filing filing = new Filing(records);
            filing.take(DemoVisit.writeYear(folder.resolve("year")).get(0), KIM, "taken");
            KeptResults results = new KeptResults(records, filing::assess);
            results.catchUp(24);
            assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                    .isEmpty();
            for (String spoil : List.of(
                    "update figure set value = value + 0.5",
                    "update line set pressing = '0'",
                    "update result set exceptions = exceptions + 1",
                    "delete from line",
                    "delete from result")) {
                try (Connection raw = DriverManager.getConnection(
                                "jdbc:sqlite:" + records.place().database());
                        Statement statement = raw.createStatement()) {
                    assertThat(statement.executeUpdate(spoil)).as(spoil).isPositive();
                }
                assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                        .as(spoil)
                        .isNotEmpty();
                records.rebuildIndex();
                results.catchUp(24);
                assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                        .as("made again after: %s", spoil)
                        .isEmpty();
            }
        }
    }
}
