package org.steamwright.intake.table;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.intake.DecimalMark;

class NumberTextTest {

    @ParameterizedTest(name = "{0} with {1} is {2}: {4}")
    @CsvSource(
            delimiter = ';',
            value = {
                "121.1;       POINT; 121.1;     1;  plain",
                "-0.5;        POINT; -0.5;      1;  negative",
                "+121;        POINT; 121;       0;  a plus sign",
                "\u2212" + "5,25; COMMA; -5.25; 2;  the minus sign of typesetters",
                ".5;          POINT; 0.5;       1;  nothing before the mark",
                "121.;        POINT; 121;       0;  nothing behind the mark",
                "1,013.25;    POINT; 1013.25;   2;  both marks prove the grouping",
                "1.013,25;    COMMA; 1013.25;   2;  the other way round",
                "1,013,250;   POINT; 1013250;   0;  two groups prove it as well",
                "1'013.25;    POINT; 1013.25;   2;  apostrophes",
                "101 325;     POINT; 101325;    0;  a blank",
                "1.5E+02;     POINT; 150;       -1; exponent",
                "1e-3;        POINT; 0.001;     3;  small exponent",
                "0.1234567890123456789; POINT; 0.12345678901234568; 19; more digits than a double has",
                "123456789012345678901; POINT; 123456789012345680000; 0; longer than a long",
            })
    void reads(String cell, DecimalMark mark, double value, int decimals, String why) {
        NumberText number = new NumberText();
        assertThat(number.read(cell.toCharArray(), 0, cell.length(), mark, false))
                .as(why)
                .isTrue();
        assertThat(number.end).as(why).isEqualTo(cell.length());
        assertThat(number.value).as(why).isEqualTo(value);
        assertThat(number.decimals).as(why).isEqualTo(decimals);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-", "+", ".", "x1", "NaN", "e5", "--1"})
    void does_not_read(String cell) {
        assertThat(new NumberText().read(cell.toCharArray(), 0, cell.length(), DecimalMark.POINT, false))
                .isFalse();
    }

    @ParameterizedTest
    @ValueSource(strings = {"1,013", "12,5", "1,01,325", "1.5.2", "12:5", "121.1x"})
    void leaves_something_over_or_refuses_what_is_not_one_number(String cell) {
        NumberText number = new NumberText();
        boolean isRead = number.read(cell.toCharArray(), 0, cell.length(), DecimalMark.POINT, false);
        assertThat(isRead && number.end == cell.length()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"1013.25, true, 1013.25", "'1,013', true, 1013", "'1,013', false, NaN"})
    void takes_a_lone_group_only_where_the_file_proves_grouping(String cell, boolean isProven, double value) {
        NumberText number = new NumberText();
        boolean isRead = number.read(cell.toCharArray(), 0, cell.length(), DecimalMark.POINT, isProven);
        assertThat(isRead ? number.value : Double.NaN).isEqualTo(Double.valueOf(value));
    }
}
