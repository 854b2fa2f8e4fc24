package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.steamwright.intake.folder.VisitFixture.elapsed;
import static org.steamwright.intake.folder.VisitFixture.stamped;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.intake.Question;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.folder.SingleRecording.Declarations;
import org.steamwright.visit.Visit;

class SingleRecordingTest {

    private static final Declarations CYCLE = Declarations.NONE
            .with("kind", "empty-chamber")
            .with("cycle-type", "B")
            .with("sterilizing-temperature", "134 °C")
            .with("criteria-set", "eu-en13060")
            .with("zone", "Europe/Zurich");

    @TempDir
    Path folder;

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("one.csv"), text);
    }

    private Visit visit(String text, Declarations declarations) throws Exception {
        return SingleRecording.toVisit(file(text), declarations, VisitFixture.SETS);
    }

    private List<Question> questions(String text, Declarations declarations) {
        QuestionsException asked = catchThrowableOfType(QuestionsException.class, () -> visit(text, declarations));
        if (asked == null) {
            throw new AssertionError("nothing was asked");
        }
        return asked.questions();
    }

    private List<String> problems(String text, Declarations declarations) {
        VisitFolderException refused =
                catchThrowableOfType(VisitFolderException.class, () -> visit(text, declarations));
        if (refused == null) {
            throw new AssertionError("nothing was refused");
        }
        return refused.problems().stream().map(Problem::toString).toList();
    }

    @Test
    void needs_no_role_for_a_single_temperature() throws Exception {
        Visit visit = visit(elapsed("T [°C]", 134), CYCLE);
        assertThat(visit.runs()).hasSize(1);
        assertThat(visit.runs().get(0).test().trace().channels())
                .singleElement()
                .extracting(Channel::role)
                .isEqualTo(ChannelRole.REFERENCE_POINT);
        assertThat(visit.runs().get(0).test().trace().start()).isEmpty();
        assertThat(visit.runs().get(0).test().trace().remarks())
                .extracting(Remark::id)
                .contains("VISIT-054");
        assertThat(visit.date()).isEmpty();
    }

    @Test
    void takes_everything_that_was_said() throws Exception {
        Visit visit = visit(
                stamped("2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa]", 134, 134, 210),
                CYCLE.with("cycle", "wrapped")
                        .with("holding-time", "3 min 30 s")
                        .with("air-removal-pulses", "3")
                        .with("role:t1", "reference-point")
                        .with("role:T2", "load")
                        .with("reference:P", "gauge")
                        .with("barometer", "101.2 kPa"));
        var test = visit.runs().get(0).test();
        assertThat(test.kind()).isEqualTo(TestKind.EMPTY_CHAMBER);
        assertThat(test.cycle().name()).isEqualTo("wrapped");
        assertThat(test.cycle().type()).isEqualTo(CycleType.B);
        assertThat(test.cycle().sterilizingTemperature().celsius()).isEqualTo(134);
        assertThat(test.cycle().holdingTime()).contains(Duration.ofSeconds(210));
        assertThat(test.cycle().airRemovalPulses()).hasValue(3);
        assertThat(test.ambient()).isEqualTo(Ambient.barometer(101.2));
        assertThat(test.trace().find(ChannelRole.PRESSURE).orElseThrow().reference())
                .contains(PressureReference.GAUGE);
        assertThat(test.trace().find(ChannelRole.LOAD).orElseThrow().name()).isEqualTo("T2");
        assertThat(visit.date()).contains(LocalDate.of(2026, 3, 2));
        assertThat(visit.zone().getId()).isEqualTo("Europe/Zurich");
        assertThat(visit.criteriaSet().name()).isEqualTo("eu-en13060");
        assertThat(visit.getSterilizer("A").serial()).isEqualTo("not stated");
    }

    @Test
    void asks_only_for_what_the_file_can_not_tell() {
        String text = elapsed("T [°C]", 134);
        assertThat(questions(text, Declarations.NONE))
                .extracting(Question::key)
                .containsExactly("criteria-set", "kind");
        assertThat(questions(
                        text, Declarations.NONE.with("kind", "empty-chamber").with("criteria-set", "au-as5369")))
                .containsExactly(
                        new Question(
                                "cycle-type",
                                "Of which type is the cycle?",
                                "No recording tells it; the sterilizer's instructions do.",
                                List.of("B", "N", "S")),
                        new Question(
                                "sterilizing-temperature",
                                "For which sterilization temperature is the cycle made?",
                                "The file shows T from 134.0 to 134.0 °C.",
                                List.of("134 °C")));
    }

    @Test
    void asks_for_the_zone_of_clock_times_only() {
        Declarations noZone = Declarations.NONE
                .with("kind", "empty-chamber")
                .with("cycle-type", "B")
                .with("sterilizing-temperature", "134 °C")
                .with("criteria-set", "eu-en13060");
        assertThat(questions(stamped("2026-03-02", 9, "T [°C]", 134), noZone))
                .extracting(Question::key)
                .containsExactly("zone");
    }

    @Test
    void says_in_one_line_what_is_open() {
        assertThatThrownBy(() -> visit(
                        stamped("2026-03-02", 9, "T [°C]", 134), Declarations.NONE.with("criteria-set", "au-as5369")))
                .hasMessage("one.csv: In which time zone was it recorded? The file has clock times; the days of"
                        + " certificates are counted at the site. Answer zone. What was tested? The file shows T"
                        + " from 134.0 to 134.0 °C. Answer kind with one of: empty-chamber, reference-load,"
                        + " air-leakage.");
    }

    @Test
    void asks_for_the_role_of_each_of_several_temperatures() {
        List<Question> questions = questions(elapsed("T1 [°C],T2 [°C],P [kPa abs]", 134, 134, 310), CYCLE);
        assertThat(questions).extracting(Question::key).containsExactly("role:T1", "role:T2");
        assertThat(questions.get(0).options())
                .containsExactly("reference-point", "free-chamber", "load", "challenge-pack", "ambient", "leave-out");
    }

    @Test
    void asks_nobody_for_temperatures_of_a_leak_test() throws Exception {
        Visit visit = visit(
                elapsed("T1 [°C],T2 [°C],P [kPa abs]", 24, 24, 5),
                Declarations.NONE.with("kind", "air-leakage").with("criteria-set", "eu-en13060"));
        assertThat(visit.runs().get(0).test().trace().channels())
                .singleElement()
                .extracting(Channel::role)
                .isEqualTo(ChannelRole.PRESSURE);
        assertThat(visit.runs().get(0).test().cycle().name()).isEqualTo("air leakage test");
    }

    @Test
    void asks_whether_a_pressure_is_absolute_and_then_for_the_barometer() {
        String text = elapsed("T [°C],P [kPa]", 134, 210);
        assertThat(questions(text, CYCLE)).singleElement().satisfies(question -> {
            assertThat(question.key()).isEqualTo("reference:P");
            assertThat(question.evidence())
                    .isEqualTo(
                            "With the door open an absolute pressure shows the barometer, about 101 kPa at sea level,"
                                    + " and a gauge pressure about 0; this column begins with 210.0 kPa.");
            assertThat(question.options()).containsExactly("absolute", "gauge");
        });
        assertThat(questions(text, CYCLE.with("reference:P", "gauge")))
                .extracting(Question::key)
                .containsExactly("barometer");
    }

    @Test
    void takes_the_altitude_instead_of_a_barometer() throws Exception {
        Visit visit = visit(elapsed("T [°C],P [kPa gauge]", 134, 210), CYCLE.with("altitude", "450 m"));
        assertThat(visit.runs().get(0).test().ambient()).isEqualTo(Ambient.ofAltitude(450));
    }

    @Test
    void passes_on_what_the_reader_of_recordings_asks() {
        assertThat(questions(stamped("02/03/2026", 9, "T [°C]", 134), CYCLE))
                .extracting(Question::key)
                .containsExactly("date-order");
    }

    @Test
    void hands_answers_to_the_reader_of_recordings() throws Exception {
        Visit visit = visit(stamped("02/03/2026", 9, "T [°C]", 134), CYCLE.with("date-order", "DMY"));
        assertThat(visit.date()).contains(LocalDate.of(2026, 3, 2));
    }

    @Test
    void a_file_that_no_answer_mends_is_unreadable() {
        assertThatThrownBy(() -> visit("", CYCLE)).isInstanceOf(UnreadableFileException.class);
    }

    @Test
    void leaves_a_column_out_when_told_to() throws Exception {
        Visit visit = visit(
                elapsed("T1 [°C],T2 [°C]", 134, 20),
                CYCLE.with("role:T1", "reference-point").with("role:T2", "leave-out"));
        assertThat(visit.runs().get(0).test().trace().channels()).hasSize(1);
        assertThat(visit.runs().get(0).test().trace().remarks())
                .extracting(Remark::text)
                .contains("These columns have no role and were left out: T2. Name them under channels if they belong to"
                        + " the test.");
    }

    @Test
    void refuses_a_pressure_kind_against_the_file() {
        assertThat(problems(
                        elapsed("T [°C],P [kPa abs]", 134, 310),
                        CYCLE.with("reference:P", "gauge").with("altitude", "5 m")))
                .singleElement()
                .asString()
                .startsWith(
                        "VISIT-027 one.csv, role:P: found reference: gauge but the file says absolute for the column"
                                + " \"P\"");
    }

    @Test
    void refuses_answers_that_say_nothing() {
        assertThat(problems(
                        elapsed("T [°C]", 134),
                        CYCLE.with("kind", "emty-chamber")
                                .with("sterilizing-temperature", "134")
                                .with("barometre", "101.2 kPa")
                                .with("role:T9", "load")
                                .with("criteria-set", "eu")))
                .containsExactlyInAnyOrder(
                        "VISIT-016 one.csv, kind: found \"emty-chamber\", expected one of empty-chamber,"
                                + " reference-load, air-leakage. Did you mean \"empty-chamber\"?",
                        "VISIT-006 one.csv, barometre: found the unknown key \"barometre\", expected one of kind,"
                                + " cycle, cycle-type, sterilizing-temperature, holding-time, air-removal-pulses,"
                                + " barometer, altitude, zone, criteria-set, delimiter, decimal-mark, date-order,"
                                + " time-unit, clock, charset, start, from, to, profile, role:COLUMN, reference:COLUMN or"
                                + " unit:COLUMN. Did you mean \"barometer\"?",
                        "VISIT-025 one.csv, role:T9: found the column name \"T9\", expected one of the columns T (°C)."
                                + " Write the name as it stands in the file.",
                        "VISIT-031 one.csv, criteria-set: found the criteria set \"eu\", expected one of au-as5369,"
                                + " eu-en13060. Write one of these names.");
        assertThat(problems(elapsed("T [°C]", 134), CYCLE.with("sterilizing-temperature", "134")))
                .containsExactly(
                        "VISIT-010 one.csv, sterilizing-temperature: found 134 without a unit, expected a temperature"
                                + " in °C, °F or K. Write for example: 134 °C");
        assertThat(problems(elapsed("T [°C]", 134), CYCLE.with("sterilizing-temperature", "90 °C")))
                .singleElement()
                .asString()
                .startsWith("VISIT-017 one.csv, sterilizing-temperature: found values that exclude each other");
    }

    @Test
    void is_judged_by_a_set_that_was_read_elsewhere() throws Exception {
        Visit visit = visit(elapsed("T [°C]", 134), CYCLE.with(VisitFixture.SETS.get("au-as5369")));
        assertThat(visit.criteriaSet().name()).isEqualTo("au-as5369");
    }
}
