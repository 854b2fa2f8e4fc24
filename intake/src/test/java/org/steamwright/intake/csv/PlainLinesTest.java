package org.steamwright.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** Lines taken as they stand, against the grammar of the CSV library on the same text. */
class PlainLinesTest {

    private static final int TEXTS = 20_000;
    private static final String[] PIECES = {
        "1",
        "23",
        ".",
        "-",
        "4.5",
        "a",
        " ",
        "\"",
        "\"",
        "\"b\"",
        "\"c,d\"",
        "\"e\"\"f\"",
        "\"g\nh\"",
        ",",
        ",",
        ",",
        ",",
        "\n",
        "\n",
        "\r\n",
        "\r",
        "é",
        "°"
    };

    @Test
    void rows_are_those_of_the_library_whatever_the_text() throws IOException {
        Random random = new Random(20261125);
        int refused = 0;
        for (int i = 0; i < TEXTS; i++) {
            StringBuilder text = new StringBuilder("x");
            int pieces = random.nextInt(60);
            int kinds = random.nextInt(3) == 0 ? PIECES.length : random.nextInt(2) == 0 ? 7 : 16;
            for (int p = 0; p < pieces; p++) {
                text.append(random.nextInt(3) == 0 ? "," : PIECES[random.nextInt(kinds)]);
                text.append(random.nextInt(8) == 0 ? "\n" : "");
            }
            List<String> expected = byLibrary(text.toString());
            refused += expected.contains("refused") ? 1 : 0;
            assertThat(byOurs(text.toString())).as(text.toString()).isEqualTo(expected);
        }
        assertThat(refused).as("texts with a broken quotation").isBetween(TEXTS / 100, TEXTS / 2);
    }

    @Test
    void a_line_longer_than_the_buffer_and_the_lines_behind_it_are_those_of_the_library() throws IOException {
        String text = "a,b\r\n1,2\r\n" + "7".repeat(40_000) + "," + "8".repeat(30_000) + "\r\n3,4\r\n\"q\"\"\",5";
        assertThat(byOurs(text)).isEqualTo(byLibrary(text)).hasSize(5);
    }

    @Test
    void a_line_end_of_two_characters_may_lie_across_the_buffer() throws IOException {
        for (int before = 32_760; before < 32_775; before++) {
            String text = "x".repeat(before) + "\r\n1,2\r\n";
            assertThat(byOurs(text)).as("%s characters", before).isEqualTo(byLibrary(text));
        }
    }

    private static List<String> byOurs(String text) throws IOException {
        List<String> rows = new ArrayList<>();
        FakeFile file = FakeFile.ofTexts(text);
        try {
            Encoding encoding =
                    Encoding.of(file, ReadingChoices.inZone(ZoneOffset.UTC).build());
            new TextTable(file, encoding, ',').each(row -> rows.add(row.number() + " " + List.of(row.texts())));
        } catch (UnreadableFileException refusal) {
            rows.add("refused");
        }
        return rows;
    }

    private static List<String> byLibrary(String text) throws IOException {
        List<String> rows = new ArrayList<>();
        try (CsvReader<CsvRecord> records = CsvReader.builder()
                .allowUnclosedQuote(false)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .ofCsvRecord(new String(text.getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8))) {
            for (CsvRecord row : records) {
                List<String> cells =
                        row.getFields().stream().map(PlainLinesTest::stripped).toList();
                if (!cells.stream().allMatch(String::isEmpty)) {
                    rows.add(row.getStartingLineNumber() + " " + cells);
                }
            }
        } catch (CsvParseException broken) {
            rows.add("refused");
        }
        return rows;
    }

    /** Blanks that a cell may have around it. */
    private static String stripped(String cell) {
        int from = 0;
        int to = cell.length();
        while (from < to && " \t\u00a0\r".indexOf(cell.charAt(from)) >= 0) {
            from++;
        }
        while (to > from && " \t\u00a0\r".indexOf(cell.charAt(to - 1)) >= 0) {
            to--;
        }
        return cell.substring(from, to);
    }
}
