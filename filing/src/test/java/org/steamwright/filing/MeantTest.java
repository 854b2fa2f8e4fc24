package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

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
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.intake.register.VisitDraft;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.simulator.DemoVisit;

/** Two makers with one serial number, two clinics of one name: nobody is taken for another. All of them are invented. */
class MeantTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final String REGISTER = """
            steamwright-register: 1
            clinics:
              - id: north
                name: Smile Dental (invented)
                sites:
                  - id: north-site
                    address: 1 North Road, Exampleton
                    zone: Australia/Adelaide
                    rooms:
                      - id: north-room
              - id: south
                name: Smile Dental (invented)
                sites:
                  - id: south-site
                    address: 9 South Street
                    zone: Australia/Adelaide
                    rooms:
                      - id: south-room
            sterilizers:
              - id: ST-N
                maker: Example Works (invented)
                model: B-18
                serial: "4711"
                room: north-room
              - id: ST-S
                maker: Sample Forge (invented)
                model: V22
                serial: "4711"
                room: south-room
            """;

    @TempDir
    Path folder;

    Records records;
    RegisterFiling register;
    Drafts drafts;

    @BeforeEach
    void open_a_record() throws IOException {
        records = Records.open(
                Place.folder(folder.resolve("record")),
                Clock.fixed(Instant.parse("2026-03-02T09:00:00Z"), ZoneOffset.ofHours(10)));
        register = new RegisterFiling(records);
        drafts = new Drafts(records);
    }

    @AfterEach
    void close_it() {
        records.close();
    }

    private RegisterFiling.Taken takeRegister(String text) throws Exception {
        Path file = Files.writeString(folder.resolve("register.yaml"), text);
        return register.take(file, KIM, "");
    }

    private Subject machine(String id) {
        return register.machine(id).orElseThrow();
    }

    private Subject clinic(String id) {
        return records.exactly(Kind.CLINIC, "number", id).get(0);
    }

    private Draft open(String number, String clinic, String address, String maker, String serial) throws DraftRefusal {
        return drafts.open(
                KIM,
                number,
                Map.of(
                        "clinic", Map.of("name", clinic, "address", address),
                        "sterilizers", List.of(Map.of("key", "A", "maker", maker, "serial", serial))));
    }

    private static List<String> machinesOf(Draft draft) {
        List<String> ids = new ArrayList<>();
        draft.subject().fact("sterilizer").orElseThrow().node().forEach(id -> ids.add(id.asText()));
        return ids;
    }

    @Test
    void two_makers_with_one_serial_number_and_two_clinics_of_one_name_stay_apart() throws Exception {
        RegisterFiling.Taken taken = takeRegister(REGISTER);
        assertThat(taken.added()).isEqualTo(4);
        assertThat(register.register().sterilizers()).hasSize(2);
        assertThat(register.machine("4711"))
                .as("the number alone means neither")
                .isEmpty();
        assertThat(register.machines("4711")).hasSize(2);
        assertThat(takeRegister(REGISTER).changed()).as("the same again").isZero();

        Draft south = open("R-1", "Smile Dental (invented)", "9 South Street", "SAMPLE FORGE (invented)", "4711");
        assertThat(machinesOf(south)).containsExactly(machine("ST-S").id().toString());
        assertThat(south.subject().text("clinic"))
                .isEqualTo(clinic("south").id().toString());
        Draft north = open("R-2", "Smile Dental (invented)", "1 North Road", "Example Works (invented)", "4711");
        assertThat(machinesOf(north)).containsExactly(machine("ST-N").id().toString());
        assertThat(north.subject().text("clinic"))
                .isEqualTo(clinic("north").id().toString());
        Draft byMachine = open("R-3", "Smile Dental (invented)", "", "Example Works (invented)", "4711");
        assertThat(byMachine.subject().text("clinic"))
                .as("without an address the machine tells the clinic")
                .isEqualTo(clinic("north").id().toString());
    }

    @Test
    void what_fits_several_or_contradicts_is_a_question_and_enters_nothing() throws Exception {
        takeRegister(REGISTER);
        long before = records.head().tree().size();
        DraftRefusal several = catchThrowableOfType(
                DraftRefusal.class, () -> open("R-1", "Smile Dental (invented)", "9 South Street", "", "4711"));
        assertThat(several.reason()).isEqualTo(DraftRefusal.Reason.UNCLEAR);
        assertThat(several).hasMessageContaining("(ST-N)").hasMessageContaining("(ST-S)");
        assertThat(several.remedy()).contains("maker");
        DraftRefusal other = catchThrowableOfType(
                DraftRefusal.class,
                () -> open("R-1", "Smile Dental (invented)", "9 South Street", "Third Maker (invented)", "4711"));
        assertThat(other).hasMessageContaining("Third Maker (invented) 4711");
        assertThat(other.remedy()).contains("register");
        DraftRefusal elsewhere = catchThrowableOfType(
                DraftRefusal.class,
                () -> open("R-1", "Smile Dental (invented)", "5 West Lane", "Example Works (invented)", "1"));
        assertThat(elsewhere).hasMessageContaining("5 West Lane").hasMessageContaining("1 North Road");
        assertThat(records.head().tree().size()).isEqualTo(before);
    }

    @Test
    void a_visit_begun_from_the_register_is_tied_to_that_machine_and_stays_so() throws Exception {
        takeRegister(REGISTER.replace("    maker: Sample Forge (invented)\n    model: V22\n", "")
                .replace("    maker: Example Works (invented)\n    model: B-18\n", ""));
        Draft draft = drafts.open(
                KIM,
                machine("ST-S"),
                new VisitDraft.Visit("R-1", "yearly", LocalDate.of(2026, 3, 2), "eu-en13060", Optional.empty(), false),
                Map.of());
        assertThat(machinesOf(draft)).containsExactly(machine("ST-S").id().toString());
        assertThat(draft.subject().text("clinic"))
                .isEqualTo(clinic("south").id().toString());
        Draft later = draft.set(FactPath.of("purpose"), Optional.of("after repair"), KIM, "")
                .set(FactPath.of("sterilizers", 1, "maker"), Optional.of("As the plate says (invented)"), KIM, "")
                .settle(KIM);
        assertThat(machinesOf(later)).containsExactly(machine("ST-S").id().toString());
        assertThat(later.subject().text("clinic"))
                .isEqualTo(clinic("south").id().toString());
        assertThat(later.facts().toString()).doesNotContain(machine("ST-S").id().toString());
    }

    @Test
    void a_draft_that_becomes_unclear_loses_its_machine_and_says_so_before_it_is_signed() throws Exception {
        takeRegister(REGISTER);
        Draft draft = open("R-1", "Smile Dental (invented)", "9 South Street", "Sample Forge (invented)", "4711");
        Draft other = draft.set(FactPath.of("sterilizers", 1, "maker"), Optional.of("Third Maker (invented)"), KIM, "");
        assertThat(machinesOf(other)).isEmpty();
        assertThat(catchThrowableOfType(DraftRefusal.class, () -> other.settle(KIM))
                        .reason())
                .isEqualTo(DraftRefusal.Reason.UNCLEAR);
        Draft north =
                other.set(FactPath.of("sterilizers", 1, "maker"), Optional.of("Example Works (invented)"), KIM, "");
        assertThat(machinesOf(north)).containsExactly(machine("ST-N").id().toString());
    }

    @Test
    void a_visit_from_a_folder_asks_too_and_an_old_one_stays_what_it_was() throws Exception {
        Path visit = folder.resolve("visit");
        DemoVisit.write(visit);
        Filing filing = new Filing(records);
        Subject taken = filing.take(visit, KIM, "").visit();
        long machines = records.count(Kind.STERILIZER);
        String text = Files.readString(visit.resolve("visit.yaml"));
        Subject known = records.subject(SubjectId.parse(
                taken.fact("sterilizer").orElseThrow().node().get(0).asText()));
        String maker = known.text("maker");
        assertThat(text).contains("maker: " + maker);

        // as a record of before, which joined by the serial number alone
        records.append(KIM, List.of(Change.set(Kind.STERILIZER, known.id(), "maker", "Other Maker (invented)")));
        Files.writeString(visit.resolve("visit.yaml"), text.replaceFirst("purpose: .*", "purpose: said otherwise"));
        Filing.Taken again = filing.take(visit, KIM, "mended");
        assertThat(again.visit().fact("sterilizer")).isEqualTo(taken.fact("sterilizer"));
        assertThat(records.count(Kind.STERILIZER)).isEqualTo(machines);

        Path second = folder.resolve("second");
        DemoVisit.write(second);
        String number = taken.text("number");
        Files.writeString(
                second.resolve("visit.yaml"),
                Files.readString(second.resolve("visit.yaml")).replace(number, number + "-2"));
        FilingException question = catchThrowableOfType(FilingException.class, () -> filing.take(second, KIM, ""));
        assertThat(question).hasMessageContaining("Other Maker (invented)").hasMessageContaining(maker);
        assertThat(question.remedy()).contains("register");
    }

    @Test
    void an_entry_keeps_its_id_and_its_sites() throws Exception {
        takeRegister(REGISTER);
        long before = records.head().tree().size();
        FilingException renamed = catchThrowableOfType(
                FilingException.class, () -> takeRegister(REGISTER.replace("id: ST-N", "id: ST-NEW")));
        assertThat(renamed).hasMessageContaining("ST-NEW").hasMessageContaining("ST-N,");
        FilingException moved = catchThrowableOfType(
                FilingException.class, () -> takeRegister(REGISTER.replace("id: south\n", "id: south-new\n")));
        assertThat(moved).hasMessageContaining("south-site").hasMessageContaining("south-new");
        assertThat(records.head().tree().size()).isEqualTo(before);
    }

    @Test
    void what_visits_made_known_is_taken_over_by_the_entry_that_fits() throws Exception {
        Draft south = open("R-1", "Smile Dental (invented)", "9 South Street", "Sample Forge (invented)", "4711");
        takeRegister(REGISTER);
        assertThat(machinesOf(south)).containsExactly(machine("ST-S").id().toString());
        assertThat(south.subject().text("clinic"))
                .isEqualTo(clinic("south").id().toString());
        assertThat(records.count(Kind.CLINIC)).isEqualTo(2);
        assertThat(records.count(Kind.STERILIZER)).isEqualTo(2);
    }

    @RepeatedTest(3)
    void a_register_taken_in_twice_at_once_has_each_entry_once() throws Exception {
        Path file = Files.writeString(folder.resolve("register.yaml"), REGISTER);
        CyclicBarrier together = new CyclicBarrier(4);
        ExecutorService threads = Executors.newFixedThreadPool(4);
        List<Future<RegisterFiling.Taken>> all = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            all.add(threads.submit(() -> {
                RegisterFiling own = new RegisterFiling(records);
                together.await();
                return own.take(file, KIM, "");
            }));
        }
        for (Future<RegisterFiling.Taken> one : all) {
            one.get();
        }
        threads.shutdown();
        assertThat(records.count(Kind.CLINIC)).isEqualTo(2);
        assertThat(records.count(Kind.STERILIZER)).isEqualTo(2);
    }
}
