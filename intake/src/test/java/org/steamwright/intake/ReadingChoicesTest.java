package org.steamwright.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.PressureUnit;

class ReadingChoicesTest {

    static ReadingChoices.Builder builder() {
        return ReadingChoices.inZone(ZoneId.of("UTC"));
    }

    @Test
    void takes_answers_as_people_type_them() {
        ReadingChoices choices = builder()
                .answer("delimiter", "tab")
                .answer("decimal-mark", "comma")
                .answer("charset", "utf-8")
                .answer("date-order", "mdy")
                .answer("time-unit", "min")
                .answer("start", "2026-03-02T09:00:00Z")
                .answer("unit: Chamber ", "psig")
                .answer("reference:P", "absolute")
                .answer("unit:Battery", "skip")
                .build();
        assertThat(choices.delimiter()).contains('\t');
        assertThat(choices.decimalMark()).contains(DecimalMark.COMMA);
        assertThat(choices.charset()).contains(StandardCharsets.UTF_8);
        assertThat(choices.dateOrder()).contains(DateOrder.MONTH_DAY_YEAR);
        assertThat(choices.timeUnit()).contains(ElapsedUnit.MINUTE);
        assertThat(choices.start()).contains(Instant.parse("2026-03-02T09:00:00Z"));
        assertThat(choices.units()).hasEntrySatisfying("chamber", unit -> {
            assertThat(unit.isSameUnitAs(MeasuringUnit.of(PressureUnit.PSI))).isTrue();
            assertThat(unit.reference()).contains(PressureReference.GAUGE);
        });
        assertThat(choices.references()).containsEntry("p", PressureReference.ABSOLUTE);
        assertThat(choices.skipped()).containsExactly("battery");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "delimiter    | two     | delimiter: found \"two\", expected comma, semicolon, tab, pipe or a single"
                        + " character",
                "decimal-mark | dot     | decimal-mark: found \"dot\", expected point or comma",
                "charset      | utf-99  | charset: found \"utf-99\", expected the name of an encoding such as UTF-8 or"
                        + " windows-1252",
                "date-order   | YDM     | date-order: found \"YDM\", expected DMY, MDY or YMD",
                "time-unit    | weeks   | time-unit: found \"weeks\", expected one of s, min, h, ms, unix-s, unix-ms",
                "start        | 9 am    | start: found \"9 am\", expected a moment such as 2026-03-02T09:00:00Z",
                "unit:T1      | °Re     | unit:T1: found \"°Re\", expected a unit such as °C, °F, K, kPa, bar, mbar,"
                        + " psi, mmHg, inHg (pressures with abs or gauge), or skip",
                "reference:P  | vacuum  | reference:P: found \"vacuum\", expected absolute or gauge",
                "colour:P     | red     | \"colour:\" is no reading choice; for a column there are unit: and"
                        + " reference:",
                "colour       | red     | \"colour\" is no reading choice; there are delimiter, decimal-mark, charset,"
                        + " date-order, time-unit, start, sheet, from, to, clock, profile, unit:COLUMN and reference:COLUMN",
            })
    void says_what_an_answer_should_look_like(String key, String value, String message) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> builder().answer(key, value))
                .withMessage(message);
    }
}
