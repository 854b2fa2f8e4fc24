package org.steamwright.intake.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.Row;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileBytes;

/**
 * Workbooks written by a library that knows nothing of this reader: none is refused, every value and every time comes out
 * as it went in, and as another library reads it. As many as {@code campaign.runs}.
 */
class HonestWorkbooksTest {

    private static final ZoneId SITE = ZoneId.of("Australia/Hobart");
    private static final String[] FORMATS = {
        "yyyy-mm-dd hh:mm:ss", "dd/mm/yyyy hh:mm", "m/d/yy h:mm AM/PM", "hh:mm:ss.000", "yyyy-mm-dd"
    };
    private static final int[] STEPS = {100, 250, 500, 1000, 2000, 5000, 60_000};

    private record Written(
            byte[] bytes, LocalDateTime start, int stepMillis, List<List<BigDecimal>> rows, int firstRow) {}

    @Test
    void honest_workbooks_are_never_refused() throws IOException {
        ReadingChoices choices = ReadingChoices.inZone(SITE).build();
        int runs = Integer.getInteger("campaign.runs", 1000);
        Random random = new Random(20261125);
        for (int run = 0; run < runs; run++) {
            Written written = write(random);
            String which = "workbook " + run;
            Recording read;
            try {
                read = SpreadsheetRecordings.read(FileBytes.of("recording.xlsx", written.bytes()), choices);
            } catch (UnreadableFileException refused) {
                throw new AssertionError(which + " was refused", refused);
            }
            assertThat(read.start())
                    .as(which)
                    .contains(written.start().atZone(SITE).toInstant());
            assertThat(read.axis().size()).as(which).isEqualTo(written.rows().size());
            for (int r = 0; r < written.rows().size(); r++) {
                assertThat(read.axis().toSeconds()[r]).as(which).isEqualTo(r * (double) written.stepMillis() / 1000);
                for (int c = 0; c < written.rows().get(r).size(); c++) {
                    assertThat(read.columns().get(c).at(r))
                            .as(which)
                            .isEqualTo(written.rows().get(r).get(c).doubleValue());
                }
            }
            if (run % 10 == 0) {
                assertReadAlikeByAnother(which, written, read);
            }
        }
    }

    /** What fastexcel-reader finds in the cells; its dates have whole milliseconds. */
    private static void assertReadAlikeByAnother(String which, Written written, Recording read) throws IOException {
        try (ReadableWorkbook book = new ReadableWorkbook(new ByteArrayInputStream(written.bytes()))) {
            List<Row> rows = book.findSheet("Data").orElseThrow().read();
            for (int r = 0; r < written.rows().size(); r++) {
                Row row = rows.get(written.firstRow() + r);
                LocalDateTime time = row.getCellAsDate(0).orElseThrow();
                LocalDateTime ours =
                        written.start().plusNanos(Math.round(read.axis().toSeconds()[r] * 1e9));
                assertThat(Duration.between(time, ours).abs()).as(which).isLessThanOrEqualTo(Duration.ofMillis(1));
                for (int c = 0; c < read.columns().size(); c++) {
                    assertThat(row.getCellAsNumber(c + 1).orElseThrow().doubleValue())
                            .as(which)
                            .isEqualTo(read.columns().get(c).at(r));
                }
            }
        }
    }

    private static Written write(Random random) throws IOException {
        int columns = 1 + random.nextInt(5);
        int count = 2 + random.nextInt(15);
        int step = STEPS[random.nextInt(STEPS.length)];
        LocalDateTime start = LocalDateTime.of(2026, 3, 1, 0, 0)
                .plusSeconds(random.nextInt(20 * 86_400))
                .plusNanos(1_000_000L * step * random.nextInt(10));
        String format = FORMATS[random.nextInt(FORMATS.length)];
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        List<List<BigDecimal>> rows = new ArrayList<>();
        int firstRow;
        try (Workbook book = new Workbook(out, "honest", "1.0")) {
            if (random.nextBoolean()) {
                Worksheet about = book.newWorksheet("About");
                about.value(0, 0, "Invented data");
                about.value(1, 0, "Samples");
                about.value(1, 1, count);
            }
            Worksheet sheet = book.newWorksheet("Data");
            int row = 0;
            for (int line = random.nextInt(4); line > 0; line--) {
                sheet.value(row, 0, "Line " + row);
                if (random.nextBoolean()) {
                    sheet.value(row, 1, "invented");
                }
                row++;
            }
            sheet.value(row, 0, "Date and time");
            for (int c = 0; c < columns; c++) {
                sheet.value(row, c + 1, "Probe " + (c + 1) + " (°C)");
            }
            row++;
            firstRow = row;
            for (int r = 0; r < count; r++) {
                sheet.value(row, 0, start.plusNanos(1_000_000L * step * r));
                sheet.style(row, 0).format(format).set();
                List<BigDecimal> values = new ArrayList<>();
                for (int c = 0; c < columns; c++) {
                    BigDecimal value = BigDecimal.valueOf(random.nextDouble() * 200 - 20)
                            .setScale(1 + random.nextInt(4), RoundingMode.HALF_EVEN);
                    sheet.value(row, c + 1, value);
                    values.add(value);
                }
                rows.add(values);
                row++;
            }
            if (random.nextInt(4) == 0) {
                book.newWorksheet("Notes").value(0, 0, "nothing to note");
            }
        }
        return new Written(out.toByteArray(), start, step, rows, firstRow);
    }
}
