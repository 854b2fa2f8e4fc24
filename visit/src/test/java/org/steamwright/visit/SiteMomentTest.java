package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SiteMomentTest {

    private static SiteMoment at(String text) {
        return SiteMoment.find(text).orElseThrow();
    }

    @ParameterizedTest(name = "{0} before {1}: {2}")
    @CsvSource({
        "2026-03-03,       2026-03-04,       true,  a day before",
        "2026-03-04,       2026-03-03,       false, a day after",
        "2026-03-04 12:00, 2026-03-04 16:00, true,  four hours before",
        "2026-03-04 16:00, 2026-03-04 16:00, false, the end itself is good",
        "2026-03-04 16:01, 2026-03-04 16:00, false, a minute after",
        "2026-03-04,       2026-03-04 16:00, false, the same day without a time: nobody can tell",
        "2026-03-04 08:00, 2026-03-04,       false, the same day, the end without a time",
        "2026-03-03 23:59, 2026-03-04,       true,  the day before the day of the end",
    })
    void is_before_only_where_it_is_sure(String one, String other, boolean isBefore, String why) {
        assertThat(at(one).isBefore(at(other))).as(why).isEqualTo(isBefore);
    }

    @ParameterizedTest
    @CsvSource({"2026-02-30", "2026-03-04 25:00", "4.3.2026", "2026-03-04 16:05:10", "''", "2026-03-04T16:05Z"})
    void takes_no_other_writing(String text) {
        assertThat(SiteMoment.find(text)).isEmpty();
    }

    @Test
    void is_written_and_said() {
        assertThat(at("2026-03-04T16:05").text()).isEqualTo("2026-03-04 16:05");
        assertThat(at("2026-03-04T16:05").words()).isEqualTo("4 March 2026, 16:05");
        assertThat(at("2026-03-04").words()).isEqualTo("4 March 2026");
    }
}
