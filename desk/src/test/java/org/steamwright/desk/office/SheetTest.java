package org.steamwright.desk.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.desk.office.Sheet.Cell;

/** Tables of pages that are read. */
class SheetTest {

    @Test
    void a_column_in_which_no_row_says_anything_is_left_out_with_its_heading() {
        Sheet.Table table = new Sheet.Table(
                "what is due",
                List.of("What", "Forecast", "Day"),
                List.of(
                        List.of(Cell.of("Service"), Cell.of("–"), Cell.day("–")),
                        List.of(Cell.of("Validation"), Cell.of(""), Cell.day("12 Dec 2026"))));
        assertThat(table.heads()).containsExactly("What", "Day");
        assertThat(table.rows()).extracting(List::size).containsOnly(2);
        assertThat(table.rows().get(1).get(1).text().text()).isEqualTo("12 Dec 2026");
        assertThat(table.rows().get(1).get(1).style()).isEqualTo("day");
        assertThat(table.rows().get(0).get(1).style())
                .as("a row that says nothing in a column which stays")
                .isEqualTo("day none");
    }

    @Test
    void three_columns_are_stacked_on_a_telephone_only_where_a_cell_is_long() {
        List<String> heads = List.of("Run", "Cycle", "Verdict");
        assertThat(new Sheet.Table("", heads, List.of(cells("1", "134 wrapped", "pass"))).isWide())
                .isFalse();
        assertThat(new Sheet.Table(
                                "",
                                heads,
                                List.of(cells("1", "134", "A sentence that takes more than forty signs at once")))
                        .isWide())
                .isTrue();
        assertThat(new Sheet.Table("", List.of("A", "B", "C", "D"), List.of(cells("1", "2", "3", "4"))).isWide())
                .isTrue();
    }

    private static List<Cell> cells(String... texts) {
        return List.of(texts).stream().map(Cell::of).toList();
    }
}
