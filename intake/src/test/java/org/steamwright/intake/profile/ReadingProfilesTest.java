package org.steamwright.intake.profile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.csv.CsvRecordings;

class ReadingProfilesTest {

    static final String FIRST = """
        Serial: 4711
        Interval: 1 s
        Zeit;T1 (°C);P1
        03.04.2026 09:00:00;121,1;205,2
        03.04.2026 09:00:01;121,2;205,3
        """;
    static final String NEXT = """
        Serial: 4712
        Interval: 2 s
        Zeit;T1 (°C);P1
        05.06.2026 10:00:00;134,1;305,2
        05.06.2026 10:00:01;134,2;305,3
        05.06.2026 10:00:02;134,2;305,3
        """;
    static final Map<String, String> ANSWERS = answers();

    static Map<String, String> answers() {
        Map<String, String> answers = new LinkedHashMap<>();
        answers.put("date-order", "DMY");
        answers.put("unit:P1", "kPa abs");
        answers.put("zone", "+01:00");
        return answers;
    }

    @TempDir
    Path folder;

    @Test
    void an_answer_given_once_is_found_by_the_next_file_of_the_kind() throws IOException, UnreadableFileException {
        Path kept = ReadingProfiles.keep(folder.resolve("readings"), "kitchen", write("first.csv", FIRST), ANSWERS);
        assertThat(kept).hasContent("""
            # How files of one logger are read; see docs/reference/reading-profile.md
            steamwright-reading: 1
            recognised-by:
              delimiter: semicolon
              columns:
              - Zeit
              - T1 (°C)
              - P1
              before-the-header:
              - Serial
              - Interval
            answers:
              date-order: DMY
              zone: +01:00
              units:
                P1: kPa abs
            """);
        Recording read = read(write("next.csv", NEXT), ReadingChoices.supposingZone(ZoneOffset.UTC));
        assertThat(read.start()).hasToString("Optional[2026-06-05T09:00:00Z]");
        assertThat(read.columns().get(1).at(0)).isEqualTo(305.2);
        assertThat(read.explanation())
                .contains(
                        "reading profile \"kitchen\" fits by delimiter, columns, units and lines before the header; it"
                                + " says date-order = DMY, unit:P1 = kPa abs, zone = +01:00");
    }

    @Test
    void what_is_said_for_the_file_goes_before_the_profile() throws IOException, UnreadableFileException {
        ReadingProfiles.keep(folder.resolve("readings"), "kitchen", write("first.csv", FIRST), ANSWERS);
        Recording read = read(
                write("next.csv", NEXT),
                ReadingChoices.inZone(ZoneId.of("UTC"))
                        .answer("unit:P1", "mbar abs")
                        .answer("date-order", "MDY"));
        assertThat(read.start()).hasToString("Optional[2026-05-06T10:00:00Z]");
        assertThat(read.columns().get(1).at(0)).isEqualTo(30.52);
        assertThat(read.explanation())
                .contains("reading profile \"kitchen\" fits by delimiter, columns, units and lines before the header;"
                        + " all that it answers was said otherwise");
    }

    @ParameterizedTest(name = "{3}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\0',
            value = {
                "05.06.2026 10:00:02 | 05.26.2026 10:00:02 | date-order = DMY, but its dates can only be read as MDY |"
                        + " proof of another order",
                "134,2;305,3 | 134.2;305.3 | decimal-mark = comma, but the numbers are written with a point | another"
                        + " decimal mark",
                "05.06.2026 10:00:00;134,1;305,2 | ;°C;mbar# | unit:P1 = kPa, but the file says mbar | a row of units",
            })
    void a_file_that_contradicts_its_profile_is_refused_with_the_evidence(
            String found, String instead, String evidence, String why) throws IOException, UnreadableFileException {
        Map<String, String> answers = new LinkedHashMap<>(ANSWERS);
        answers.put("decimal-mark", "comma");
        String first = FIRST;
        String next = NEXT.replace(found.strip(), instead.strip());
        if (instead.contains("#")) {
            // the profile answers a unit that the next file's row of units leaves no doubt about
            first = FIRST.replace("Zeit;T1 (°C);P1", "Zeit;T1 (°C);P1\n;°C;mbar");
            next = first;
            answers.remove("unit:P1");
            answers.put("unit:P1", "kPa abs");
        }
        if (why.contains("decimal")) {
            next = NEXT.replace(',', '.');
        }
        ReadingProfiles.keep(folder.resolve("readings"), "kitchen", write("first.csv", first), answers);
        Path file = write("next.csv", next);
        assertThatExceptionOfType(UnreadableFileException.class)
                .as(why)
                .isThrownBy(() -> read(file, ReadingChoices.supposingZone(ZoneOffset.UTC)))
                .satisfies(refused -> {
                    assertThat(refused.id()).isEqualTo(IntakeMessage.PROFILE_CONTRADICTED);
                    assertThat(refused.text()).startsWith("the reading profile \"kitchen\" says " + evidence.strip());
                });
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "Zeit;T1 (°C);P1 > Zeit;T1 (°C);P2 | a column of another name",
                "Zeit;T1 (°C);P1 > Zeit;P1;T1 (°C) | another order",
                "Interval: 2 s > Rate: 2 s | another line before the header",
                "Serial: 4712\\n > '' | a line less",
            })
    void another_kind_of_file_is_not_read_by_it(String change, String why) throws IOException, UnreadableFileException {
        ReadingProfiles.keep(folder.resolve("readings"), "kitchen", write("first.csv", FIRST), ANSWERS);
        String[] parts = change.split(" > ", -1);
        Path file = write("next.csv", NEXT.replace(parts[0].replace("\\n", "\n"), parts[1].replace("''", "")));
        ReadingProfiles profiles = ReadingProfiles.in(List.of(folder.resolve("readings")));
        ReadingChoices said = ReadingChoices.inZone(ZoneOffset.UTC).build();
        assertThat(profiles.complete(file, said)).as(why).isSameAs(said);
    }

    @Test
    void two_profiles_that_fit_are_a_question() throws IOException, UnreadableFileException {
        Path file = write("first.csv", FIRST);
        ReadingProfiles.keep(folder.resolve("readings"), "kitchen", file, ANSWERS);
        ReadingProfiles.keep(folder.resolve("readings"), "workshop", file, Map.of("date-order", "MDY"));
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> read(file, ReadingChoices.supposingZone(ZoneOffset.UTC)))
                .satisfies(refused -> assertThat(refused.questions())
                        .singleElement()
                        .satisfies(question -> {
                            assertThat(question.key()).isEqualTo("profile");
                            assertThat(question.evidence()).contains("\"workshop\" says date-order = MDY");
                            assertThat(question.options()).containsExactly("kitchen", "workshop", "none");
                        }));
        Recording read = read(file, ReadingChoices.supposingZone(ZoneOffset.UTC).answer("profile", "kitchen"));
        assertThat(read.start()).hasToString("Optional[2026-04-03T08:00:00Z]");
    }

    @Test
    void a_profile_that_is_named_has_to_be_there_and_to_fit() throws IOException, UnreadableFileException {
        Path file = write("first.csv", FIRST);
        ReadingProfiles.keep(folder.resolve("readings"), "kitchen", file, ANSWERS);
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(
                        () -> read(file, ReadingChoices.inZone(ZoneOffset.UTC).answer("profile", "cellar")))
                .withMessage("INTAKE-023 first.csv: the reading profile \"cellar\" is not there. The folder holds:"
                        + " kitchen.");
        Path other = write("other.csv", FIRST.replace("P1", "P9"));
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(
                        () -> read(other, ReadingChoices.inZone(ZoneOffset.UTC).answer("profile", "kitchen")))
                .withMessageContaining("is for another kind of file");
    }

    @Test
    void nothing_is_overwritten() throws IOException, UnreadableFileException {
        Path file = write("first.csv", FIRST);
        Path readings = folder.resolve("readings");
        Path kept = ReadingProfiles.keep(readings, "kitchen", file, ANSWERS);
        String before = Files.readString(kept);
        assertThat(ReadingProfiles.keep(readings, "kitchen", file, ANSWERS)).isEqualTo(kept);
        assertThatExceptionOfType(FileAlreadyExistsException.class)
                .isThrownBy(() -> ReadingProfiles.keep(readings, "kitchen", file, Map.of("date-order", "MDY")));
        assertThat(kept).hasContent(before);
    }

    @Test
    void the_answers_of_one_run_are_not_kept() throws IOException, UnreadableFileException {
        Path file = write("first.csv", FIRST);
        Map<String, String> answers = new LinkedHashMap<>(ANSWERS);
        answers.put("start", "2026-03-02T09:00:00Z");
        answers.put("from", "09:00");
        Path kept = ReadingProfiles.keep(folder.resolve("readings"), "kitchen", file, answers);
        assertThat(Files.readString(kept)).doesNotContain("start").doesNotContain("from");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> ReadingProfiles.keep(folder, "other", file, Map.of("from", "09:00")))
                .withMessageContaining("nothing to keep");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> ReadingProfiles.keep(folder, "../other", file, ANSWERS))
                .withMessageContaining("is no name");
    }

    @Test
    void answers_that_part_the_cells_are_used_to_recognise_the_file() throws IOException, UnreadableFileException {
        String text = "t_s!T_C!Raum\n0!121,1!a\n1!121,2!b\n";
        Path file = Files.write(folder.resolve("odd.csv"), text.getBytes(StandardCharsets.UTF_16LE));
        ReadingProfiles.keep(folder.resolve("readings"), "odd", file, Map.of("delimiter", "!", "charset", "UTF-16LE"));
        assertThat(read(file, ReadingChoices.inZone(ZoneOffset.UTC)).axis().size())
                .isEqualTo(2);
    }

    @Test
    void the_sheet_of_a_workbook_is_kept_and_the_next_workbook_of_the_kind_is_read_on_it()
            throws IOException, UnreadableFileException {
        Path readings = folder.resolve("readings");
        ReadingProfiles.keep(
                readings,
                "two-sheets",
                workbook("first.xlsx", 121),
                Map.of("sheet", "Load", "unit:P1", "kPa abs", "zone", "+01:00"));
        assertThat(readings.resolve("two-sheets.yaml")).content().contains("answers:\n  sheet: Load\n  zone: +01:00\n");
        Path next = workbook("next.xlsx", 134);
        ReadingChoices said = ReadingChoices.supposingZone(ZoneOffset.UTC).build();
        assertThatExceptionOfType(UnreadableFileException.class)
                .as("without the profile the sheet is asked")
                .isThrownBy(() -> Recordings.read(next, said))
                .satisfies(asked -> assertThat(asked.questions().get(0).key()).isEqualTo("sheet"));
        Recording read =
                Recordings.read(next, ReadingProfiles.in(List.of(readings)).complete(next, said));
        assertThat(read.columns().get(0).at(0)).isEqualTo(136);
        assertThat(read.columns().get(1).unitInFile()).isEqualTo("kPa");
        assertThat(read.explanation()).anyMatch(line -> line.contains("reading profile \"two-sheets\" fits"));
    }

    /** Two sheets that both hold a recording; the second is two degrees hotter. */
    private Path workbook(String name, int celsius) throws IOException {
        Path file = folder.resolve(name);
        try (OutputStream out = Files.newOutputStream(file);
                Workbook workbook = new Workbook(out, "test", "1.0")) {
            for (String sheetName : List.of("Chamber", "Load")) {
                Worksheet sheet = workbook.newWorksheet(sheetName);
                sheet.value(0, 0, "time");
                sheet.value(0, 1, "T1 (°C)");
                sheet.value(0, 2, "P1");
                for (int i = 1; i < 5; i++) {
                    sheet.value(i, 0, "2026-03-02 09:00:0" + i);
                    sheet.value(i, 1, celsius + (sheetName.equals("Load") ? 2.0 : 0.0));
                    sheet.value(i, 2, 200.5 + i);
                }
            }
        }
        return file;
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "steamwright-reading: 2 | expected 1",
                "[1, 2] | expected keys and values",
                "steamwright-reading: 1\\n"
                        + "recognised-by: {delimiter: comma, columns: [a]}\\n"
                        + "answers: {start: now} | \"start\", which is not known; there are clock, date-order,"
                        + " decimal-mark, delimiter, encoding, references, sheet, time-unit, units, zone",
                "steamwright-reading: 1\\n"
                        + "recognised-by: {delimiter: comma, columns: a}\\n"
                        + "answers: {} | recognised-by: columns: found \"a\", expected a list",
                "steamwright-reading: 1\\n"
                        + "recognised-by: {delimiter: comma, columns: [a]}\\n"
                        + "answers: {date-order: XYZ} | date-order: found \"XYZ\", expected DMY, MDY or YMD",
                "steamwright-reading: 1\\n"
                        + "recognised-by: {delimiter: comma, columns: [a]}\\n"
                        + "answers: {zone: Mars/Base} | zone: found \"Mars/Base\"",
                "a: [1 | this is no reading profile",
                "a: &x [1]\\nb: *x | this is no reading profile",
            })
    void a_file_that_is_no_profile_is_named_with_what_is_wrong(String text, String expected) throws IOException {
        Path readings = Files.createDirectory(folder.resolve("readings"));
        Files.writeString(readings.resolve("broken.yaml"), text.replace("\\n", "\n"));
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> ReadingProfiles.in(List.of(readings)))
                .satisfies(refused -> assertThat(refused.getMessage())
                        .startsWith("INTAKE-065 broken.yaml: this is no reading profile: ")
                        .contains(expected));
    }

    private Recording read(Path file, ReadingChoices.Builder choices) throws IOException, UnreadableFileException {
        ReadingProfiles profiles = ReadingProfiles.in(List.of(folder.resolve("readings")));
        return CsvRecordings.read(file, profiles.complete(file, choices.build()));
    }

    private Path write(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }
}
