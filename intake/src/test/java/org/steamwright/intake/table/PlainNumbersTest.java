package org.steamwright.intake.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.intake.DecimalMark;

/** The numbers that a line gives on the way, against {@link Double#parseDouble}. */
class PlainNumbersTest {

    private static final int NUMBERS = 2_000_000;

    @Test
    void every_number_is_bit_for_bit_the_one_of_the_platform() {
        Random random = new Random(20261125);
        NumberText number = new NumberText();
        Row row = new Row();
        int onTheWay = 0;
        for (int i = 0; i < NUMBERS; i++) {
            String text = decimal(random);
            char[] line = (text + ",x").toCharArray();
            row.takeLine(line, 0, line.length, ',', '.', true, 1);
            onTheWay += row.isNumber(0) ? 1 : 0;
            assertThat(number.read(row, 0, DecimalMark.POINT, false) && number.end == text.length())
                    .as(text)
                    .isTrue();
            if (Double.doubleToRawLongBits(number.value) != Double.doubleToRawLongBits(Double.parseDouble(text))) {
                assertThat(number.value).as(text).isEqualTo(Double.parseDouble(text));
            }
        }
        assertThat(onTheWay).as("numbers that were read on the way").isBetween(NUMBERS / 2, NUMBERS - NUMBERS / 10);
    }

    /** Up to 20 digits with the mark anywhere, so that some are too long to be read on the way; some have an exponent. */
    private static String decimal(Random random) {
        StringBuilder text = new StringBuilder(random.nextInt(4) == 0 ? "-" : "");
        int digits = 1 + random.nextInt(20);
        int mark = random.nextInt(digits + 3);
        for (int i = 0; i < digits; i++) {
            if (i == mark) {
                text.append('.');
            }
            text.append((char) ('0' + random.nextInt(10)));
        }
        if (random.nextInt(16) == 0) {
            text.append('e').append(random.nextInt(60) - 30);
        }
        return text.toString();
    }

    @ParameterizedTest(name = "{0} is {1} cells: {2}")
    @CsvSource(
            delimiter = '!',
            value = {
                "12.5,-3,.5! 3! 3! plain numbers",
                "12,5! 2! 2! the delimiter is never a decimal mark",
                "-,.,-.! 3! 0! marks alone are no numbers",
                "1234567890123456,1! 2! 1! more digits than are exact",
                "12.5.6,1-2,12:30! 3! 0! something else behind the number",
                "12 ,1! 2! 1! a blank is taken off by the cell",
            })
    void tells_which_cells_are_plain_numbers(String line, int cells, int numbers, String why) {
        Row row = new Row();
        char[] text = line.toCharArray();
        assertThat(row.takeLine(text, 0, text.length, ',', line.equals("12,5") ? ',' : '.', true, 1))
                .as(why)
                .isEqualTo(text.length);
        int found = 0;
        for (int c = 0; c < row.size(); c++) {
            found += row.isNumber(c) ? 1 : 0;
        }
        assertThat(row.size()).as(why).isEqualTo(cells);
        assertThat(found).as(why).isEqualTo(numbers);
    }
}
