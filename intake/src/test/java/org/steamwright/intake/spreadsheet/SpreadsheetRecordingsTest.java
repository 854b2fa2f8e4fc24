package org.steamwright.intake.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.steamwright.intake.spreadsheet.HandWorkbook.number;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.ZoneId;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;

class SpreadsheetRecordingsTest {

    private static final ReadingChoices SITE =
            ReadingChoices.inZone(ZoneId.of("Australia/Hobart")).build();

    @TempDir
    Path folder;

    private Path write(String name, byte[] bytes) throws IOException {
        return Files.write(folder.resolve(name), bytes);
    }

    private static HandWorkbook book(int rows) {
        HandWorkbook book = new HandWorkbook();
        HandWorkbook.Sheet sheet = book.sheet("Data").row(book.text("t (s)"), book.text("T1 (°C)"));
        for (int i = 0; i < rows; i++) {
            sheet.row(number(Integer.toString(i)), number("121.%d".formatted(10 + i % 80)));
        }
        return book;
    }

    @Test
    void the_first_bytes_decide_not_the_name() throws IOException, UnreadableFileException {
        assertThat(Recordings.read(write("run.csv", book(3).bytes()), SITE)
                        .axis()
                        .size())
                .isEqualTo(3);
        Path text = write(
                "run.xlsx", "t (s),T1 (°C)\n0,121.1\n1,121.2\n".getBytes(java.nio.charset.StandardCharsets.UTF_8));
        assertThat(Recordings.read(text, SITE).axis().size()).isEqualTo(2);
    }

    @Test
    void carries_name_size_and_fingerprint_of_the_file() throws Exception {
        byte[] bytes = book(3).bytes();
        Path file = write("run.xlsx", bytes);
        Recording read = Recordings.read(file, SITE);
        assertThat(read.fileName()).isEqualTo("run.xlsx");
        assertThat(read.bytes()).isEqualTo(bytes.length);
        assertThat(read.sha256()).isEqualTo(sha256(bytes));
        assertThat(Files.readAllBytes(file)).isEqualTo(bytes);
    }

    private static String sha256(byte[] bytes) throws NoSuchAlgorithmException {
        return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    }

    @Test
    void explains_sheet_and_times() throws IOException, UnreadableFileException {
        HandWorkbook book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(number(HandWorkbook.DATE_AND_TIME, "46083.375"), number("121.1"))
                .row(number(HandWorkbook.DATE_AND_TIME, "46083.3750115741"), number("121.2"));
        byte[] bytes = book.bytes();
        assertThat(Recordings.read(write("run.xlsx", bytes), SITE).explanation())
                .contains(
                        "workbook of " + bytes.length + " bytes with 1 sheet; read is sheet \"Data\", the only one",
                        "column 1: day numbers counted from 1900, written as date and time; seconds rounded to 1, the largest change is 0.000002 s",
                        "decimal point, fixed by the format of the file");
    }

    @Test
    void shows_one_row_as_it_is_handed_on() throws IOException, UnreadableFileException {
        Path file = write("run.xlsx", book(3).bytes());
        assertThat(Recordings.cells(file, SITE, 1)).containsExactly("t (s)", "T1 (°C)");
        assertThat(Recordings.cells(file, SITE, 3)).containsExactly("1", "121.11");
        assertThat(Recordings.cells(file, SITE, 9)).isEmpty();
    }

    @Test
    void has_the_kind_of_its_twin_as_text() throws IOException, UnreadableFileException {
        Path text = write(
                "run.txt", "t (s)\tT1 (°C)\n0\t121.1\n1\t121.2\n".getBytes(java.nio.charset.StandardCharsets.UTF_8));
        assertThat(Recordings.kind(write("run.xlsx", book(3).bytes()), SITE)).isEqualTo(Recordings.kind(text, SITE));
    }

    @Test
    void a_wrong_file_tells_the_whole_sentence() throws IOException {
        Path cut = write("run.xlsx", java.util.Arrays.copyOf(book(3).bytes(), 500));
        assertThatThrownBy(() -> Recordings.read(cut, SITE))
                .hasMessage(
                        "INTAKE-070 run.xlsx: the file begins as a workbook, but its end is missing, as in a file that was not copied or not saved to the end. Copy it again, or open and save it with a spreadsheet program.");
    }

    @Test
    void a_long_sheet_is_kept_in_a_few_bytes_a_cell() throws IOException, UnreadableFileException {
        Recording read = Recordings.read(write("run.xlsx", book(60_000).bytes()), SITE);
        assertThat(read.axis().size()).isEqualTo(60_000);
        assertThat(read.columns().get(0).at(59_999)).isEqualTo(121.89);
    }
}
