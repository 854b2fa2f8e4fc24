package org.steamwright.desk.clinic;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;

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
            assertThat(desk.get(clinic(desk) + LOAD + "&count-2=&name-2=").statusCode())
                    .as("an empty row is no row")
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

    @Test
    void a_row_that_cannot_be_read_is_refused_by_its_number_and_never_left_out() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Map<String, String> wrong = Map.of(
                    "&name-2=gown&count-2=two", "Item 2: ‘two’ is no number of items",
                    "&name-3=gown", "Item 3: how many there are, is missing",
                    "&count-4=2", "Item 4: what it is, is missing",
                    "&name-2=gown&count-2=-3", "Item 2: ‘-3’ is no number of items",
                    "&name-2=gown&count-2=99999", "Item 2: ‘99999’ is no number of items",
                    "&counter=12a", "The cycle number ‘12a’ is no whole number",
                    "&mass=heavy", "The mass ‘heavy’ is no figure in kilograms");
            for (Map.Entry<String, String> one : wrong.entrySet()) {
                HttpResponse<String> answer = desk.get(clinic(desk) + LOAD + one.getKey());
                assertThat(answer.statusCode()).as(one.getKey()).isEqualTo(422);
                assertThat(answer.body()).contains(one.getValue()).doesNotContain("<h2>Answer</h2>");
            }
        }
    }

    @Test
    void there_are_as_many_rows_as_are_wanted_and_a_decimal_comma_is_read() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String more = desk.get(clinic(desk) + LOAD + "&rows=6&more=yes").body();
            assertThat(more)
                    .contains("id=\"name-12\"")
                    .contains("value=\"cassette\"")
                    .doesNotContain("<h2>Answer</h2>");
            HttpResponse<String> answer = desk.get(
                    clinic(desk) + LOAD + "&name-12=probe&count-12=3&family-12=solid&packaging-12=pouch&mass=1,5");
            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.body()).contains("<h2>Answer</h2>").contains("value=\"probe\"");
        }
    }

    @Test
    void a_machine_that_was_sold_on_is_the_other_clinics() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String first = clinic(desk);
            Subject machine =
                    new RegisterFiling(desk.records()).machine("EX-2002").orElseThrow();
            assertThat(desk.get(first).body()).contains("Steriliser " + machine.text("serial"));
            Author office = new Author("Kim Sample (invented)", "technician");
            desk.records()
                    .append(office, List.of(Change.set(Kind.STERILIZER, machine.id(), "stated/room", JsonText.NULL)));
            new Drafts(desk.records())
                    .open(
                            office,
                            "DEMO-2026-003",
                            Map.of(
                                    "date", "2026-04-02",
                                    "clinic", Map.of("name", "Next Street Clinic (invented)"),
                                    "sterilizers", List.of(Map.of("key", "B", "serial", machine.text("serial")))));
            Subject next = desk.records().subjects(Kind.CLINIC, 10).stream()
                    .filter(one -> one.text("name").startsWith("Next Street"))
                    .findFirst()
                    .orElseThrow();
            assertThat(desk.get(first).body())
                    .as("the clinic that sold it")
                    .doesNotContain("Steriliser " + machine.text("serial"));
            assertThat(desk.get("/clinic/" + next.id()).body())
                    .as("the clinic that has it now, with nothing of the other's")
                    .contains("Steriliser " + machine.text("serial"))
                    .contains("The register does not know this steriliser")
                    .contains("DEMO-2026-003")
                    .doesNotContain("DEMO-2026-001");
        }
    }
}
