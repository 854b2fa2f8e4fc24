package org.steamwright.intake.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.intake.spreadsheet.NumberFormats.Format;
import org.steamwright.intake.spreadsheet.NumberFormats.Kind;

class NumberFormatsTest {

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "General|NUMBER|",
                "0.00|NUMBER|",
                "#,##0.0;[Red]-#,##0.0|NUMBER|",
                "0.00E+00|NUMBER|",
                "0%|NUMBER|",
                "0.0\" °C\"|NUMBER|°C",
                "0.0\\ \\°\\C|NUMBER|°C",
                "0.00\" kPa abs\"|NUMBER|kPa abs",
                "0\" pieces\"|NUMBER|",
                "\"day \"0|NUMBER|",
                "yyyy-mm-dd|DATE|",
                "d-mmm-yy|DATE|",
                "mmmm|DATE|",
                "[$-409]d/m/yyyy|DATE|",
                "hh:mm:ss|TIME|",
                "mm:ss.0|TIME|",
                "[h]:mm:ss|TIME|",
                "[mm]:ss|TIME|",
                "[ss]|TIME|",
                "h:mm AM/PM|TIME|",
                "yyyy-mm-dd hh:mm:ss.000|DATE_AND_TIME|",
                "dd/mm/yyyy\\ hh:mm|DATE_AND_TIME|",
                "[Red]0.0|NUMBER|",
                "@|TEXT|",
                "\"s\"0|NUMBER|",
                "[h|TIME|",
                "\"open|NUMBER|"
            })
    void a_code_says_what_a_number_is(String code, Kind kind, String unit) {
        Format format = NumberFormats.ofCode(code);
        assertThat(format.kind()).isEqualTo(kind);
        assertThat(format.unit()).isEqualTo(unit == null ? "" : unit);
    }
}
