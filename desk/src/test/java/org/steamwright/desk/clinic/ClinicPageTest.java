package org.steamwright.desk.clinic;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.records.Kind;

class ClinicPageTest {

    private static final String LOAD =
            "/load?serial=EX-1001&cycle=134+wrapped&name-1=cassette&count-1=1&family-1=solid&packaging-1=pouch";

    @TempDir
    private Path folder;

    private static String clinic(OpenDesk desk) {
        return "/clinic/" + desk.records().subjects(Kind.CLINIC, 1).get(0).id();
    }

    @Test
    void says_what_may_be_run_what_to_test_and_what_to_do_when_a_cycle_fails() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String page = desk.get(clinic(desk)).body();
            assertThat(page)
                    .contains("Steriliser EX-1001")
                    .contains("Steriliser EX-2002")
                    .contains("No signed visit is in force for this steriliser")
                    .contains("each day of use")
                    .contains("as the maker's instructions say")
                    .contains("the clinic decides")
                    .contains("No report is signed yet.");
            assertThat(page.substring(page.indexOf("<main"), page.indexOf("</main>")))
                    .as("the clinic changes nothing")
                    .doesNotContain("method=\"post\"");
        }
    }

    @Test
    void a_load_is_not_covered_as_long_as_nothing_is_signed_and_says_why() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            assertThat(desk.get(clinic(desk) + LOAD).body())
                    .contains("No: not covered by what was tested.")
                    .contains("No visit to steriliser EX-1001 in this record is signed and in force.");
            assertThat(desk.get(clinic(desk) + "/load?serial=EX-1001").statusCode())
                    .isEqualTo(422);
            assertThat(desk.get(clinic(desk) + "/load").statusCode()).isEqualTo(200);
            assertThat(desk.get(clinic(desk) + LOAD + "&counter=x&count-2=-3&count-3=99999999999")
                            .statusCode())
                    .isEqualTo(200);
        }
    }

    @Test
    void there_is_no_report_that_nobody_signed() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String visit = desk.records().subjects(Kind.VISIT, 1).get(0).id().toString();
            assertThat(desk.get(clinic(desk) + "/reports/" + visit).statusCode())
                    .isEqualTo(404);
            assertThat(desk.get(clinic(desk) + "/reports/nothing").statusCode()).isEqualTo(404);
            assertThat(desk.get("/clinic/nothing").statusCode()).isEqualTo(404);
        }
    }
}
