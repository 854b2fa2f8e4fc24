package org.steamwright.intake.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.io.IOException;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** A table that is no text file, and more of it than may be kept. */
class MostValuesTest {

    static final Opening NOTHING = new Opening(false, List.of(), List.of());

    /** Rows of elapsed seconds and one temperature. */
    record Elapsed(int rows) implements Table {
        @Override
        public String fileName() {
            return "sheet";
        }

        @Override
        public char delimiter() {
            return '\t';
        }

        @Override
        public Optional<DecimalMark> decimalMark() {
            return Optional.of(DecimalMark.POINT);
        }

        @Override
        public Ending each(RowTaker taker) throws UnreadableFileException {
            Row row = new Row();
            for (int i = 0; i <= rows; i++) {
                row.begin(i + 1);
                row.add(i == 0 ? "t_s" : Integer.toString(i - 1));
                row.add(i == 0 ? "T_C" : " 121." + i % 10 + " ");
                if (!taker.take(row)) {
                    return Ending.STOPPED;
                }
            }
            return Ending.COMPLETE;
        }

        @Override
        public Fingerprint fingerprint() {
            return new Fingerprint(1, "0".repeat(64));
        }
    }

    @Test
    void a_table_of_any_format_is_read() throws IOException, UnreadableFileException {
        ReadingChoices choices = ReadingChoices.inZone(ZoneOffset.UTC).build();
        var read = TableRecordings.read(new Elapsed(3000), NOTHING, choices);
        assertThat(read.axis().size()).isEqualTo(3000);
        assertThat(read.explanation()).contains("decimal point, fixed by the format of the file");
    }

    @Test
    void more_rows_than_may_be_kept_are_counted_and_the_time_is_asked_for() {
        ReadingChoices choices = ReadingChoices.inZone(ZoneOffset.UTC).build();
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> TableRecordings.read(new Elapsed(5000), NOTHING, choices, 3000))
                .withMessage(
                        "INTAKE-005 sheet: the file has 5000 rows with 1 columns to read, from 0 up to the time 4999; at"
                                + " most 1000 rows of that width are kept at once. Choose the time of the run (from and"
                                + " to), or leave columns out (unit:… = skip). So that the run can be found: T_C 121 to"
                                + " 121.9 °C.");
    }

    @Test
    void as_many_as_may_be_kept_are_read() throws IOException, UnreadableFileException {
        ReadingChoices all = ReadingChoices.inZone(ZoneOffset.UTC).build();
        assertThat(TableRecordings.read(new Elapsed(1000), NOTHING, all, 3000)
                        .axis()
                        .size())
                .isEqualTo(1000);
        ReadingChoices some = ReadingChoices.inZone(ZoneOffset.UTC)
                .answer("from", "00:10:00")
                .answer("to", "00:20:00")
                .build();
        assertThat(TableRecordings.read(new Elapsed(5000), NOTHING, some, 3000)
                        .axis()
                        .size())
                .isEqualTo(601);
    }
}
