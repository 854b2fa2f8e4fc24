package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;

class EditedOutsideTest {

    static List<String> signs(IntFunction<String> row) {
        StringBuilder text = new StringBuilder("Logger 17 (invented)\nTime,T1,T2\n");
        for (int i = 0; i < 200; i++) {
            text.append(row.apply(i));
        }
        return EditedOutside.signs(text.toString().getBytes(StandardCharsets.UTF_8));
    }

    static String stamp(int i) {
        return String.format(Locale.ROOT, "2026-03-02 10:%02d:%02d", i / 60, i % 60);
    }

    static String value(int i) {
        return String.format(Locale.ROOT, "%.2f", 20 + i * 0.37);
    }

    @Test
    void a_file_of_one_hand_shows_nothing() {
        assertThat(signs(i -> stamp(i) + "," + value(i) + "," + value(i + 3) + "\n"))
                .isEmpty();
        assertThat(signs(i -> stamp(i) + "," + value(i) + "," + value(i + 3) + "\r\n"))
                .as("a preamble with other line ends is the logger's own")
                .isEmpty();
    }

    @Test
    void a_logger_that_never_writes_zeros_at_the_end_is_no_spreadsheet() {
        assertThat(signs(i -> stamp(i) + "," + Math.round((20 + i * 0.37) * 100) / 100.0 + ",1\n"))
                .isEmpty();
    }

    @Test
    void line_ends_that_change_are_seen() {
        assertThat(signs(i -> stamp(i) + "," + value(i) + (i < 120 ? "\r\n" : "\n")))
                .singleElement()
                .asString()
                .contains("line ends change in row 123");
    }

    @Test
    void time_stamps_that_change_their_form_are_seen() {
        assertThat(signs(i -> (i < 100 ? stamp(i) : "02.03.2026 10:" + i % 60) + "," + value(i) + "\n"))
                .singleElement()
                .asString()
                .contains("form of the time stamps changes in row 103");
    }

    @Test
    void fractions_that_come_and_go_are_no_change_of_form() {
        assertThat(signs(i -> stamp(i) + (i % 2 == 0 ? "" : ".500") + "," + value(i) + "\n"))
                .isEmpty();
    }

    @Test
    void zeros_lost_in_a_part_are_seen() {
        assertThat(signs(i -> stamp(i) + "," + (i < 100 ? value(i) : value(i).replaceAll("0+$", "")) + "\n"))
                .singleElement()
                .asString()
                .contains("kept in one part of column 2");
    }

    @Test
    void quotation_marks_that_come_and_go_are_seen() {
        assertThat(signs(i -> stamp(i) + "," + (i < 100 ? value(i) : '"' + value(i) + '"') + "\n"))
                .singleElement()
                .asString()
                .contains("quotation marks come and go in column 2");
    }

    @Test
    void wide_characters_are_left_to_the_reader() {
        assertThat(EditedOutside.signs("a,b\n1,2\n".getBytes(StandardCharsets.UTF_16LE)))
                .isEmpty();
    }
}
