package org.steamwright.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.profile.ReadingProfiles;

/**
 * Every folder under {@code cases/} is one dialect or one defect: {@code recording.csv}, what is expected of it in {@code
 * expected.txt}, and the reason in {@code why.md}. All data is invented.
 *
 * <p>Lines of {@code expected.txt}: {@code zone}, {@code choose KEY = VALUE}; then {@code refused ID | words} with {@code
 * question KEY = OPTIONS}, or {@code start}, {@code samples}, {@code seconds} (all moments, or first .. last), {@code
 * column NAME | quantity | reference | unit | resolution | values}, {@code remark RANK ID | words}, {@code explained
 * words}. Every remark of the recording has to be listed. A folder {@code readings} holds reading profiles.
 */
class CasesTest {

    private static final Path CASES = Path.of("src/test/resources/cases");

    static Stream<Path> cases() throws IOException {
        try (Stream<Path> folders = Files.list(CASES)) {
            return folders.filter(Files::isDirectory).sorted().toList().stream();
        }
    }

    @Test
    void there_are_at_least_140_cases_and_each_says_why() throws IOException {
        List<Path> all = cases().toList();
        assertThat(all).hasSizeGreaterThanOrEqualTo(140);
        assertThat(all).allSatisfy(folder -> {
            assertThat(Files.readString(folder.resolve("why.md"))).isNotBlank();
            assertThat(folder.getFileName().toString()).matches("\\d{3}-[a-z0-9-]+");
        });
    }

    @ParameterizedTest
    @MethodSource("cases")
    void reads_as_expected(Path folder) throws IOException {
        String why = Files.readString(folder.resolve("why.md")).strip();
        List<String> expected = Files.readAllLines(folder.resolve("expected.txt"));
        List<String> actual = reading(folder, expected);
        List<String> wanted = new ArrayList<>();
        for (String line : expected) {
            if (!line.isBlank() && !line.startsWith("zone ") && !line.startsWith("choose ")) {
                wanted.add(line.strip());
            }
        }
        if (wanted.get(0).startsWith("refused ")) {
            assertThat(actual).as(why).hasSameSizeAs(wanted);
            for (int i = 0; i < wanted.size(); i++) {
                assertMatches(actual.get(i), wanted.get(i), why);
            }
            return;
        }
        List<String> remarksLeft = new ArrayList<>();
        for (String line : actual) {
            if (line.startsWith("remark ")) {
                remarksLeft.add(line);
            }
        }
        for (String line : wanted) {
            List<String> matching =
                    actual.stream().filter(a -> matches(a, line)).toList();
            assertThat(matching)
                    .as(why + "\nexpected: " + line + "\nin " + actual)
                    .isNotEmpty();
            if (line.startsWith("remark ")) {
                remarksLeft.remove(matching.get(0));
            }
        }
        assertThat(remarksLeft).as(why + ": every remark is expected").isEmpty();
        assertThat(actual.stream().filter(a -> a.startsWith("column ")).count())
                .as(why + ": columns")
                .isEqualTo(wanted.stream().filter(a -> a.startsWith("column ")).count());
    }

    private static void assertMatches(String actual, String wanted, String why) {
        assertThat(matches(actual, wanted))
                .as(why + "\nexpected: " + wanted + "\nfound: " + actual)
                .isTrue();
    }

    /** Equal, or for lines with words behind the bar: equal before it, and the words contained behind it. */
    private static boolean matches(String actual, String wanted) {
        if (actual.equals(wanted)) {
            return true;
        }
        boolean isWords =
                wanted.startsWith("remark ") || wanted.startsWith("refused ") || wanted.startsWith("explained ");
        if (!isWords) {
            return false;
        }
        if (wanted.startsWith("explained ")) {
            return actual.startsWith("explained ") && actual.contains(wanted.substring("explained ".length()));
        }
        int bar = wanted.indexOf(" | ");
        String head = bar < 0 ? wanted : wanted.substring(0, bar);
        if (!actual.startsWith(head + " | ")) {
            return false;
        }
        for (String words : bar < 0 ? new String[0] : wanted.substring(bar + 3).split(" \\| ", -1)) {
            if (!actual.contains(words.strip())) {
                return false;
            }
        }
        return true;
    }

    private static List<String> reading(Path folder, List<String> expected) throws IOException {
        String zone = "Australia/Hobart";
        for (String line : expected) {
            if (line.startsWith("zone ")) {
                zone = line.substring(5).strip();
            }
        }
        ReadingChoices.Builder choices = ReadingChoices.inZone(ZoneId.of(zone));
        for (String line : expected) {
            if (line.startsWith("choose ")) {
                int equals = line.indexOf(" = ");
                choices.answer(line.substring(7, equals).strip(), line.substring(equals + 3));
            }
        }
        List<String> lines = new ArrayList<>();
        try {
            Path file = folder.resolve("recording.csv");
            ReadingProfiles profiles = ReadingProfiles.in(List.of(folder.resolve(ReadingProfiles.FOLDER)));
            Recording recording = Recordings.read(file, profiles.complete(file, choices.build()));
            lines.add("start " + recording.start().map(Object::toString).orElse("unknown"));
            lines.add("samples " + recording.axis().size());
            double[] seconds = recording.axis().toSeconds();
            lines.add("seconds " + joined(seconds));
            lines.add("seconds " + shown(seconds[0]) + " .. " + shown(seconds[seconds.length - 1]));
            for (Column column : recording.columns()) {
                lines.add("column %s | %s | %s | %s | %s | %s"
                        .formatted(
                                column.name(),
                                column.quantity(),
                                column.reference().map(Object::toString).orElse("-"),
                                column.unitInFile(),
                                shown(column.resolution()),
                                joined(column.toArray())));
            }
            for (Remark remark : recording.remarks()) {
                lines.add(
                        "remark " + remark.rank() + " " + remark.id() + " | " + remark.where() + ": " + remark.text());
            }
            for (String words : recording.explanation()) {
                lines.add("explained " + words);
            }
            lines.add("simulated " + recording.isSimulated());
        } catch (UnreadableFileException refused) {
            lines.add("refused " + refused.id().id() + " | " + refused.getMessage());
            for (Question question : refused.questions()) {
                lines.add("question " + question.key() + " = " + String.join(", ", question.options()));
            }
        }
        return lines;
    }

    private static String joined(double[] values) {
        StringBuilder joined = new StringBuilder();
        for (double value : values) {
            joined.append(joined.isEmpty() ? "" : " ").append(shown(value));
        }
        return joined.toString();
    }

    /** Rounded to nine digits behind the point, so that a case can be written by hand. */
    private static String shown(double value) {
        if (Double.isNaN(value)) {
            return "NaN";
        }
        String exact = new java.math.BigDecimal(value)
                .setScale(9, java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
        return exact;
    }
}
