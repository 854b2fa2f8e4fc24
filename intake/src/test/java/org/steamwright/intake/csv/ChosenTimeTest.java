package org.steamwright.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.io.IOException;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

class ChosenTimeTest {

    static final String STAMPS = "time,T (°C)\n"
            + "2026-03-02 09:00:00,1\n"
            + "2026-03-02 09:00:10,2\n"
            + "2026-03-02 09:00:20,3\n"
            + "2026-03-02 09:00:30,4\n"
            + "2026-03-02 09:00:40,5\n";

    @ParameterizedTest(name = "{4}")
    @CsvSource({
        "2026-03-02T09:00:10, 2026-03-02T09:00:30, 3, 2, both ends are read",
        "2026-03-02T09:00:11, 2026-03-02T09:00:39, 2, 3, between the rows",
        "2026-03-02 09:00:20, '', 3, 3, open at the end",
        "'', 2026-03-02 09:00:20, 3, 1, open at the beginning",
        "2026-03-01T22:00:10Z, 2026-03-01T22:00:20Z, 2, 2, moments: Hobart is eleven hours ahead",
        "2026-03-02T09:00:10+11:00, 2026-03-01T22:00:20Z, 2, 2, moments with offsets",
        "2026-03-02T09:00, 2026-03-03T00:00, 5, 1, all of it",
    })
    void keeps_the_rows_of_the_chosen_time(String from, String to, int rows, double first, String why)
            throws IOException, UnreadableFileException {
        Recording read = read(STAMPS, from, to, "");
        assertThat(read.axis().size()).as(why).isEqualTo(rows);
        assertThat(read.columns().get(0).at(0)).as(why).isEqualTo(first);
    }

    @Test
    void counts_what_it_leaves_out() throws IOException, UnreadableFileException {
        assertThat(read(STAMPS, "2026-03-02T09:00:10", "2026-03-02T09:00:20", "")
                        .remarks())
                .singleElement()
                .hasToString(
                        "INTAKE-063 fake.csv: Only part of the file's time was chosen, and 2 rows of 5 were read. Not"
                                + " read: before it 1 row (row 2), behind it 2 rows (row 5 to row 6).");
    }

    @Test
    void a_time_that_no_row_has_is_refused_with_the_time_that_there_is() {
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> read(STAMPS, "2026-03-03T09:00:10", "", ""))
                .withMessage(
                        "INTAKE-023 fake.csv: no row lies in the chosen time; its rows go from 2026-03-02 09:00:00 to"
                                + " 2026-03-02 09:00:40. Choose another time (from and to).");
    }

    @Test
    void a_time_without_a_date_can_not_be_found_among_dates() {
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> read(STAMPS, "09:00:10", "", ""))
                .withMessageContaining("the file tells dates. Write date and time, such as 2026-03-02T09:00:10");
    }

    @Test
    void the_order_of_day_and_month_is_proven_by_rows_that_are_left_out() throws IOException, UnreadableFileException {
        String text = "time,T (°C)\n"
                + "11/03/2026 09:00:00,1\n"
                + "11/03/2026 09:00:10,2\n"
                + "12/03/2026 09:00:20,3\n"
                + "13/03/2026 09:00:30,4\n";
        Recording read = read(text, "2026-03-11T00:00", "2026-03-11T23:00", "");
        assertThat(read.axis().size()).isEqualTo(2);
        assertThat(read.explanation()).contains("dates in the order DMY, proven by row 5");
    }

    @ParameterizedTest(name = "{4}")
    @CsvSource({
        "23:59:50, 00:00:10, '', 3, across midnight",
        "00:00:00, 00:00:30, '', 3, the next day",
        "23:59:40, 23:59:50, '', 2, before midnight",
        "2026-03-02T12:00:10Z, 2026-03-02T12:00:20Z, 2026-03-02T12:00:00Z, 2, moments with a start",
    })
    void works_for_files_with_the_time_of_day_only(String from, String to, String start, int rows, String why)
            throws IOException, UnreadableFileException {
        String text = "time,T (°C)\n23:59:40,1\n23:59:50,2\n00:00:00,3\n00:00:10,4\n00:00:20,5\n";
        Recording read = read(text, from, to, start);
        assertThat(read.axis().size()).as(why).isEqualTo(rows);
        if (!start.isEmpty()) {
            assertThat(read.start()).as("of the first row kept").hasToString("Optional[2026-03-02T12:00:10Z]");
        }
    }

    @ParameterizedTest(name = "{4}")
    @CsvSource({
        "00:01:00, 00:02:00, '', 2, hours minutes and seconds of elapsed time",
        "2026-03-02T12:01:00Z, '', 2026-03-02T12:00:00Z, 3, moments with a start",
        "2026-03-02T23:01:00, 2026-03-02T23:02:00, 2026-03-02T12:00:00Z, 2, by the clock of the zone",
    })
    void works_for_elapsed_time(String from, String to, String start, int rows, String why)
            throws IOException, UnreadableFileException {
        Recording read = read("t_min,T (°C)\n0,1\n1,2\n2,3\n3,4\n", from, to, start);
        assertThat(read.axis().size()).as(why).isEqualTo(rows);
        assertThat(read.columns().get(0).at(0)).isEqualTo(2);
    }

    @Test
    void a_date_can_not_be_found_in_elapsed_time_without_a_start() {
        assertThatExceptionOfType(UnreadableFileException.class)
                .isThrownBy(() -> read("t_min,T (°C)\n0,1\n1,2\n2,3\n", "2026-03-02T12:01:00Z", "", ""))
                .withMessageContaining("the file tells no date. Write hours, minutes and seconds");
    }

    @Test
    void rows_with_their_own_offset_are_compared_as_moments() throws IOException, UnreadableFileException {
        String text = "time,T (°C)\n2026-03-02T09:00:00Z,1\n2026-03-02T09:00:10Z,2\n2026-03-02T09:00:20Z,3\n";
        assertThat(read(text, "2026-03-02T20:00:10", "", "").axis().size())
                .as("20:00 in Hobart")
                .isEqualTo(2);
    }

    @Test
    void what_is_odd_outside_the_chosen_time_is_not_told() throws IOException, UnreadableFileException {
        String text = STAMPS.replace(",1\n", ",open\n").replace(",5\n", ",\n");
        assertThat(read(text, "2026-03-02T09:00:10", "2026-03-02T09:00:30", "").remarks())
                .extracting(remark -> remark.id())
                .containsExactly("INTAKE-063");
    }

    private static Recording read(String text, String from, String to, String start)
            throws IOException, UnreadableFileException {
        ReadingChoices.Builder choices = ReadingChoices.inZone(ZoneId.of("Australia/Hobart"));
        if (!from.isEmpty()) {
            choices.answer("from", from);
        }
        if (!to.isEmpty()) {
            choices.answer("to", to);
        }
        if (!start.isEmpty()) {
            choices.answer("start", start);
        }
        return CsvRecordings.read(FakeFile.ofTexts(text), choices.build());
    }
}
