package org.steamwright.intake.register;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.intake.folder.Problem;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;

class RegisterFileTest {

    static final String HEAD = "steamwright-register: 1\n";
    static final String MACHINE = HEAD + "sterilizers:\n  - id: ST-01\n    serial: SN-1\n";

    static List<Problem> problems(String yaml) {
        RegisterException refused = catchThrowableOfType(RegisterException.class, () -> Office.read(yaml));
        assertThat(refused).as(yaml).isNotNull();
        return refused.problems();
    }

    static String problem(String yaml) {
        List<Problem> problems = problems(yaml);
        assertThat(problems).hasSize(1);
        return problems.get(0).toString();
    }

    @Test
    void reads_the_example_of_the_documentation() {
        Register office = Office.example();
        assertThat(office.clinics()).hasSize(2);
        assertThat(office.instruments()).extracting(one -> one.id()).containsExactly("TL-11", "TL-12", "PL-11");
        SterilizerRecord machine = office.findSterilizer("SN-0417").orElseThrow();
        assertThat(machine.id()).isEqualTo("ST-01");
        assertThat(machine.cyclesInUse()).hasSize(2);
        assertThat(machine.counter().last().orElseThrow().cycles()).isEqualTo(4702 + 862);
        assertThat(office.findPlace(machine).orElseThrow().title())
                .isEqualTo("Riverside Dental Care (invented), Sterilising room");
        assertThat(office.clinics().get(1).sites().get(0).week().workingDays())
                .containsExactly(DayOfWeek.MONDAY, DayOfWeek.TUESDAY, DayOfWeek.THURSDAY, DayOfWeek.FRIDAY);
        assertThat(office.lots().get(0).expires())
                .as("a month is good to its end")
                .isEqualTo(LocalDate.of(2026, 6, 30));
        assertThat(office.lots().get(0).incubation()).isEqualTo(Duration.ofHours(24));
        assertThat(office.lookalikes()).as("ST-02 has moved to another room").isEmpty();
        assertThat(office.findSterilizer("ST-02").orElseThrow().roomOn(LocalDate.of(2026, 2, 9)))
                .isEqualTo("riverside-steri");
    }

    @Test
    void an_empty_register_is_a_register() throws RegisterException {
        assertThat(Office.read(HEAD)).isEqualTo(Register.EMPTY);
    }

    @Test
    void says_how_a_register_begins() {
        assertThat(problem("clinics: []\n"))
                .isEqualTo(
                        "REGISTER-002 register.yaml, line 1: found no \"steamwright-register\", expected version 1 of"
                                + " the format. A newer program may be needed; otherwise begin the file with:"
                                + " steamwright-register: 1");
        assertThat(problem("steamwright-register: 2\n")).startsWith("REGISTER-002 register.yaml, line 1");
        assertThat(problem("")).contains("The first line is: steamwright-register: 1");
        assertThat(problem("- 1\n")).contains("Compare with the example in docs/reference/register.md.");
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "counter: {readings: [{on: 2025-01-01, shows: 9}, {on: 2025-02-01, shows: 3}]} | REGISTER-006 |"
                        + " found a contradiction: the reading of 2025-02-01 stands below that of 2025-01-01, and no reset"
                        + " between them is known. Correct the entry.",
                "intervals: [{duty: service, every: yearly, because: contract}] | REGISTER-004 | found \"yearly\","
                        + " expected a whole number of days, weeks, months or years. Write for example: 12 months",
                "done: [{duty: servicing, on: 2025-01-01}] | VISIT-016 | found \"servicing\", expected one of validation,"
                        + " service, pressure-examination, electrical-test, periodic-test, leak-test, penetration-test."
                        + " Did you mean \"service\"?",
                "room: nowhere | REGISTER-003 | found ST-01 in the room \"nowhere\", which no site has. Add the room to"
                        + " its site, or correct the id.",
                "sreial: 7 | VISIT-006 | found the unknown key \"sreial\", expected one of id, maker, model, family,"
                        + " serial, year, chamber, chamber-size, tray-levels, status, loaner, room, cycles, firmware,"
                        + " counter, movements, pressure-papers, intervals, done, changes, conditions. Did you mean \"serial\"?",
            })
    void says_what_is_wrong_with_a_machine(String line, String id, String text) {
        List<Problem> problems = problems(MACHINE + "    " + line + "\n");
        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).id()).isEqualTo(id);
        assertThat(problems.get(0).text()).isEqualTo(text);
        assertThat(problems.get(0).line()).isBetween(3, 5);
    }

    @Test
    void refuses_an_id_that_two_machines_have() {
        assertThat(problem(MACHINE + "  - id: ST-01\n    serial: SN-2\n"))
                .contains("REGISTER-003")
                .contains("two sterilisers have the id ST-01");
    }

    @Test
    void tells_all_problems_at_once() {
        assertThat(problems(
                        HEAD + "clinics: [{id: a}, {name: b}]\nlots: [{id: L, kind: bio, number: 1, expires: soon}]\n"))
                .extracting(Problem::id)
                .containsExactly("VISIT-008", "VISIT-008", "VISIT-016", "REGISTER-005");
    }

    @Test
    void says_that_there_is_no_register(@TempDir Path folder) {
        assertThat(catchThrowableOfType(RegisterException.class, () -> RegisterFile.read(folder))
                        .problems()
                        .get(0)
                        .id())
                .isEqualTo("REGISTER-001");
    }

    @Test
    void a_file_of_instruments_that_is_not_there_is_named(@TempDir Path folder) throws Exception {
        Files.writeString(folder.resolve("register.yaml"), HEAD + "instruments: none.yaml\n");
        assertThat(catchThrowableOfType(RegisterException.class, () -> RegisterFile.read(folder))
                        .problems()
                        .get(0)
                        .toString())
                .startsWith("VISIT-022 register.yaml, line 2, instruments: found no file \"none.yaml\"");
    }

    @Test
    void a_file_beyond_its_limit_is_refused() {
        String large = HEAD + "# " + "x".repeat(RegisterFile.MAX_BYTES) + "\n";
        assertThat(problem(large)).startsWith("VISIT-002 register.yaml: found 8000");
    }
}
