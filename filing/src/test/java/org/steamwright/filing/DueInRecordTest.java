package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueStart;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Submission;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.verify.Verifier;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.due.Today;

/** The due list of a record, by its index, is that of the whole register. */
class DueInRecordTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "office");
    private static final LocalDate BEGIN = LocalDate.of(2024, 1, 1);
    private static final DueRules RULES = DataFiles.dueRules();

    @TempDir
    Path folder;

    private Records open() {
        return Records.open(
                Place.folder(folder.resolve("record")),
                Clock.fixed(Instant.parse("2026-03-04T09:00:00Z"), ZoneOffset.UTC),
                DueInRecord.RULE);
    }

    private static List<Due> whole(Records records, LocalDate on, Optional<LocalDate> until) throws Exception {
        return DueList.of(new RegisterFiling(records).register(), RULES, on).stream()
                .filter(due -> until.isEmpty() || due.concerns(until.get()))
                .toList();
    }

    private static List<Due> indexed(Records records, LocalDate on, Optional<LocalDate> until) throws Exception {
        return new DueInRecord(records).list(RULES, true, Today.on(on), ZoneOffset.UTC, until);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void the_list_by_the_index_is_the_list_of_the_whole_register(long seed) throws Exception {
        Random random = new Random(seed);
        try (Records records = open()) {
            int named = 0;
            int left = 0;
            for (int round = 0; round < 2; round++) {
                Path office = Files.createDirectories(folder.resolve("office" + round));
                Files.writeString(office.resolve("register.yaml"), register(random));
                new RegisterFiling(records).take(office, KIM, "changed");
                visitsShow(random, records);
                for (int i = 0; i < 6; i++) {
                    LocalDate on = BEGIN.plusDays(random.nextInt(900));
                    LocalDate until = on.plusDays(random.nextInt(500) - 60);
                    List<Due> expected = whole(records, on, Optional.of(until));
                    assertThat(indexed(records, on, Optional.of(until)))
                            .as("seed %s, round %s, on %s until %s", seed, round, on, until)
                            .isEqualTo(expected);
                    named += expected.size();
                    left += whole(records, on, Optional.empty()).size() - expected.size();
                }
                LocalDate on = BEGIN.plusDays(random.nextInt(900));
                assertThat(indexed(records, on, Optional.empty())).isEqualTo(whole(records, on, Optional.empty()));
            }
            assertThat(named).as("something is due").isPositive();
            assertThat(left).as("and something is not").isPositive();
            assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                    .as("the index is what the facts say")
                    .isEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {3, 11, 29})
    void pages_by_the_index_are_together_the_list_and_what_is_late_is_counted_by_it(long seed) throws Exception {
        Random random = new Random(seed);
        try (Records records = open()) {
            Path office = Files.createDirectories(folder.resolve("office"));
            Files.writeString(office.resolve("register.yaml"), register(random));
            new RegisterFiling(records).take(office, KIM, "");
            DueInRecord list = new DueInRecord(records);
            // after all that the register tells of: the index knows no day of today
            LocalDate on = BEGIN.plusDays(1001);
            LocalDate until = on.plusDays(random.nextInt(400));
            List<Due> machines = whole(records, on, Optional.of(until)).stream()
                    .filter(due -> due.subject().kind() == Due.Subject.Kind.STERILIZER)
                    .toList();
            List<Due> paged = new ArrayList<>();
            List<DueStart> starts = new ArrayList<>(List.of(DueStart.FIRST));
            for (int i = 0; i < starts.size(); i++) {
                DueStart start = starts.get(i);
                DueInRecord.Page page = list.page(until, start, 5, Map.of(), RULES, Today.on(on), ZoneOffset.UTC);
                assertThat(page.due()).isSortedAccordingTo(DueList.ORDER);
                assertThat(page.earlier()).isEqualTo(i == 0 ? Optional.empty() : Optional.of(starts.get(i - 1)));
                assertThat(list.page(
                                        until,
                                        DueStart.counted(start.from()),
                                        5,
                                        Map.of(),
                                        RULES,
                                        Today.on(on),
                                        ZoneOffset.UTC)
                                .due())
                        .as("counted to the same place")
                        .isEqualTo(page.due());
                paged.addAll(page.due());
                page.later().ifPresent(starts::add);
            }
            assertThat(starts).hasSize(Math.toIntExact((records.countDue(until) + 4) / 5));
            assertThat(paged).as("seed %s", seed).containsAll(machines).hasSizeGreaterThan(5);
            assertThat(machines).as("and nothing else").containsAll(paged);
            List<DueDate> late = records.due(LocalDate.of(9999, 12, 31), Integer.MAX_VALUE).stream()
                    .filter(date ->
                            date.lateFrom().filter(day -> !day.isAfter(on)).isPresent())
                    .toList();
            assertThat(records.countLate(on)).isEqualTo(late.size()).isPositive();
            assertThat(late.stream()
                            .filter(date -> !date.reason().startsWith("Condition"))
                            .count())
                    .isEqualTo(machines.stream()
                            .filter(due -> !due.title().startsWith("Condition"))
                            .filter(due ->
                                    due.urgency() == Due.Urgency.OVERDUE || due.urgency() == Due.Urgency.NO_EVIDENCE)
                            .count());
        }
    }

    /** What visits that were signed showed of some machines, readings that can't be among them. */
    private static void visitsShow(Random random, Records records) {
        List<Change> changes = new ArrayList<>();
        records.eachSubject(Kind.STERILIZER, machine -> {
            if (random.nextBoolean()) {
                changes.add(Change.set(
                        Kind.STERILIZER,
                        machine.id(),
                        VisitEvidence.PREFIX + "R-" + random.nextInt(3),
                        JsonText.of(Map.of(
                                "on", day(random),
                                "done", random.nextBoolean() ? List.of("validation", "service") : List.of(),
                                "counter", List.of(random.nextInt(1000))))));
            }
        });
        records.append(new Submission(records.newSubmission(), KIM, changes));
    }

    private static String day(Random random) {
        return BEGIN.plusDays(random.nextInt(1000)).toString();
    }

    /** An invented register: few clinics with different rules and weeks, machines with all that makes something due. */
    private static String register(Random random) {
        StringBuilder text = new StringBuilder("steamwright-register: 1\nclinics:\n");
        String[] rules = {"au", "uk", "common"};
        for (int clinic = 0; clinic < 3; clinic++) {
            text.append("""
                  - id: c%1$s
                    name: Clinic %1$s (invented)
                    sites:
                      - id: s%1$s
                        zone: Australia/Adelaide
                        rules: %2$s
                        working-days: [%3$s]
                        rooms: [{id: r%1$sa}, {id: r%1$sb}]
                """.formatted(
                    clinic,
                    RULES.names().contains(rules[clinic]) && random.nextBoolean()
                            ? rules[clinic]
                            : RULES.names().get(random.nextInt(RULES.names().size())),
                    random.nextBoolean() ? "monday, tuesday" : "monday, tuesday, wednesday, thursday, friday"));
        }
        text.append("sterilizers:\n");
        for (int machine = 0; machine < 12; machine++) {
            text.append("  - id: m%1$s\n    serial: SN-%1$s\n    room: r%2$sa\n".formatted(machine, random.nextInt(3)));
            if (random.nextInt(6) == 0) {
                text.append("    status: stored\n");
            }
            text.append("    cycles: [{name: 134, type: ")
                    .append(random.nextBoolean() ? "B" : "N")
                    .append(", sterilizing-temperature: 134 °C}]\n");
            if (random.nextBoolean()) {
                text.append("    counter: {readings: [");
                int shows = 100;
                for (int i = 0; i < 6; i++) {
                    shows += 20 + random.nextInt(150);
                    text.append("{on: %s, shows: %s}, ".formatted(BEGIN.plusDays(60L * i + random.nextInt(30)), shows));
                }
                text.append("]}\n");
            }
            if (random.nextInt(3) == 0) {
                text.append(
                        "    movements: [{on: %s, from: r0a, to: r%sb}]\n".formatted(day(random), random.nextInt(3)));
            }
            if (random.nextInt(3) == 0) {
                text.append("    changes: [{on: %s, reason: sensor, what: sensor}]\n".formatted(day(random)));
            }
            if (random.nextInt(3) == 0) {
                text.append("    firmware: [{version: \"1\", since: 2020-01-01}, {version: \"2\", since: %s}]\n"
                        .formatted(day(random)));
            }
            if (random.nextInt(3) == 0) {
                text.append("    intervals: [{duty: service, every: %s months, cycles: %s, because: contract}]\n"
                        .formatted(1 + random.nextInt(24), 100 + random.nextInt(900)));
            }
            if (random.nextInt(3) == 0) {
                text.append("    conditions:\n");
                for (int i = 0; i < 2; i++) {
                    text.append("      - {what: filter, owner: manager, until: %s, at-cycles: %s}\n"
                            .formatted(day(random), 200 + random.nextInt(2000)));
                }
            }
            text.append("    done: [");
            for (String duty : List.of("validation", "service", "electrical-test", "pressure-examination")) {
                if (random.nextInt(3) > 0) {
                    text.append("{duty: %s, on: %s}, ".formatted(duty, day(random)));
                }
            }
            text.append("]\n");
        }
        return text.append("""
            technicians:
              - {id: KS, name: Kim Sample (invented), competences: [{families: [a], duties: [service], from: 2024-01-01, until: %s}]}
            testers:
              - {id: ET-1, certificates: [{number: K-1, calibrated-on: 2024-01-01, due-on: %s}]}
            """.formatted(day(random), day(random))).toString();
    }

    @Test
    void without_the_rule_or_with_other_rules_everything_is_read() throws Exception {
        try (Records records = Records.open(Place.folder(folder.resolve("bare")), Clock.systemUTC())) {
            Path office = Files.createDirectories(folder.resolve("office"));
            Files.writeString(office.resolve("register.yaml"), register(new Random(7)));
            new RegisterFiling(records).take(office, KIM, "");
            LocalDate on = LocalDate.of(2025, 6, 1);
            Optional<LocalDate> until = Optional.of(LocalDate.of(2025, 9, 1));
            assertThat(indexed(records, on, until))
                    .isEqualTo(whole(records, on, until))
                    .isNotEmpty();
            assertThat(new DueInRecord(records).list(RULES, false, Today.on(on), ZoneOffset.UTC, until))
                    .isEqualTo(whole(records, on, until));
        }
    }

    /** The index of a record is made by these rules. Whoever changes them gives the index another number. */
    @Test
    void the_rules_by_which_the_index_is_made_are_those_of_its_number() throws IOException {
        try (var in = DataFiles.class.getResourceAsStream(DataFiles.DUE_RULES)) {
            assertThat(Hash.ofContent(in.readAllBytes()).hex())
                    .as("raise SearchTable.VERSION together with this")
                    .isEqualTo("347991c1f695715d4ad74a557fc720f87f2d6472d7280475cb45684f7912082b");
        }
    }
}
