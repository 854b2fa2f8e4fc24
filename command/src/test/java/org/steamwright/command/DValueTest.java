package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DValueTest {

    @TempDir
    Path folder;

    Session session;

    @BeforeEach
    void begin() {
        session = new Session(folder);
    }

    /** The row that docs/explanation/indicators.md works through by hand. */
    @Test
    void a_row_of_groups_answers_by_every_method_that_fits() throws Exception {
        Session.Said answer = session.run(
                "dvalue",
                "--population",
                "1e6",
                "--exposure",
                "10 min=9/20",
                "--exposure",
                "8 min=0/20",
                "--exposure",
                "9 min=3/20",
                "--exposure",
                "11 min=16/20",
                "--exposure",
                "12 min=19/20",
                "--exposure",
                "780 s=20/20");
        assertThat(answer.status()).isEqualTo(ExitStatus.PASS);
        assertThat(answer.out())
                .contains("Spearman and Kärber, limited   D = 1.624 min, 95 % from 1.569 to 1.679 min")
                .contains("Stumbo, Murphy and Cochran")
                .contains("Maximum likelihood");
    }

    @Test
    void counts_that_fall_by_a_decade_in_two_minutes_have_a_d_value_of_two_and_a_tail_is_called_one() throws Exception {
        Session.Said straight = session.run(
                "dvalue",
                "--survivors",
                "0 min=1e6",
                "--survivors",
                "2 min=1.02e5",
                "--survivors",
                "4 min=1e4",
                "--survivors",
                "6 min=9.9e2");
        assertThat(straight.out()).contains("D = 1.996 min").contains("straight");
        Session.Said tail = session.run(
                "dvalue",
                "--survivors",
                "0 min=1e6",
                "--survivors",
                "2 min=1e4",
                "--survivors",
                "4 min=8e2",
                "--survivors",
                "6 min=3e2",
                "--survivors",
                "8 min=2.4e2",
                "--survivors",
                "10 min=2.3e2");
        assertThat(tail.out()).contains("tail");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--exposure|8 min=3/20|--population is missing",
                "--exposure|8=3/20|8=3/20",
                "--exposure|8 min=21/20|give no D-value",
                "--survivors|8 min=none|none",
                "--population|many|either --exposure or --survivors",
            })
    void bad_input_says_what_and_how_to_mend_it(String option, String value, String message) throws Exception {
        Session.Said answer = session.run("dvalue", option, value);
        assertThat(answer.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(answer.err()).contains(message);
    }
}
