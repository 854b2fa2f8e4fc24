package org.steamwright.intake.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;

/**
 * Every folder under {@code workbooks/} is one way of keeping a recording in a workbook, or one defect: {@code
 * recording.xlsx}, the same recording as text in {@code twin.csv} where it can be read, and the reason in {@code why.md}.
 * {@link WorkbookCases} writes them (with {@code -Dgolden=write}) and says what is expected.
 */
class WorkbookCasesTest {

    private static final Path CASES = Path.of("src/test/resources/workbooks");

    @TempDir
    Path folder;

    static Stream<WorkbookCases.Case> cases() {
        return WorkbookCases.all().stream();
    }

    @Test
    void there_are_at_least_25_cases_with_names_of_their_own() {
        List<String> names = cases().map(WorkbookCases.Case::name).toList();
        assertThat(names).hasSizeGreaterThanOrEqualTo(25).doesNotHaveDuplicates();
        assertThat(names).allMatch(name -> name.matches("3\\d\\d-[a-z0-9-]+"));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cases")
    void lies_in_the_repository_as_it_is_generated(WorkbookCases.Case one) throws IOException {
        Path kept = CASES.resolve(one.name());
        if ("write".equals(System.getProperty("golden"))) {
            Files.createDirectories(kept);
            Files.write(kept.resolve("recording.xlsx"), one.bytes());
            Files.writeString(kept.resolve("why.md"), one.why() + "\n");
            if (!one.twin().isEmpty()) {
                Files.writeString(kept.resolve("twin.csv"), one.twin());
            }
        }
        assertThat(Files.readAllBytes(kept.resolve("recording.xlsx"))).isEqualTo(one.bytes());
        assertThat(kept.resolve("why.md")).hasContent(one.why() + "\n");
        if (!one.twin().isEmpty()) {
            assertThat(kept.resolve("twin.csv")).hasContent(one.twin());
        }
    }

    @Test
    void nothing_lies_there_that_is_not_generated() throws IOException {
        assumeThat(System.getProperty("golden")).isNull();
        try (Stream<Path> folders = Files.list(CASES)) {
            assertThat(folders.map(path -> path.getFileName().toString()))
                    .containsExactlyInAnyOrderElementsOf(
                            cases().map(WorkbookCases.Case::name).toList());
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cases")
    void is_read_like_its_twin_or_refused_with_the_reason(WorkbookCases.Case one) throws IOException {
        Path workbook = folder.resolve("recording.bin");
        Files.write(workbook, one.bytes());
        List<String> said = new ArrayList<>();
        List<String> wanted = new ArrayList<>(one.expected());
        try {
            Recording read = Recordings.read(workbook, choices(one.choices()));
            for (Remark remark : read.remarks()) {
                said.add(remark.rank() + " " + remark.id());
            }
            assertThat(one.twin()).as("it is read, so it has a twin").isNotEmpty();
            assertEqualToTwin(read, one);
            for (String line : one.expected()) {
                if (line.startsWith("explained ")) {
                    wanted.remove(line);
                    assertThat(String.join("\n", read.explanation())).contains(line.substring(10));
                }
            }
            assertThat(said).as(one.why() + " " + read.remarks()).containsExactlyInAnyOrderElementsOf(wanted);
        } catch (UnreadableFileException refused) {
            assertThat(one.twin()).as(refused.getMessage()).isEmpty();
            String[] words = wanted.get(0).split(" \\| ", -1);
            assertThat("refused " + refused.id().id()).as(refused.getMessage()).isEqualTo(words[0]);
            for (int i = 1; i < words.length; i++) {
                assertThat(refused.getMessage()).as(one.why()).contains(words[i]);
            }
            List<String> questions = new ArrayList<>();
            for (Question question : refused.questions()) {
                questions.add("question " + question.key() + " = " + String.join(", ", question.options()));
            }
            assertThat(questions).isEqualTo(wanted.subList(1, wanted.size()));
        }
    }

    private void assertEqualToTwin(Recording read, WorkbookCases.Case one) throws IOException {
        Path text = folder.resolve("twin.csv");
        Files.writeString(text, one.twin());
        Recording twin;
        try {
            twin = Recordings.read(text, choices(List.of()));
        } catch (UnreadableFileException broken) {
            throw new AssertionError("the twin is no recording", broken);
        }
        assertThat(read.start()).as(one.why()).isEqualTo(twin.start());
        assertThat(read.zone()).isEqualTo(twin.zone());
        assertThat(read.isSimulated()).isEqualTo(twin.isSimulated());
        assertThat(read.axis().toSeconds()).as(one.why()).isEqualTo(twin.axis().toSeconds());
        assertThat(read.columns()).as(one.why()).hasSameSizeAs(twin.columns());
        for (int i = 0; i < twin.columns().size(); i++) {
            Column column = read.columns().get(i);
            Column same = twin.columns().get(i);
            assertThat(column.name()).isEqualTo(same.name());
            assertThat(column.quantity()).isEqualTo(same.quantity());
            assertThat(column.reference()).isEqualTo(same.reference());
            assertThat(column.unitInFile()).isEqualTo(same.unitInFile());
            assertThat(column.toArray()).as(one.why()).isEqualTo(same.toArray());
        }
    }

    private static ReadingChoices choices(List<String> said) {
        ReadingChoices.Builder choices = ReadingChoices.inZone(ZoneId.of("Australia/Hobart"));
        for (String choice : said) {
            int equals = choice.indexOf(" = ");
            choices.answer(choice.substring(0, equals), choice.substring(equals + 3));
        }
        return choices.build();
    }
}
