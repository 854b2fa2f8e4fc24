package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.signing.Keys;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.TodaysLoad;

/** Which visit answers for a load, what ends its answer, and what later visits say beside it. */
class CoverageInRecordTest {

    private static final String SERIAL = "EX-1001";
    private static final String CYCLE = "134 wrapped";
    private static final String LATER = "DEMO-2026-101";
    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);
    private static final LocalDate LATER_DAY = LocalDate.of(2026, 3, 9);

    @TempDir
    static Path year;

    @TempDir
    Path folder;

    private Records records;
    private Filing filing;
    private KeptResults.Assessing assessing;
    private Predicate<StatedVisit> counted = visit -> true;

    @BeforeAll
    static void write_the_year_as_if_it_were_real() throws IOException {
        YearVisits.write(year);
    }

    @BeforeEach
    void open() {
        records = Records.open(Place.folder(folder.resolve("record")), KilledSigner.CLOCK);
        filing = new Filing(records);
        assessing = visit -> YearVisits.assessed("2-final");
    }

    @AfterEach
    void close() {
        records.close();
    }

    private void sign(String number) throws Exception {
        filing.sign(
                filing.open(number).visit(),
                KilledSigner.NAME,
                "performed and recorded",
                KilledSigner.secret(),
                KilledSigner.KIM);
    }

    private void signed(String visit) throws Exception {
        filing.take(year.resolve(visit), KilledSigner.KIM, "");
        new Keys(records).make(filing.technician(KilledSigner.NAME), KilledSigner.secret(), KilledSigner.KIM);
        sign(KilledSigner.NUMBER);
    }

    /** The same visit once more, a week later and under another number. */
    private void takenAgain() throws Exception {
        Path later = folder.resolve("later");
        try (Stream<Path> all = Files.walk(year.resolve("2-final"))) {
            for (Path one : all.toList()) {
                Path target =
                        later.resolve(year.resolve("2-final").relativize(one).toString());
                if (Files.isDirectory(one)) {
                    Files.createDirectories(target);
                } else {
                    Files.copy(one, target);
                }
            }
        }
        Path facts = later.resolve("visit.yaml");
        Files.writeString(
                facts,
                Files.readString(facts)
                        .replace(KilledSigner.NUMBER, LATER)
                        .replaceFirst("(?m)^date: .*$", "date: " + LATER_DAY));
        filing.take(later, KilledSigner.KIM, "");
    }

    private Subject machine() {
        return records.exactly(Kind.STERILIZER, "serial", SERIAL).get(0);
    }

    private Coverage ask(Subject machine, LocalDate day) throws Exception {
        return new CoverageInRecord(records, assessing, counted)
                .of(
                        machine,
                        new TodaysLoad(
                                machine.text("serial"),
                                CYCLE,
                                day,
                                OptionalInt.empty(),
                                List.of(new TodaysLoad.Thing("mirrors", 2, "solid", "pouch")),
                                Optional.of(0.4),
                                Optional.empty(),
                                Optional.of(true)))
                .coverage();
    }

    private List<String> cycles(Subject machine, LocalDate day) throws Exception {
        return new CoverageInRecord(records, assessing, counted)
                .cycles(machine, day, OptionalInt.empty()).stream()
                        .filter(one -> one.cycle().name().equals(CYCLE))
                        .findFirst()
                        .orElseThrow()
                        .against();
    }

    /** A cycle of it is qualified whatever is awaited of another one; it ends with the interim report all the same. */
    @Test
    void an_interim_report_ends_with_its_day_and_everything_in_it_with_it() throws Exception {
        signed("1-interim");
        LocalDate last = LocalDate.of(2026, 3, 16);
        assertThat(ask(machine(), last).reasons())
                .as("the last day is itself good")
                .isEmpty();
        assertThat(cycles(machine(), last)).isEmpty();
        assertThat(ask(machine(), last.plusDays(1)).reasons()).containsExactly("It ended with 2026-03-16.");
        assertThat(cycles(machine(), last.plusDays(1))).containsExactly("It ended with 2026-03-16.");
        filing.amend(KilledSigner.NUMBER, "indicators read", KilledSigner.KIM);
        filing.take(year.resolve("2-final"), KilledSigner.KIM, "indicators read");
        sign(KilledSigner.NUMBER);
        assertThat(ask(machine(), last.plusDays(1)).reasons())
                .as("the final one in its place")
                .isEmpty();
    }

    @Test
    void a_visit_under_a_number_that_was_corrected_since_is_the_machines_and_covers_nothing() throws Exception {
        signed("2-final");
        Subject machine = machine();
        records.append(
                KilledSigner.KIM,
                List.of(Change.set(Kind.STERILIZER, machine.id(), "serial", JsonText.of("EX-1010"))
                        .because("misread")));
        Subject corrected = records.subject(machine.id());
        String other = "This is steriliser EX-1010; what was tested is steriliser EX-1001.";
        assertThat(ask(corrected, DAY).reasons()).containsExactly(other);
        assertThat(cycles(corrected, DAY)).containsExactly(other);
    }

    @Test
    void a_later_visit_that_does_not_say_which_machine_it_was_at_takes_the_answer_away() throws Exception {
        signed("2-final");
        takenAgain();
        Subject machine = machine();
        records.append(
                KilledSigner.KIM,
                List.of(Change.set(
                                Kind.VISIT,
                                filing.open(LATER).visit().id(),
                                "sterilizer",
                                JsonText.of(List.of(machine.id() + "")))
                        .because("invented for the test")));
        sign(LATER);
        assertThat(ask(machine, LATER_DAY).reasons())
                .as("one of its two sterilisers has that number")
                .isEmpty();
        records.append(
                KilledSigner.KIM,
                List.of(Change.set(Kind.STERILIZER, machine.id(), "serial", JsonText.of("EX-1010"))
                        .because("misread")));
        assertThat(ask(records.subject(machine.id()), LATER_DAY).reasons())
                .contains("The later visit " + LATER + " does not say which of its sterilisers this is.");
    }

    @Test
    void a_later_visit_for_somebody_else_is_not_known_and_nothing_before_it_is_relied_on() throws Exception {
        signed("2-final");
        takenAgain();
        sign(LATER);
        counted = visit -> visit.visit().text("number").equals(KilledSigner.NUMBER);
        String elsewhere = "On 2026-03-09 it was visited for somebody else. What was found there is not known here, so"
                + " nothing from before is relied on.";
        assertThat(ask(machine(), LATER_DAY.minusDays(1)).reasons())
                .as("the day before")
                .isEmpty();
        assertThat(ask(machine(), LATER_DAY).reasons()).containsExactly(elsewhere);
        assertThat(cycles(machine(), LATER_DAY)).containsExactly(elsewhere);
        counted = visit -> visit.visit().text("number").equals(LATER);
        assertThat(ask(machine(), LATER_DAY).reasons())
                .as("a visit for somebody else that came before")
                .isEmpty();
    }
}
