package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.desk.path.DraftPages.address;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.records.Author;

/** Names by which facts call one another, and what was typed in the reader's own words. */
class NamesAndWordsTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");

    @TempDir
    Path folder;

    private static Draft begun(OpenDesk desk) throws Exception {
        return new Drafts(desk.records())
                .open(
                        KIM,
                        "R-2026-0070",
                        Map.of(
                                "zone",
                                "Australia/Adelaide",
                                "criteria-set",
                                "eu-en13060",
                                "sterilizers",
                                List.of(Map.of(
                                        "key", "A",
                                        "serial", "EX-3003",
                                        "cycles",
                                                List.of(
                                                        Map.of(
                                                                "name", "134 wrapped",
                                                                "type", "B",
                                                                "sterilizing-temperature", "134 °C"),
                                                        Map.of(
                                                                "name", "121 wrapped",
                                                                "type", "B",
                                                                "sterilizing-temperature", "121 °C")))),
                                "runs",
                                List.of(
                                        Map.of("kind", "empty-chamber", "sterilizer", "A", "cycle", "134 wrapped"),
                                        Map.of("kind", "reference-load", "sterilizer", "A", "cycle", "121 wrapped"))));
    }

    private static String save(OpenDesk desk, Draft draft, Stage stage, String path, String value) throws Exception {
        return DraftPages.save(desk, draft, DraftPages.field(stage, path, value, text(draft, path)))
                .body();
    }

    private static String text(Draft draft, String path) {
        return draft.now().text(FactPath.parse(path));
    }

    @Test
    void a_plate_of_another_steriliser_says_stop_in_the_very_answer_that_saves_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            assertThat(save(desk, draft, Stage.IDENTITY, "sterilizers/1/name-plate/serial", "EX-3004"))
                    .containsPattern("-words\" hx-swap-oob=\"true\"")
                    .contains("Stop: the name plate says EX-3004, the visit is for EX-3003");
            assertThat(save(desk, draft, Stage.IDENTITY, "sterilizers/1/serial", "EX-3004"))
                    .as("also when the visit is corrected")
                    .contains("The name plate says EX-3004, as the visit does");
        }
    }

    @Test
    void what_calls_a_cycle_by_its_name_follows_when_it_is_renamed_and_goes_back_with_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            draft.change()
                    .add(
                            FactPath.parse("job-sheet/penetration"),
                            Map.of("sterilizer", "A", "cycle", "134 wrapped", "kind", "hollow"))
                    .set(FactPath.parse("job-sheet/scope/cycles"), Optional.of(List.of("134 wrapped")))
                    .note("cycle-length/A/134 wrapped", "45 min")
                    .keep(KIM, "");
            save(desk, draft, Stage.IDENTITY, "sterilizers/1/cycles/1/name", "134 universal");
            assertThat(text(draft, "runs/1/cycle")).isEqualTo("134 universal");
            assertThat(text(draft, "runs/2/cycle")).isEqualTo("121 wrapped");
            assertThat(text(draft, "job-sheet/penetration/1/cycle")).isEqualTo("134 universal");
            assertThat(text(draft, "job-sheet/scope/cycles/1")).isEqualTo("134 universal");
            assertThat(draft.now().note("cycle-length/A/134 universal")).isEqualTo("45 min");
            desk.post(address(draft, "undo"), Map.of("stage", "identity"));
            assertThat(text(draft, "runs/1/cycle")).isEqualTo("134 wrapped");
            assertThat(text(draft, "sterilizers/1/cycles/1/name")).isEqualTo("134 wrapped");
        }
    }

    @Test
    void a_letter_in_use_and_the_kind_of_a_run_stay() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            assertThat(save(desk, draft, Stage.IDENTITY, "sterilizers/1/key", "B"))
                    .contains("The letter A is in use in this visit");
            assertThat(text(draft, "sterilizers/1/key")).isEqualTo("A");
            assertThat(save(desk, draft, Stage.RUNS, "runs/1/kind", "")).contains("A run is of one kind");
            assertThat(text(draft, "runs/1/kind")).isEqualTo("empty-chamber");
            draft.change()
                    .add(FactPath.parse("sterilizers"), Map.of("key", "B"))
                    .keep(KIM, "");
            save(desk, draft, Stage.IDENTITY, "sterilizers/2/key", "C");
            assertThat(text(draft, "sterilizers/2/key")).as("nothing names it").isEqualTo("C");
        }
    }

    @Test
    void absolute_is_typed_and_read_in_the_readers_language_and_kept_as_the_file_has_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            String depth = "sterilizers/1/cycles/1/pulse-depth";
            desk.post("/language", Map.of("language", "de", "from", "/today"));
            for (String typed : List.of("19,5 kPa absolut", "19,5 kPa (abs.)", "19,5 kPa absoluter")) {
                save(desk, draft, Stage.IDENTITY, depth, "");
                assertThat(save(desk, draft, Stage.IDENTITY, depth, typed)).contains("value=\"19,5 kPa absolut\"");
                assertThat(text(draft, depth)).isEqualTo("19.5 kPa absolute");
            }
            desk.post("/language", Map.of("language", "fr", "from", "/today"));
            assertThat(save(desk, draft, Stage.IDENTITY, depth, "18 kPa absolue"))
                    .contains("value=\"18 kPa absolue\"");
            assertThat(text(draft, depth)).isEqualTo("18 kPa absolute");
            assertThat(save(desk, draft, Stage.IDENTITY, depth, "18 kPa relative"))
                    .as("a depth from the air of the day is none")
                    .contains("aria-invalid=\"true\"");
        }
    }

    @Test
    void a_moment_is_typed_as_the_language_writes_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            draft.change()
                    .add(FactPath.parse("runs/2/indicators"), Map.of("id", "BI-1", "result", "no-growth"))
                    .keep(KIM, "");
            String read = "runs/2/indicators/1/read-on";
            desk.post("/language", Map.of("language", "de", "from", "/today"));
            for (String typed : List.of("4.8.2026 16:30", "4. August 2026, 16:30 Uhr", "04.08.2026 um 16.30")) {
                save(desk, draft, Stage.INDICATORS, read, "");
                save(desk, draft, Stage.INDICATORS, read, typed);
                assertThat(text(draft, read)).as(typed).isEqualTo("2026-08-04 16:30");
            }
            save(desk, draft, Stage.INDICATORS, read, "5. August 2026");
            assertThat(text(draft, read)).as("a day without its time").isEqualTo("2026-08-05");
            assertThat(save(desk, draft, Stage.INDICATORS, read, "bald")).contains("aria-invalid=\"true\"");
            assertThat(text(draft, read)).as("what is no moment is not kept").isEqualTo("2026-08-05");
        }
    }

    @Test
    void what_was_saved_last_is_named_as_the_fields_are() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            desk.post("/language", Map.of("language", "de", "from", "/today"));
            save(desk, draft, Stage.RUNS, "runs/1/machine-cycle", "17");
            HttpResponse<String> page = desk.get(address(draft, "runs"));
            assertThat(page.body())
                    .contains("Lauf 1, Zyklusnummer am Sterilisator")
                    .doesNotContain("machine cycle");
        }
    }

    @Test
    void a_cycle_is_left_out_of_what_was_asked_for_and_asked_for_again() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            FactPath asked = FactPath.parse("job-sheet/scope/cycles");
            assertThat(desk.get(address(draft, "close")).body()).contains("Leave cycle ‘121 wrapped’ out");
            desk.post(address(draft, "scope"), Map.of("cycle", "121 wrapped", "stage", "close"));
            assertThat(draft.now().find(asked)).contains(List.of("134 wrapped"));
            assertThat(desk.get(address(draft, "close")).body())
                    .contains("Left out: cycle ‘121 wrapped’.")
                    .contains("Asked for: cycle ‘134 wrapped’.")
                    .as("something is always asked for")
                    .doesNotContain("Leave cycle ‘134 wrapped’ out");
            assertThat(desk.post(address(draft, "scope"), Map.of("cycle", "134 wrapped", "stage", "close"))
                            .statusCode())
                    .isEqualTo(409);
            desk.post(address(draft, "scope"), Map.of("cycle", "121 wrapped", "asked", "yes", "stage", "close"));
            assertThat(draft.now().find(asked)).as("all again").isEmpty();
        }
    }

    @Test
    void several_indicators_are_read_at_once_each_with_its_own_result() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            FactPath list = FactPath.parse("runs/2/indicators");
            draft.change()
                    .add(list, Map.of("id", "BI-1", "lot", "L1", "control", "no", "result", "awaited"))
                    .add(list, Map.of("id", "BI-2", "lot", "L1", "control", "no", "result", "awaited"))
                    .add(list, Map.of("id", "BI-3", "lot", "L1", "control", "yes", "result", "awaited"))
                    .keep(KIM, "");
            assertThat(desk.get(address(draft, "indicators")).body())
                    .contains("Several read at once")
                    .contains("Run 2: unexposed control BI-3, lot L1");
            String sent = "stage=indicators&of=runs/2/indicators/1&was=awaited&result=no-growth"
                    + "&of=runs/2/indicators/2&was=awaited&result=awaited"
                    + "&of=runs/2/indicators/3&was=awaited&result=growth&by=Lee+Sample&on=";
            assertThat(readings(desk, draft, sent).body())
                    .contains("Say when they were read and by whom.")
                    .containsPattern("value=\"no-growth\" selected");
            assertThat(readings(desk, draft, sent + "soon").body()).contains("“soon” is no");
            assertThat(text(draft, "runs/2/indicators/1/result")).isEqualTo("awaited");
            assertThat(readings(desk, draft, sent + "2026-08-06+16:30").statusCode())
                    .isEqualTo(303);
            assertThat(text(draft, "runs/2/indicators/1/result")).isEqualTo("no-growth");
            assertThat(text(draft, "runs/2/indicators/3/result")).isEqualTo("growth");
            assertThat(text(draft, "runs/2/indicators/3/read-on")).isEqualTo("2026-08-06 16:30");
            assertThat(text(draft, "runs/2/indicators/3/read-by")).isEqualTo("Lee Sample");
            assertThat(text(draft, "runs/2/indicators/2/result")).isEqualTo("awaited");
            assertThat(text(draft, "runs/2/indicators/2/read-on"))
                    .as("not read yet")
                    .isEmpty();
            assertThat(desk.get(address(draft, "indicators")).body()).doesNotContain("Several read at once");
        }
    }

    private static HttpResponse<String> readings(OpenDesk desk, Draft draft, String sent) throws Exception {
        return desk.send(HttpRequest.newBuilder(desk.address(address(draft, "readings")))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(sent + "&token=" + desk.token())));
    }

    @Test
    void what_was_saved_last_is_named_without_a_gap() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            desk.post(
                    address(draft, "entries"),
                    Map.of("stage", "load", "list", "runs/2/weighings", "with.item", "pack 1", "with.kind", "solid"));
            assertThat(text(draft, "runs/2/weighings/1/item")).isEqualTo("pack 1");
            assertThat(desk.get(address(draft, "load")).body()).doesNotContain("{0}");
            save(desk, draft, Stage.LOAD, "runs/2/after-run/packs", "dry");
            assertThat(desk.get(address(draft, "load")).body())
                    .contains("when the load is taken out")
                    .doesNotContain("{0}");
        }
    }

    @Test
    void a_visit_without_instruments_leads_to_where_they_are_entered() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            assertThat(desk.get(address(draft, "instruments")).body())
                    .contains("None is in this visit, and neither the register nor an earlier visit")
                    .contains("href=\"/register/new/instruments?back=" + address(draft, "instruments") + "\"");
            draft.add(
                    FactPath.parse("instruments"),
                    Map.of("id", "TL-01", "measures", "temperature", "description", "invented"),
                    KIM,
                    "");
            assertThat(desk.get(address(draft, "instruments")).body())
                    .as("a further one is entered from here too")
                    .doesNotContain("None is in this visit")
                    .contains("/register/new/instruments?back=");
        }
    }

    @Test
    void levels_of_trays_and_how_the_load_came_out_are_kept_with_the_run() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            assertThat(save(desk, draft, Stage.LOAD, "runs/2/load/on-levels", "1; 15"))
                    .contains("aria-invalid=\"true\"");
            save(desk, draft, Stage.LOAD, "runs/2/load/on-levels", "1, 3");
            save(desk, draft, Stage.LOAD, "runs/2/after-run/packs", "wet");
            assertThat(text(draft, "runs/2/load/on-levels")).isEqualTo("1, 3");
            assertThat(text(draft, "runs/2/after-run/packs")).isEqualTo("wet");
            assertThat(desk.get(address(draft, "load")).body()).contains("Wet packs fail the run");
        }
    }
}
