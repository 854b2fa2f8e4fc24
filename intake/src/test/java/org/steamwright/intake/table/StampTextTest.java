package org.steamwright.intake.table;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class StampTextTest {

    @ParameterizedTest(name = "{0}: {4}")
    @CsvSource(
            delimiter = '|',
            value = {
                "2026-03-02T09:01:02           | 2026-3-2  | 32462          | -     | ISO",
                "2026-03-02 09:01:02.250       | 2026-3-2  | 32462.25       | -     | fraction",
                "2026-03-02T09:01:02,5Z        | 2026-3-2  | 32462.5        | 0     | comma and Z",
                "2026-03-02T09:01:02+05:45     | 2026-3-2  | 32462          | 20700 | an offset with quarters",
                "2026-03-02T09:01:02-0330      | 2026-3-2  | 32462          | -12600| west, without colon",
                "2026-03-02 09:01:02 UTC       | 2026-3-2  | 32462          | 0     | the letters UTC",
                "2026-03-02 09:01:02 GMT+1     | -         | -              | -     | one digit of offset is none",
                "2026-03-02 09:01              | 2026-3-2  | 32460          | -     | no seconds",
                "2026/3/2 9:01:02              | 2026-3-2  | 32462          | -     | slashes and single digits",
                "2.3.2026 09:01:02             | 2-3-2026  | 32462          | -     | dots",
                "2-Mar-2026 9:01:02 PM         | 2-3-2026  | 75662          | -     | month by name, PM",
                "Mar 2, 2026 12:01:02 AM       | 3-2-2026  | 62             | -     | month first, midnight",
                "2 March 2026, 12:01:02 p.m.   | 2-3-2026  | 43262          | -     | month in full, noon",
                "09:01:02 2/3/2026             | 2-3-2026  | 32462          | -     | time first",
                "02/03/26                      | 2-3-26    | 0              | -     | date alone",
                "09:01:02                      | -         | 32462          | -     | time alone",
                "27:01:02                      | -         | 97262          | -     | elapsed over a day",
                "09:01:02:250                  | -         | 32462.25       | -     | milliseconds behind a colon",
            })
    void takes_a_stamp_apart(String cell, String date, String seconds, String offset, String why) {
        StampText stamp = new StampText();
        boolean isRead = stamp.read(cell.toCharArray(), 0, cell.length());
        assertThat(isRead).as(why).isEqualTo(!seconds.equals("-"));
        if (!isRead) {
            return;
        }
        assertThat(stamp.hasDate ? stamp.first + "-" + stamp.second + "-" + stamp.third : "-")
                .as(why)
                .isEqualTo(date);
        assertThat(stamp.nanos / 1e9).as(why).isEqualTo(Double.parseDouble(seconds));
        assertThat(stamp.offsetSeconds == StampText.NO_OFFSET ? "-" : String.valueOf(stamp.offsetSeconds))
                .as(why)
                .isEqualTo(offset);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "2026-03-02T24:00:00",
                "2026-03-02T09:60:00",
                "2026-03-02T09:00:60",
                "2026-03-02T09:00:0",
                "2026-03-02T09:00:00x",
                "2026-03-02T09:00:00.",
                "13:00:00 PM",
                "121.1",
                "12.5.",
                "9:1:2",
                "1.2.3.4",
                "Run 1",
                "2026-03",
                "25 Smarch 2026",
                ":::",
                "-09:01:02"
            })
    void does_not_take_other_things_for_a_stamp(String cell) {
        assertThat(new StampText().read(cell.toCharArray(), 0, cell.length())).isFalse();
    }
}
