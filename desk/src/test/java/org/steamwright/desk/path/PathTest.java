package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.desk.path.DraftPages.address;
import static org.steamwright.desk.path.DraftPages.field;
import static org.steamwright.desk.path.DraftPages.save;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;
import org.steamwright.records.JournalEntry;
import org.steamwright.simulator.DemoVisit;

/** The visit as one path, through the server; all people, clinics and machines are invented. */
class PathTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final Map<String, String> NEW = Map.of(
            "number", "R-2026-0050",
            "purpose", "yearly requalification",
            "date", "2026-08-03",
            "criteria-set", "eu-en13060",
            "clinic", "Harbour <b>Street</b> Dental (invented)",
            "serial", "EX-3003",
            "zone", "Australia/Adelaide",
            "technician", "Kim Sample (invented)");

    @TempDir
    private Path folder;

    private static Draft draft(OpenDesk desk, String number) {
        return new Drafts(desk.records()).find(number).orElseThrow();
    }

    private static Draft begun(OpenDesk desk) throws Exception {
        HttpResponse<String> answer = desk.post("/visits", NEW);
        assertThat(answer.statusCode()).isEqualTo(303);
        assertThat(answer.headers().firstValue("Location").orElse("")).endsWith("/identity");
        return draft(desk, "R-2026-0050");
    }

    // ---- beginning

    @Test
    void an_empty_record_shows_how_to_begin_and_a_free_number() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get("/visits").body())
                    .contains("No visit is in the record yet")
                    .contains("value=\"R-2026-0001\"");
            begun(desk);
            assertThat(desk.get("/visits").body())
                    .contains("R-2026-0050")
                    .contains("value=\"R-2026-0051\"")
                    .contains("Harbour &lt;b&gt;Street&lt;/b&gt; Dental");
        }
    }

    @Test
    void a_number_that_is_taken_is_refused_and_what_was_typed_stays() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            begun(desk);
            HttpResponse<String> again = desk.post("/visits", NEW);
            assertThat(again.statusCode()).isEqualTo(422);
            assertThat(again.body())
                    .contains("the report number R-2026-0050 belongs to another visit")
                    .contains("value=\"EX-3003\"");
        }
    }

    @Test
    void the_next_visit_of_a_machine_whose_plate_nobody_read_whole_states_no_empty_maker() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            begun(desk);
            Map<String, String> next = new HashMap<>(NEW);
            next.put("number", "R-2027-0001");
            assertThat(desk.post("/visits", next).statusCode()).isEqualTo(303);
            Draft second = draft(desk, "R-2027-0001");
            assertThat(second.find(FactPath.of("sterilizers", 1, "maker"))).isEmpty();
            assertThat(second.glance())
                    .noneMatch(problem -> problem.path()
                            .filter(path -> path.toString().endsWith("/maker"))
                            .isPresent());
        }
    }

    @Test
    void a_visit_is_found_by_its_number_too_and_an_unknown_one_is_said() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            begun(desk);
            assertThat(desk.get("/visits/R-2026-0050").body()).contains("Visit R-2026-0050");
            assertThat(desk.get("/visits/R-0").statusCode()).isEqualTo(404);
        }
    }

    @Test
    void the_name_plate_is_the_first_thing_and_another_one_says_stop() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            assertThat(desk.get(address(draft, "identity")).body()).contains("The visit is for the steriliser EX-3003");
            save(desk, draft, field(Stage.IDENTITY, "sterilizers/1/name-plate/serial", "EX-3004", ""));
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("Stop: the name plate says EX-3004, the visit is for EX-3003");
            save(desk, draft, field(Stage.IDENTITY, "sterilizers/1/name-plate/serial", "ex-3003", "EX-3004"));
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("The name plate says EX-3003, as the visit does");
        }
    }

    @Test
    void what_was_read_off_a_plate_before_it_was_a_fact_is_proposed() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            draft.change().note("plate-serial/A", "EX-3003").keep(KIM, "");
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("The visit is for the steriliser EX-3003")
                    .contains("name=\"take\" value=\"EX-3003\"");
        }
    }

    @Test
    void a_photo_of_the_plate_is_a_fact_of_the_visit_and_goes_with_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            FactPath photos = FactPath.parse("sterilizers/1/name-plate/photos");
            assertThat(photo(desk, draft, png(40, 30), Map.of("of", "plate", "which", "A", "stage", "identity"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(draft.now().find(photos)).contains(List.of("photos/plate-A-1.jpg"));
            desk.post(address(draft, "photo-removals"), Map.of("file", "photos/plate-A-1.jpg", "stage", "identity"));
            assertThat(draft.now().find(photos)).isEmpty();
        }
    }

    // ---- saving

    @Test
    void a_field_is_saved_at_once_and_says_so() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            HttpResponse<String> answer =
                    save(desk, draft, field(Stage.AS_FOUND, "conditions/barometer", "1004 hPa", ""));
            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.body())
                    .contains("Saved 07:30")
                    .contains("value=\"1004 hPa\"")
                    .contains("hx-swap-oob=\"true\"")
                    .contains("Last saved 07:30: Surroundings, Barometer")
                    .doesNotContain("<html");
            assertThat(draft.now().text(FactPath.parse("conditions/barometer"))).isEqualTo("1004 hPa");
        }
    }

    @Test
    void a_value_that_cannot_be_read_is_not_saved_and_stays_in_its_field_with_the_remedy() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            Map<String, String> typed = field(Stage.AS_FOUND, "conditions/barometer", "1004", "");
            String part = save(desk, draft, typed).body();
            String id = Field.id("conditions/barometer");
            assertThat(part)
                    .contains("value=\"1004\"")
                    .contains("aria-invalid=\"true\"")
                    .contains("Not usable: “1004” has no unit.")
                    .contains("Write for example: 1004 kPa")
                    .contains("id=\"" + id + "-problem\"")
                    .containsPattern("aria-describedby=\"[^\"]*" + id + "-problem");
            assertThat(draft.now().text(FactPath.parse("conditions/barometer"))).isEmpty();
            HttpResponse<String> page = desk.post(address(draft, "facts"), typed);
            assertThat(page.statusCode()).as("the same without a script").isEqualTo(422);
            assertThat(page.body()).contains("<html").contains("value=\"1004\"").contains("Not usable:");
        }
    }

    @Test
    void without_a_script_the_page_comes_back_at_the_field() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            HttpResponse<String> answer =
                    desk.post(address(draft, "facts"), field(Stage.IDENTITY, "clinic/room", "steri room", ""));
            assertThat(answer.statusCode()).isEqualTo(303);
            assertThat(answer.headers().firstValue("Location").orElse(""))
                    .isEqualTo(address(draft, "identity") + "#" + Field.id("clinic/room"));
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("value=\"steri room\"")
                    .contains("Last saved 07:30: The clinic, Room, by Alex Sample (invented).");
        }
    }

    @Test
    void a_second_window_sees_both_values_before_it_overwrites() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            save(desk, draft, field(Stage.IDENTITY, "clinic/room", "first floor", ""));
            String other = save(desk, draft, field(Stage.IDENTITY, "clinic/room", "basement", ""))
                    .body();
            assertThat(other)
                    .contains("was empty and is 'first floor'")
                    .contains("value=\"basement\"")
                    .contains("name=\"seen\" value=\"first floor\"");
            assertThat(draft.now().text(FactPath.parse("clinic/room"))).isEqualTo("first floor");
            save(desk, draft, field(Stage.IDENTITY, "clinic/room", "basement", "first floor"));
            assertThat(draft.now().text(FactPath.parse("clinic/room"))).isEqualTo("basement");
        }
    }

    @Test
    void the_last_change_is_taken_back_by_a_button_until_another_one_came() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            save(desk, draft, field(Stage.IDENTITY, "clinic/room", "basement", ""));
            String change = draft.now().lastChange().orElseThrow().id().toString();
            save(desk, draft, field(Stage.IDENTITY, "clinic/contact", "Lee Sample (invented)", ""));
            HttpResponse<String> late =
                    desk.post(address(draft, "undo"), Map.of("change", change, "stage", "identity"));
            assertThat(late.statusCode()).isEqualTo(409);
            String newest = draft.now().lastChange().orElseThrow().id().toString();
            assertThat(desk.post(address(draft, "undo"), Map.of("change", newest, "stage", "identity"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(draft.now().text(FactPath.parse("clinic/contact"))).isEmpty();
            assertThat(draft.now().text(FactPath.parse("clinic/room"))).isEqualTo("basement");
        }
    }

    // ---- entries that are named by their keys

    @Test
    void an_answer_makes_its_entry_and_the_last_one_taken_away_ends_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            String entry = "job-sheet/changes/" + KeyedPath.entry("sterilizer", "A");
            save(desk, draft, field(Stage.INSTALLATION, entry + "/moved", "no", ""));
            save(desk, draft, field(Stage.INSTALLATION, entry + "/added", "no", ""));
            assertThat(draft.now().find(FactPath.parse("job-sheet/changes")))
                    .contains(List.of(Map.of("sterilizer", "A", "moved", "no", "added", "no")));
            save(desk, draft, field(Stage.INSTALLATION, entry + "/moved", "", "no"));
            save(desk, draft, field(Stage.INSTALLATION, entry + "/added", "", "no"));
            assertThat(draft.now().find(FactPath.of("job-sheet"))).isEmpty();
        }
    }

    @Test
    void a_task_is_answered_within_its_list_in_one_word() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            String page = desk.get(address(draft, "safety")).body();
            Matcher task = Pattern.compile("name=\"path\" value=\"([^\"]+task=earth)/answer\"")
                    .matcher(page.replace("&amp;", "&"));
            assertThat(task.find()).isTrue();
            assertThat(page).as("the usual answer takes one touch").contains("name=\"take\" value=\"good\">Good<");
            String answer = task.group(1) + "/answer";
            String saved =
                    save(desk, draft, field(Stage.SAFETY, answer, "good", "")).body();
            assertThat(saved).contains("Saved 07:30").doesNotContain("name=\"take\"");
            String reading = task.group(1) + "/reading";
            String refused =
                    save(desk, draft, field(Stage.SAFETY, reading, "0.12", "")).body();
            assertThat(refused).as("a reading without its unit").contains("Not usable:");
            save(desk, draft, field(Stage.SAFETY, reading, "0.12 Ω", ""));
            assertThat(draft.now().find(FactPath.parse("job-sheet/tasks/1")))
                    .as("found good, so it was done")
                    .contains(Map.of(
                            "list", "bench-safety",
                            "sterilizer", "A",
                            "entries",
                                    List.of(Map.of(
                                            "task",
                                            "earth",
                                            "outcome",
                                            "done",
                                            "condition",
                                            "good",
                                            "reading",
                                            "0.12 Ω"))));
            assertThat(save(desk, draft, field(Stage.SAFETY, answer, "worn", "failed"))
                            .body())
                    .as("somebody else answered meanwhile")
                    .contains("Not usable:");
            save(desk, draft, field(Stage.SAFETY, answer, "not-due", "good"));
            assertThat(draft.now().find(FactPath.parse("job-sheet/tasks/1/entries/1")))
                    .as("what is not due was not found")
                    .contains(Map.of("task", "earth", "outcome", "not-due", "reading", "0.12 Ω"));
            assertThat(desk.get(address(draft, "safety")).body()).contains("<option value=\"not-due\" selected>");
            save(desk, draft, field(Stage.SAFETY, reading, "", "0.12 Ω"));
            save(desk, draft, field(Stage.SAFETY, answer, "", "not-due"));
            assertThat(draft.now().find(FactPath.of("job-sheet")))
                    .as("gone with its last fact")
                    .isEmpty();
            assertThat(save(desk, draft, field(Stage.SAFETY, answer, "splendid", ""))
                            .body())
                    .as("no word of the list")
                    .contains("Not usable:");
        }
    }

    @Test
    void a_figure_without_a_unit_is_offered_with_the_usual_one_at_one_touch() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            draft.add(FactPath.of("sterilizers", 1, "cycles"), Map.of("name", "134 wrapped"), KIM, "");
            String path = "sterilizers/1/cycles/1/sterilizing-temperature";
            assertThat(save(desk, draft, field(Stage.IDENTITY, path, "134", "")).body())
                    .contains("Not usable:")
                    .contains("name=\"take\" value=\"134 °C\">134 °C<");
            assertThat(draft.now().text(FactPath.parse(path)))
                    .as("nothing is guessed")
                    .isEmpty();
            assertThat(save(desk, draft, field(Stage.IDENTITY, path, "hot", "")).body())
                    .contains("Not usable:")
                    .doesNotContain("name=\"take\"");
            assertThat(save(desk, draft, field(Stage.IDENTITY, "sterilizers/1/cycles/1/holding-time", "3", ""))
                            .body())
                    .as("an example of two units offers none")
                    .contains("Not usable:")
                    .doesNotContain("name=\"take\"");
        }
    }

    // ---- runs

    private static Map<String, String> entry(String stage, String list, String... keysAndValues) {
        Map<String, String> values = new HashMap<>(Map.of("stage", stage, "list", list));
        for (int i = 0; i < keysAndValues.length; i += 2) {
            values.put("with." + keysAndValues[i], keysAndValues[i + 1]);
        }
        return values;
    }

    @Test
    void runs_are_numbered_without_holes_and_what_names_a_run_follows() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            for (String kind : List.of("air-leakage", "empty-chamber", "reference-load")) {
                desk.post(address(draft, "entries"), entry("runs", "runs", "kind", kind, "sterilizer", "A"));
            }
            desk.post(address(draft, "entries"), entry("indication", "job-sheet/indications", "run", "3"));
            desk.post(address(draft, "running"), Map.of("run", "3", "stage", "runs"));
            save(desk, draft, field(Stage.INDICATORS, "way/read-at/3", "2026-08-10", ""));
            String page = desk.get(address(draft, "runs")).body();
            assertThat(page).contains("Run 3: reference load").contains("Run 3 is under way.");
            HttpResponse<String> stale =
                    desk.post(address(draft, "removals"), Map.of("path", "runs/2", "seen", "0", "stage", "runs"));
            assertThat(stale.statusCode()).isEqualTo(409);
            desk.post(
                    address(draft, "removals"),
                    Map.of("path", "runs/2", "seen", Saving.mark(draft.now(), "runs/2"), "stage", "runs"));
            Draft now = draft.now();
            assertThat(now.count(FactPath.of("runs"))).isEqualTo(2);
            assertThat(now.text(FactPath.parse("job-sheet/indications/1/run"))).isEqualTo("2");
            assertThat(Running.all(now)).extracting(Running::run).containsExactly(2);
            assertThat(now.note("read-at/2")).isEqualTo("2026-08-10");
            assertThat(now.note("read-at/3")).isEmpty();
            assertThat(desk.get(address(draft, "runs")).body())
                    .contains("Run 2: reference load")
                    .contains("Meanwhile, without the chamber: ");
        }
    }

    // ---- when something failed

    @Test
    void the_stage_for_failures_is_in_the_path_once_something_failed_or_somebody_opens_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            String way = address(draft, "failures") + "\"";
            assertThat(desk.get("/visits/" + draft.id()).body()).doesNotContain(way);
            assertThat(desk.get(address(draft, "safety")).body())
                    .contains("Go on to: Close")
                    .doesNotContain(way);
            assertThat(desk.get(address(draft, "failures")).body())
                    .contains(way)
                    .contains("Go on to: Close")
                    .contains("The visit can't be assessed yet");
            draft.add(
                    FactPath.parse("job-sheet/penetration"),
                    Map.of(
                            "sterilizer",
                            "A",
                            "cycle",
                            "134 wrapped",
                            "kind",
                            "hollow",
                            "device",
                            "x",
                            "result",
                            "fail"),
                    KIM,
                    "");
            assertThat(desk.get("/visits/" + draft.id()).body()).contains(way);
            assertThat(desk.get(address(draft, "safety")).body()).contains("Go on to: When something failed");
        }
    }

    @Test
    void what_failed_is_told_with_what_follows_and_what_was_done_changes_the_tests() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            takeAsReal(desk, folder.resolve("demo"));
            Draft draft = draft(desk, "DEMO-2026-001");
            draft.add(
                    FactPath.parse("job-sheet/penetration"),
                    Map.of(
                            "sterilizer",
                            "A",
                            "cycle",
                            "134 wrapped",
                            "kind",
                            "hollow",
                            "device",
                            "long lumen",
                            "result",
                            "fail"),
                    KIM,
                    "");
            String page = desk.get(address(draft, "failures")).body();
            assertThat(page)
                    .contains("Steam did not reach into the hollow device")
                    .contains("Must not be used now:</b> the whole steriliser")
                    .contains("nobody can say where it begins")
                    .contains("nobody stated what was changed")
                    .contains("Out of service: steriliser EX-1001")
                    .contains("Please do not")
                    .contains("nothing is written down yet")
                    .containsPattern("/nonconformities\\?visit=DEMO-2026-001&amp;sterilizer=EX-1001&amp;what=Steam");
            desk.post(
                    address(draft, "entries"),
                    entry("failures", "job-sheet/failures", "sterilizer", "A", "kind", "steam-penetration"));
            int place = draft.now().count(FactPath.parse("job-sheet/failures"));
            String failure = "job-sheet/failures/" + place;
            desk.post(
                    address(draft, "lines"),
                    Map.of("list", failure + "/changes", "text", "seal-filter-hose", "stage", "failures"));
            desk.post(
                    address(draft, "entries"),
                    entry("failures", "job-sheet/evidence", "sterilizer", "A", "kind", "steam-penetration"));
            String evidence = "job-sheet/evidence/" + draft.now().count(FactPath.parse("job-sheet/evidence"));
            save(desk, draft, field(Stage.FAILURES, evidence + "/on", "2026-02-20", ""));
            save(desk, draft, field(Stage.FAILURES, evidence + "/cycle", "4600", ""));
            save(desk, draft, field(Stage.FAILURES, evidence + "/reference", "log book, page 12", ""));
            save(desk, draft, field(Stage.FAILURES, failure + "/cause", "valve stuck", ""));
            page = desk.get(address(draft, "failures")).body();
            assertThat(page)
                    .contains("after-change matrix: ")
                    .contains("one run of the cycle that is hardest to do right")
                    .contains("log book, page 12")
                    .contains("How it stands:</b> open")
                    .contains("valve stuck");
            assertThat(save(desk, draft, field(Stage.FAILURES, failure + "/closed-on", "2026-03-02", ""))
                            .body())
                    .as("what is closed says how it was shown")
                    .contains("Not usable:");
        }
    }

    // ---- the criteria set of the office

    private static Map<String, String> newAt(String number, String machine, String set) {
        Map<String, String> form = new HashMap<>(NEW);
        form.putAll(Map.of("number", number, "machine", machine, "criteria-set", set, "clinic", "", "serial", ""));
        return form;
    }

    @Test
    void a_visit_begins_with_the_criteria_set_of_its_site_unless_one_is_chosen() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            FactPath set = FactPath.of("criteria-set");
            draft(desk, "DEMO-2026-001").set(set, Optional.of("uk-htm"), KIM, "");
            desk.post("/visits", newAt("R-2026-0077", "EX-1001", ""));
            assertThat(draft(desk, "R-2026-0077").text(set))
                    .as("the site says au, whatever the visit before was judged by")
                    .isEqualTo("au-as5369");
            desk.post("/visits", newAt("R-2026-0078", "EX-1001", "us-cdc"));
            assertThat(draft(desk, "R-2026-0078").text(set)).isEqualTo("us-cdc");
        }
    }

    @Test
    void without_rules_of_a_site_it_is_the_set_of_the_visit_before() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            takeAsReal(desk, folder.resolve("demo"));
            FactPath set = FactPath.of("criteria-set");
            draft(desk, "DEMO-2026-001").set(set, Optional.of("uk-htm"), KIM, "");
            desk.post("/visits", newAt("R-2026-0077", "EX-1001", ""));
            assertThat(draft(desk, "R-2026-0077").text(set)).isEqualTo("uk-htm");
        }
    }

    // ---- lists that fit

    @Test
    void no_maintenance_list_is_offered_while_nobody_typed_a_cycle() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            assertThat(desk.get(address(draft, "maintenance")).body())
                    .contains("none is typed yet")
                    .contains("bench-vacuum-yearly")
                    .doesNotContain("Door seal");
            draft.add(FactPath.parse("sterilizers/1/cycles"), Map.of("name", "134 wrapped", "type", "B"), KIM, "");
            assertThat(desk.get(address(draft, "maintenance")).body())
                    .doesNotContain("none is typed yet")
                    .contains("oor seal");
        }
    }

    @Test
    void a_check_shows_whether_it_is_good_without_a_fold() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            String page = desk.get(address(draft, "safety")).body();
            int fold = page.indexOf("<details", page.indexOf("job-sheet/tasks"));
            assertThat(page.substring(page.indexOf("job-sheet/tasks"), fold)).contains("good, with advice", "not good");
        }
    }

    // ---- what was recorded stays

    private static Draft recorded(OpenDesk desk) throws Exception {
        Draft draft = begun(desk);
        for (String kind : List.of("empty-chamber", "empty-chamber")) {
            desk.post(address(draft, "entries"), entry("runs", "runs", "kind", kind, "sterilizer", "A"));
        }
        return draft.now()
                .change()
                .putFile("run-1.csv", new ByteArrayInputStream("time,T1\n".getBytes(StandardCharsets.UTF_8)))
                .set(FactPath.parse("runs/1/recording"), "run-1.csv")
                .keep(KIM, "");
    }

    @Test
    void a_recorded_run_is_set_aside_with_a_reason_and_never_taken_away() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = recorded(desk);
            String page = desk.get(address(draft, "runs")).body();
            assertThat(page).contains("Set this run aside").contains("name=\"path\" value=\"runs/2\"");
            assertThat(Pattern.compile("removals\">[^§]{0,200}value=\"runs/1\"")
                            .matcher(page)
                            .find())
                    .as("only the run without a recording can be taken away")
                    .isFalse();
            Map<String, String> removal =
                    Map.of("path", "runs/1", "seen", Saving.mark(draft, "runs/1"), "stage", "runs");
            HttpResponse<String> refused = desk.post(address(draft, "removals"), removal);
            assertThat(refused.statusCode()).isEqualTo(409);
            assertThat(refused.body()).contains("it is not taken away or overwritten");
            for (String path : List.of("runs/1", "runs/1/recording", "runs/1/set-aside", "runs")) {
                assertThat(save(desk, draft, field(Stage.RUNS, path, "", "")).statusCode())
                        .as(path)
                        .isEqualTo(409);
            }
            assertThat(desk.post(address(draft, "undo"), Map.of("stage", "runs"))
                            .statusCode())
                    .as("nor by a step back")
                    .isEqualTo(409);
            Map<String, String> silent = Map.of("run", "1", "stage", "runs", "text", " ");
            assertThat(desk.post(address(draft, "set-asides"), silent).statusCode())
                    .isEqualTo(422);
            desk.post(
                    address(draft, "set-asides"),
                    Map.of("run", "1", "stage", "runs", "text", "the sensor fell out of the pack"));
            assertThat(draft.now().text(FactPath.parse("runs/1/set-aside/because")))
                    .isEqualTo("the sensor fell out of the pack");
            assertThat(draft.now().text(FactPath.parse("runs/1/set-aside/by"))).isEqualTo("Alex Sample (invented)");
            assertThat(draft.now().count(FactPath.of("runs"))).isEqualTo(2);
            assertThat(desk.get(address(draft, "runs")).body())
                    .contains("Set aside: the sensor fell out of the pack (Alex Sample (invented))");
            desk.post(
                    address(draft, "set-asides"),
                    Map.of("run", "1", "stage", "runs", "again", "yes", "text", "it was another run"));
            assertThat(draft.now().find(FactPath.parse("runs/1/set-aside"))).isEmpty();
            assertThat(desk.records().history(draft.id()))
                    .extracting(JournalEntry::why)
                    .contains("the sensor fell out of the pack", "it was another run");
        }
    }

    @Test
    void the_criteria_set_is_chosen_freely_until_something_was_recorded_and_with_a_reason_then() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            FactPath set = FactPath.of("criteria-set");
            save(desk, draft, field(Stage.IDENTITY, "criteria-set", "au-as5369", "eu-en13060"));
            assertThat(draft.now().text(set)).isEqualTo("au-as5369");
            desk.post(address(draft, "entries"), entry("runs", "runs", "kind", "empty-chamber", "sterilizer", "A"));
            draft.now()
                    .change()
                    .putFile("run-1.csv", new ByteArrayInputStream("time,T1\n".getBytes(StandardCharsets.UTF_8)))
                    .set(FactPath.parse("runs/1/recording"), "run-1.csv")
                    .keep(KIM, "");
            assertThat(save(desk, draft, field(Stage.IDENTITY, "criteria-set", "us-cdc", "au-as5369"))
                            .statusCode())
                    .isEqualTo(409);
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("Judged by au-as5369. Recordings are there")
                    .contains("Judge by another criteria set");
            assertThat(desk.post(address(draft, "criteria-sets"), Map.of("to", "us-cdc", "text", ""))
                            .statusCode())
                    .isEqualTo(422);
            assertThat(draft.now().text(set)).isEqualTo("au-as5369");
            desk.post(
                    address(draft, "criteria-sets"),
                    Map.of("to", "us-cdc", "text", "the clinic works by other rules", "stage", "identity"));
            assertThat(draft.now().text(set)).isEqualTo("us-cdc");
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("Changed from au-as5369 to us-cdc: the clinic works by other rules");
            assertThat(draft.now().text(FactPath.parse("criteria-set-changes/1/from")))
                    .isEqualTo("au-as5369");
        }
    }

    // ---- photos and signatures

    private static byte[] png(int width, int height) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        javax.imageio.ImageIO.write(
                new java.awt.image.BufferedImage(width, height, java.awt.image.BufferedImage.TYPE_INT_RGB), "png", out);
        return out.toByteArray();
    }

    private static HttpResponse<String> photo(OpenDesk desk, Draft draft, byte[] photo) throws Exception {
        return photo(desk, draft, photo, Map.of("run", "1", "stage", "load"));
    }

    private static HttpResponse<String> photo(OpenDesk desk, Draft draft, byte[] photo, Map<String, String> values)
            throws Exception {
        String border = "border0123456789";
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        for (Map.Entry<String, String> value : values.entrySet()) {
            body.write(("--" + border + "\r\nContent-Disposition: form-data; name=\"" + value.getKey() + "\"\r\n\r\n"
                            + value.getValue() + "\r\n")
                    .getBytes(StandardCharsets.UTF_8));
        }
        body.write(("--" + border + "\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"IMG 1.png\"\r\n"
                        + "Content-Type: image/png\r\n\r\n")
                .getBytes(StandardCharsets.UTF_8));
        body.write(photo);
        body.write(("\r\n--" + border + "--\r\n").getBytes(StandardCharsets.UTF_8));
        return desk.send(HttpRequest.newBuilder(desk.address(address(draft, "photos")))
                .header("Content-Type", "multipart/form-data; boundary=" + border)
                .header("X-Token", desk.token())
                .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
    }

    @Test
    void photos_are_scaled_hashed_and_named_in_the_load_and_nothing_else_is_taken_for_one() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            desk.post(address(draft, "entries"), entry("runs", "runs", "kind", "reference-load"));
            assertThat(photo(desk, draft, png(3200, 1200)).statusCode()).isEqualTo(303);
            assertThat(photo(desk, draft, png(40, 30)).statusCode()).isEqualTo(303);
            Draft now = draft.now();
            assertThat(now.find(FactPath.parse("runs/1/load/photos")))
                    .contains(List.of("photos/run-1-1.jpg", "photos/run-1-2.jpg"));
            var kept = javax.imageio.ImageIO.read(
                    new ByteArrayInputStream(now.bytes("photos/run-1-1.jpg").orElseThrow()));
            assertThat(List.of(kept.getWidth(), kept.getHeight())).isEqualTo(List.of(1600, 600));
            assertThat(desk.get(address(draft, "files?name=photos/run-1-1.jpg"))
                            .headers()
                            .firstValue("Content-Type"))
                    .contains("image/jpeg");
            assertThat(desk.get(address(draft, "load")).body())
                    .contains("alt=\"Photo: photos/run-1-1.jpg\"")
                    .contains("No patient data in pictures or words");
            HttpResponse<String> none = photo(desk, draft, "<svg onload='x'>".getBytes(StandardCharsets.UTF_8));
            assertThat(none.statusCode()).isEqualTo(422);
            assertThat(none.body()).contains("IMG 1.png is no photo");
        }
    }

    @Test
    void a_signature_is_kept_as_numbers_and_nothing_else() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            desk.post(address(draft, "entries"), entry("runs", "runs", "kind", "reference-load"));
            String strokes = "10,10 20,30 30,10 40,40;50,50 60,60 70,50 80,90";
            desk.post(address(draft, "ink"), Map.of("run", "1", "stage", "load", "strokes", strokes));
            assertThat(new String(draft.now().bytes("signatures/load-run-1.svg").orElseThrow(), StandardCharsets.UTF_8))
                    .startsWith("<svg")
                    .contains("points=\"10,10 20,30 30,10 40,40\"");
            for (String bad : List.of("", "1,1 2,2", "1,1 2,2\"/><script> 3,3 4,4 5,5 6,6 7,7 8,8", "900,1 1,1 2,2")) {
                assertThat(desk.post(address(draft, "ink"), Map.of("run", "1", "stage", "load", "strokes", bad))
                                .statusCode())
                        .as(bad)
                        .isEqualTo(422);
            }
        }
    }

    // ---- pages

    @Test
    void every_stage_of_a_whole_visit_shows_with_each_label_bound_and_no_identity_twice() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Draft draft = draft(desk, "DEMO-2026-001");
            int labels = 0;
            for (Stage stage : Stage.values()) {
                HttpResponse<String> answer = desk.get(address(draft, stage.word()));
                assertThat(answer.statusCode()).as(stage.word()).isEqualTo(200);
                labels += bound(stage, answer.body());
            }
            assertThat(labels).isGreaterThan(300);
            assertThat(desk.get("/visits/" + draft.id()).body()).contains("Entries: ");
        }
    }

    @Test
    void what_is_filled_in_is_one_line_that_opens_and_a_new_entry_is_where_the_page_goes() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Draft draft = draft(desk, "DEMO-2026-001");
            String runs = desk.get(address(draft, "runs")).body();
            assertThat(runs).contains("<details class=\"fold\">", "Change");
            HttpResponse<String> added = desk.post(
                    address(draft, "entries"),
                    Map.of("stage", "runs", "list", "job-sheet/other-cycles", "with.kind", "warm-up"));
            String anchor = added.headers().firstValue("location").orElseThrow().replaceFirst(".*#", "");
            assertThat(desk.get(address(draft, "runs")).body()).contains("id=\"" + anchor + "\"");
        }
    }

    @Test
    void a_refusal_leads_back_to_the_page_of_its_form_and_to_no_other_desk() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            String page = desk.address(address(draft, "close")).toString();
            Map<String, String> gone = Map.of("stage", "close", "path", "people/7", "seen", "nothing");
            assertThat(refused(desk, draft, gone, page)).contains("href=\"" + address(draft, "close") + "\"");
            assertThat(refused(desk, draft, gone, "http://elsewhere.example/close"))
                    .doesNotContain("elsewhere");
            assertThat(refused(
                            desk,
                            draft,
                            gone,
                            desk.address("//elsewhere.example").toString()))
                    .doesNotContain("elsewhere");
        }
    }

    private static String refused(OpenDesk desk, Draft draft, Map<String, String> form, String referrer)
            throws Exception {
        HttpResponse<String> answer = desk.send(desk.form(address(draft, "removals"), form)
                .header("X-Token", desk.token())
                .header("Referer", referrer));
        assertThat(answer.statusCode()).isGreaterThanOrEqualTo(400);
        return answer.body();
    }

    @Test
    void every_visit_is_on_some_page_of_the_list_the_newest_first_with_where_it_stands() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Drafts drafts = new Drafts(desk.records());
            for (int i = 1; i <= 61; i++) {
                drafts.open(
                        new Author("Kim Sample (invented)", "technician"),
                        "N-" + i,
                        Map.of("clinic", Map.of("name", "Harbour Street Dental (invented)")));
            }
            String first = desk.get("/visits").body();
            assertThat(first)
                    .contains(">N-61<", ">N-2<", "/visits?from=60", "open")
                    .doesNotContain(">N-1<");
            String second = desk.get("/visits?from=60").body();
            assertThat(second).contains(">N-1<", "/visits?from=0").doesNotContain(">N-2<", "/visits?from=61");
            assertThat(desk.get("/visits?from=-1&q=x").statusCode()).isEqualTo(200);
        }
    }

    private static int bound(Stage stage, String page) {
        Set<String> ids = new HashSet<>();
        Matcher id = Pattern.compile(" id=\"([^\"]+)\"").matcher(page);
        while (id.find()) {
            assertThat(ids.add(id.group(1)))
                    .as(stage + ": " + id.group(1) + " twice")
                    .isTrue();
        }
        Matcher label = Pattern.compile("<label for=\"([^\"]+)\"").matcher(page);
        int labels = 0;
        while (label.find()) {
            assertThat(ids).contains(label.group(1));
            labels++;
        }
        Matcher described = Pattern.compile("aria-describedby=\"([^\"]+)\"").matcher(page);
        while (described.find()) {
            assertThat(ids).contains(described.group(1).split(" "));
        }
        assertThat(page).doesNotContain(" style=").doesNotContain(" onclick").doesNotContain("<script>");
        return labels;
    }

    @Test
    void close_says_the_answer_what_is_missing_and_leads_to_each_place() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Draft draft = draft(desk, "DEMO-2026-001");
            String page = desk.get(address(draft, "close")).body();
            assertThat(page)
                    .contains("These recordings are invented. Nobody signs them.")
                    .contains("class=\"verdict ")
                    .containsPattern("<ol class=\"missing\">\\s*<li><a href=\"/visits/" + draft.id());
            assertThat(desk.get(address(draft, "report.pdf")).body()).startsWith("%PDF");
            assertThat(desk.get(address(draft, "result.json")).body()).contains("DEMO-2026-001");
            String beside = desk.get(address(draft, "context")).body();
            Matcher href = Pattern.compile("href=\"(/visits/[^\"#]+)").matcher(beside);
            Set<String> places = new HashSet<>();
            while (href.find()) {
                places.add(href.group(1));
            }
            assertThat(places).isNotEmpty();
            for (String place : places) {
                // the pages of recordings and curves belong to another room
                if (!place.matches(".*/runs/\\d+.*")) {
                    assertThat(desk.get(place).statusCode()).as(place).isEqualTo(200);
                }
            }
        }
    }

    @Test
    void the_next_run_and_a_fresh_indicator_hide_nothing_of_what_was_recorded_before() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            takeAsReal(desk, folder.resolve("demo"));
            Draft draft = draft(desk, "DEMO-2026-001");
            int before = draft.count(FactPath.of("runs"));
            desk.post(
                    address(draft, "entries"),
                    Map.of(
                            "stage", "runs",
                            "list", "runs",
                            "with.kind", "reference-load",
                            "with.sterilizer", draft.text(FactPath.of("sterilizers", 1, "key"))));
            int fresh = before + 1;
            assertThat(desk.get(address(draft, "runs/1")).statusCode()).isEqualTo(200);
            assertThat(desk.get(address(draft, "report.pdf")).body()).startsWith("%PDF");
            HttpResponse<String> unrecorded = desk.get(address(draft, "runs/" + fresh));
            assertThat(unrecorded.statusCode()).isEqualTo(303);
            assertThat(unrecorded.headers().firstValue("Location").orElse(""))
                    .isEqualTo(address(draft, "runs/" + fresh + "/recordings"));
            String recordings =
                    desk.get(address(draft, "runs/" + fresh + "/recordings")).body();
            assertThat(recordings).doesNotContain("VISIT-008");
            String close = desk.get(address(draft, "close")).body();
            assertThat(close)
                    .doesNotContain("Not assessed: the visit can't be read yet.")
                    .contains("href=\"" + address(draft, "runs/" + fresh + "/recordings") + "\"")
                    .contains("Run " + fresh + ": no recording yet, so nothing of it is assessed.")
                    .contains("name=\"secret\"");
            String indicators = "runs/" + fresh + "/indicators";
            desk.post(
                    address(draft, "entries"), Map.of("stage", "indicators", "list", indicators, "with.control", "no"));
            draft.now()
                    .change()
                    .set(FactPath.parse(indicators + "/1/id"), Optional.empty())
                    .keep(KIM, "");
            assertThat(desk.get(address(draft, "runs/1")).statusCode()).isEqualTo(200);
            assertThat(desk.get("/review/" + draft.id()).statusCode()).isEqualTo(200);
            assertThat(desk.send(HttpRequest.newBuilder(desk.address(address(draft, "context")))
                                    .header("Accept-Language", "de"))
                            .body())
                    .contains("Lauf " + fresh + ", Indikator 1: „Kennzeichen auf dem Indikator“ ist nicht ausgefüllt.")
                    .contains("Lauf " + fresh + ": noch keine Aufzeichnung")
                    .doesNotContain("Add a line like", "visit.yaml", "VISIT-");
            assertThat(desk.get(address(draft, "close")).body())
                    .contains("href=\"" + address(draft, "indicators#"))
                    .contains("Some entries are not finished")
                    .doesNotContain("name=\"secret\"");
        }
    }

    @Test
    void an_unfinished_visit_says_under_close_why_it_is_not_assessed() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            assertThat(desk.get(address(draft, "close")).body())
                    .contains("Not assessed: the visit can't be read yet.")
                    .contains("href=\"" + address(draft, "runs"));
            assertThat(desk.get(address(draft, "report.pdf")).statusCode()).isEqualTo(422);
        }
    }

    @Test
    void last_years_entries_are_proposals_that_are_taken_over_one_by_one() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Map<String, String> again = new HashMap<>(NEW);
            again.put("serial", "EX-1001");
            desk.post("/visits", again);
            Draft draft = draft(desk, "R-2026-0050");
            String page = desk.get(address(draft, "identity")).body();
            assertThat(page).contains("Last time: ").contains("Take over");
            assertThat(draft.text(FactPath.parse("sterilizers/1/year")))
                    .as("nothing by itself")
                    .isEmpty();
            Matcher year = Pattern.compile("Last time: (\\d{4}) ").matcher(page);
            assertThat(year.find()).isTrue();
            Map<String, String> taken = new HashMap<>(field(Stage.IDENTITY, "sterilizers/1/year", "", ""));
            taken.put("take", year.group(1));
            assertThat(save(desk, draft, taken).body()).contains("Saved 07:30");
            assertThat(draft.now().text(FactPath.parse("sterilizers/1/year"))).isEqualTo(year.group(1));
        }
    }

    // ---- as the reader's language writes it

    private static HttpResponse<String> inGerman(OpenDesk desk) throws Exception {
        return desk.post("/language", Map.of("language", "de", "from", "/visits"));
    }

    @Test
    void a_decimal_comma_is_kept_as_a_point_and_shown_as_the_reader_writes_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            inGerman(desk);
            assertThat(save(desk, draft, field(Stage.AS_FOUND, "conditions/barometer", "1004,5 hPa", ""))
                            .body())
                    .contains("value=\"1004,5 hPa\"")
                    .contains("name=\"seen\" value=\"1004.5 hPa\"");
            assertThat(draft.now().text(FactPath.parse("conditions/barometer"))).isEqualTo("1004.5 hPa");
            String guess = save(desk, draft, field(Stage.AS_FOUND, "conditions/barometer", "1.004,5 hPa", "1004.5 hPa"))
                    .body();
            assertThat(guess)
                    .contains("„1.004,5“ lässt sich auf mehr als eine Weise lesen")
                    .doesNotContain("lang=\"en\"")
                    .contains("value=\"1.004,5 hPa\"")
                    .contains("class=\"field refused\"");
            assertThat(save(desk, draft, field(Stage.AS_FOUND, "conditions/altitude", "1.234 m", ""))
                            .body())
                    .as("may be meant for thousands")
                    .contains("„1.234“");
            save(desk, draft, field(Stage.IDENTITY, "sterilizers/1/chamber-size", "250,5 x 450 mm", ""));
            assertThat(draft.now().text(FactPath.parse("sterilizers/1/chamber-size")))
                    .isEqualTo("250.5 x 450 mm");
            save(desk, draft, field(Stage.IDENTITY, "sterilizers/1/firmware", "3,02", ""));
            assertThat(draft.now().text(FactPath.parse("sterilizers/1/firmware")))
                    .as("no figure, so it stays as it was typed")
                    .isEqualTo("3,02");
        }
    }

    @Test
    void a_day_that_cannot_be_understood_begins_no_visit_and_the_usual_forms_are_taken() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Map<String, String> typed = new HashMap<>(NEW);
            for (String bad : List.of("2026-02-30", "3/8/2026", "soon", "")) {
                typed.put("date", bad);
                HttpResponse<String> answer = desk.post("/visits", typed);
                assertThat(answer.statusCode()).as(bad).isEqualTo(422);
                assertThat(answer.body())
                        .contains("is no day that can be understood")
                        .contains("Write it as 2026-08-03");
            }
            assertThat(desk.get("/visits").body()).contains("No visit is in the record yet");
            inGerman(desk);
            typed.put("date", "3.8.2026");
            assertThat(desk.post("/visits", typed).statusCode()).isEqualTo(303);
            assertThat(draft(desk, "R-2026-0050").text(FactPath.of("date"))).isEqualTo("2026-08-03");
            assertThat(desk.get("/visits").body()).contains("3. Aug. 2026").doesNotContain(", 2026-08-03");
        }
    }

    @Test
    void the_page_says_in_the_readers_language_that_something_is_not_saved() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get("/visits").body()).contains("<body data-unsaved=\"Not saved:");
            inGerman(desk);
            assertThat(desk.get("/visits").body()).contains("<body data-unsaved=\"Nicht gespeichert:");
        }
    }

    @Test
    void what_no_page_sends_is_refused_as_such() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            for (Map.Entry<String, Map<String, String>> sent : Map.of(
                            "facts", Map.of("path", "clinic//room", "value", "x"),
                            "entries", Map.of("list", ""),
                            "removals", Map.of("path", "/", "seen", "0"),
                            "undo", Map.of("change", "no-change"),
                            "running", Map.of("run", "one"),
                            "photos", Map.of("run", "1"),
                            "ink", Map.of("run", "7", "strokes", "10,10 20,30 30,10 40,40;50,50 60,60 70,50 80,90"))
                    .entrySet()) {
                assertThat(desk.post(address(draft, sent.getKey()), sent.getValue())
                                .statusCode())
                        .as(sent.getKey())
                        .isEqualTo(400);
            }
        }
    }

    // ---- cycles under way

    @Test
    void every_page_of_the_visit_and_today_say_what_runs_and_when_to_be_there() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            desk.post(address(draft, "entries"), entry("identity", "sterilizers", "key", "B", "serial", "EX-3005"));
            for (String machine : List.of("A", "B", "A")) {
                desk.post(
                        address(draft, "entries"),
                        entry("runs", "runs", "kind", "reference-load", "sterilizer", machine, "cycle", "134 wrapped"));
            }
            assertThat(desk.get(address(draft, "runs")).body()).doesNotContain("class=\"running\"");
            save(desk, draft, field(Stage.RUNS, "way/cycle-length/A/134 wrapped", "1 h 5 min", ""));
            assertThat(draft.now().note("cycle-length/A/134 wrapped")).isEqualTo("65 min");
            assertThat(save(desk, draft, field(Stage.RUNS, "way/cycle-length/B/134 wrapped", "long", ""))
                            .body())
                    .contains("is no length of a cycle");
            desk.post(address(draft, "running"), Map.of("run", "1", "stage", "runs"));
            desk.post(address(draft, "running"), Map.of("run", "2", "stage", "runs"));
            for (String page : List.of(
                    "/visits/" + draft.id(), address(draft, "close"), address(draft, "runs/1/recordings"), "/today")) {
                assertThat(desk.get(page).body())
                        .as(page)
                        .contains("data-now=\"2026-08-03T07:30:00Z\"")
                        .contains("Run 1 is under way.")
                        .contains("of 65 min")
                        .contains("Be there for the end at 18:05.")
                        .contains("data-until=\"2026-08-03T08:35:00Z\"")
                        .contains("Run 2 is under way.")
                        .contains("As found, log book first: 14 open")
                        .contains("Describe the load of run 1");
            }
            desk.post(address(draft, "running"), Map.of("run", "3", "stage", "runs"));
            assertThat(Running.all(draft.now()))
                    .as("one sterilizer holds one cycle")
                    .extracting(Running::run)
                    .containsExactlyInAnyOrder(2, 3);
            desk.post(address(draft, "running"), Map.of("run", "3", "ended", "yes", "stage", "runs"));
            assertThat(Running.all(draft.now())).extracting(Running::run).containsExactly(2);
        }
    }

    @Test
    void a_job_that_is_done_leaves_the_strip() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            desk.post(address(draft, "entries"), entry("runs", "runs", "kind", "reference-load", "sterilizer", "A"));
            desk.post(address(draft, "running"), Map.of("run", "1", "stage", "runs"));
            assertThat(desk.get(address(draft, "runs")).body())
                    .contains("Describe the load of run 1")
                    .contains("Photos of the load of run 1");
            save(desk, draft, field(Stage.LOAD, "runs/1/load/description", "five cassettes", ""));
            photo(desk, draft, png(40, 30));
            assertThat(desk.get(address(draft, "runs")).body())
                    .doesNotContain("Describe the load of run 1")
                    .doesNotContain("Photos of the load of run 1");
        }
    }

    // ---- photos and signatures, their way out

    @Test
    void a_photo_is_taken_away_and_leaves_the_visit_but_not_the_record() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            desk.post(address(draft, "entries"), entry("runs", "runs", "kind", "reference-load"));
            photo(desk, draft, png(40, 30));
            photo(desk, draft, png(50, 30));
            var kept = draft.now().files().get("photos/run-1-1.jpg");
            desk.post(address(draft, "photo-removals"), Map.of("file", "photos/run-1-1.jpg", "stage", "load"));
            assertThat(draft.now().find(FactPath.parse("runs/1/load/photos"))).contains(List.of("photos/run-1-2.jpg"));
            assertThat(draft.now().files()).containsOnlyKeys("photos/run-1-2.jpg");
            assertThat(desk.records().files().get(kept.sha256())).isNotEmpty();
            assertThat(desk.post(
                                    address(draft, "photo-removals"),
                                    Map.of("file", "photos/run-1-1.jpg", "stage", "load"))
                            .statusCode())
                    .isEqualTo(409);
        }
    }

    @Test
    void a_signature_can_be_drawn_anew_follows_its_run_and_goes_when_the_load_changes() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            for (int i = 0; i < 2; i++) {
                desk.post(address(draft, "entries"), entry("runs", "runs", "kind", "reference-load"));
            }
            String strokes = "10,10 20,30 30,10 40,40;50,50 60,60 70,50 80,90";
            desk.post(address(draft, "ink"), Map.of("run", "2", "stage", "load", "strokes", strokes));
            desk.post(
                    address(draft, "ink"),
                    Map.of("run", "2", "stage", "load", "strokes", strokes.replace("10,10", "11,12")));
            String mark = Saving.mark(draft.now(), "runs/1");
            desk.post(address(draft, "removals"), Map.of("path", "runs/1", "seen", mark, "stage", "runs"));
            assertThat(draft.now().files()).containsOnlyKeys("signatures/load-run-1.svg");
            assertThat(new String(draft.now().bytes("signatures/load-run-1.svg").orElseThrow(), StandardCharsets.UTF_8))
                    .contains("11,12");
            assertThat(save(desk, draft, field(Stage.LOAD, "runs/1/load/packaging", "pouches", ""))
                            .body())
                    .contains("The load was changed after it was signed");
            assertThat(draft.now().files()).isEmpty();
            assertThat(desk.get(address(draft, "load")).body()).contains("Let the statement be signed anew.");
        }
    }

    @Test
    void a_load_is_copied_only_as_the_page_showed_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            for (int i = 0; i < 2; i++) {
                desk.post(address(draft, "entries"), entry("runs", "runs", "kind", "reference-load"));
            }
            save(desk, draft, field(Stage.LOAD, "runs/1/load/description", "five cassettes", ""));
            Map<String, String> shown = Map.of(
                    "from", "runs/1/load",
                    "to", "runs/2/load",
                    "seen-from", Saving.mark(draft.now(), "runs/1/load"),
                    "seen-to", "",
                    "stage", "load");
            save(desk, draft, field(Stage.LOAD, "runs/2/load/description", "typed meanwhile", ""));
            assertThat(desk.post(address(draft, "copies"), shown).statusCode()).isEqualTo(409);
            assertThat(draft.now().text(FactPath.parse("runs/2/load/description")))
                    .isEqualTo("typed meanwhile");
        }
    }

    // ---- the visit before

    /** What a page offers to take over, by its words: what the form sends. */
    private static Map<String, Map<String, String>> offers(String page) {
        Map<String, Map<String, String>> offers = new LinkedHashMap<>();
        Matcher form = Pattern.compile("<form [^>]*action=\"[^\"]+/offers\".*?</form>", Pattern.DOTALL)
                .matcher(page);
        while (form.find()) {
            Map<String, String> sent = new HashMap<>();
            Matcher value = Pattern.compile("name=\"(list|mark|stage)\" value=\"([^\"]*)\"")
                    .matcher(form.group());
            while (value.find()) {
                sent.put(value.group(1), value.group(2));
            }
            Matcher words = Pattern.compile("last time: ([^<]+)<").matcher(form.group());
            assertThat(words.find()).isTrue();
            offers.put(words.group(1), sent);
        }
        return offers;
    }

    /** A visit of last year to two sterilizers, and one to the second of them alone half a year later; all invented. */
    private static void lastYear(OpenDesk desk) throws Exception {
        Drafts drafts = new Drafts(desk.records());
        List<Map<String, String>> cycles = List.of(Map.of("name", "134", "type", "B"));
        Map<String, Object> load = Map.of(
                "items",
                List.of(
                        Map.of("name", "hollow item", "count", "1"),
                        Map.of("name", "cassette", "count", "5", "mass", "0.5 kg")),
                "packaging",
                "pouches");
        Map<String, Object> strip =
                Map.of("id", "BI-1", "lot", "L-1", "product", "spore strip", "position", "C", "result", "no-growth");
        Map<String, Object> start = new HashMap<>(Map.of(
                "date", "2025-08-04",
                "zone", "Australia/Adelaide",
                "criteria-set", "eu-en13060",
                "clinic", Map.of("name", "Harbour Dental (invented)"),
                "sterilizers",
                        List.of(
                                Map.of("key", "A", "serial", "EX-3004", "location", "upstairs"),
                                Map.of("key", "B", "serial", "EX-3003", "location", "by the window", "cycles", cycles)),
                "people",
                        List.of(
                                Map.of("name", "Kim Sample (invented)", "role", "technician"),
                                Map.of("name", "Lee Sample (invented)", "role", "manager", "confirms", "the load")),
                "runs",
                        List.of(
                                Map.of("kind", "empty-chamber", "sterilizer", "A"),
                                Map.of(
                                        "kind",
                                        "reference-load",
                                        "sterilizer",
                                        "B",
                                        "cycle",
                                        "134",
                                        "load",
                                        load,
                                        "indicators",
                                        List.of(strip, strip))),
                "checklists",
                        List.of(Map.of(
                                "section",
                                "as-found",
                                "sterilizer",
                                "B",
                                "items",
                                List.of(Map.of(
                                        "title",
                                        "Clock of the steriliser against the reference clock",
                                        "result",
                                        "bad",
                                        "instrument",
                                        "TL-1"))))));
        start.put(
                "instruments",
                List.of(Map.of(
                        "id", "TL-1",
                        "description", "logger",
                        "measures", "temperature",
                        "certificate", Map.of("file", "certificates/TL-1.xml"),
                        "clock", Map.of("event", "air-removal"))));
        drafts.open(KIM, "R-2025-0001", start)
                .change()
                .putFile("certificates/TL-1.xml", new ByteArrayInputStream(new byte[] {'<'}))
                .keep(KIM, "")
                .settle(KIM);
        start.keySet().retainAll(Set.of("zone", "criteria-set", "clinic"));
        start.put("date", "2026-02-02");
        start.put("sterilizers", List.of(Map.of("key", "A", "serial", "EX-3004", "location", "in the cellar")));
        drafts.open(KIM, "R-2026-0001", start).settle(KIM);
    }

    @Test
    void entries_of_the_visit_before_are_offered_all_at_once_and_taken_over_one_by_one() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            lastYear(desk);
            Draft draft = begun(desk);
            Map<String, Map<String, String>> people =
                    offers(desk.get(address(draft, "identity")).body());
            assertThat(people).containsOnlyKeys("Lee Sample (invented), manager", "134, B");
            Map<String, Map<String, String>> instruments =
                    offers(desk.get(address(draft, "instruments")).body());
            assertThat(instruments).containsOnlyKeys("TL-1, logger");
            desk.post(address(draft, "offers"), instruments.get("TL-1, logger"));
            assertThat(draft.now().find(FactPath.parse("instruments/1")))
                    .as("its clock was compared then, not now")
                    .contains(Map.of(
                            "id", "TL-1",
                            "description", "logger",
                            "measures", "temperature",
                            "certificate", Map.of("file", "certificates/TL-1.xml")));
            assertThat(draft.now().bytes("certificates/TL-1.xml")).isPresent();
            desk.post(address(draft, "offers"), people.get("Lee Sample (invented), manager"));
            assertThat(draft.now().find(FactPath.parse("people/2")))
                    .as("what somebody stood for then is not said again for them")
                    .contains(Map.of("name", "Lee Sample (invented)", "role", "manager"));
            assertThat(desk.post(address(draft, "offers"), people.get("Lee Sample (invented), manager"))
                            .statusCode())
                    .as("already there")
                    .isEqualTo(409);

            desk.post(
                    address(draft, "entries"),
                    entry("runs", "runs", "kind", "reference-load", "sterilizer", "A", "cycle", "134"));
            desk.post(address(draft, "entries"), entry("load", "runs/1/load/items", "name", "cassette", "count", "3"));
            Map<String, Map<String, String>> items =
                    offers(desk.get(address(draft, "load")).body());
            assertThat(items).as("known again by what it is").containsOnlyKeys("hollow item, 1");
            assertThat(desk.get(address(draft, "load")).body()).contains("Last time: pouches");

            Map<String, Map<String, String>> strips =
                    offers(desk.get(address(draft, "indicators")).body());
            assertThat(strips).containsOnlyKeys("spore strip, C");
            desk.post(address(draft, "offers"), strips.get("spore strip, C"));
            assertThat(draft.now().find(FactPath.parse("runs/1/indicators/1")))
                    .as("no lot, no result, and a mark of its own")
                    .contains(Map.of("id", "BI-1", "product", "spore strip", "position", "C", "result", "awaited"));
            assertThat(offers(desk.get(address(draft, "indicators")).body()))
                    .as("there were two of them")
                    .containsOnlyKeys("spore strip, C");
        }
    }

    @Test
    void each_sterilizer_has_its_own_visit_before_and_what_was_found_is_only_remembered() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            lastYear(desk);
            Draft draft = begun(desk);
            desk.post(address(draft, "entries"), entry("identity", "sterilizers", "key", "B", "serial", "EX-3004"));
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("Last time: by the window ")
                    .contains("Last time: in the cellar ");
            String page = desk.get(address(draft, "as-found")).body();
            assertThat(page)
                    .contains("Found last time: bad.")
                    .doesNotContain("Last time: bad")
                    .contains("Last time: TL-1 ");
        }
    }

    // ---- what the desk did not answer to

    @Test
    void what_stood_in_its_field_for_long_is_entered_with_the_time_at_which_it_was_typed() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = begun(desk);
            for (String held : List.of("20", "7200", "93600", "soon")) {
                Map<String, String> field = new HashMap<>(field(Stage.IDENTITY, "clinic/room", "held " + held, ""));
                field.put("seen", draft.now().text(FactPath.of("clinic", "room")));
                field.put("held", held);
                save(desk, draft, field);
            }
            List<JournalEntry> entries = desk.records().history(draft.id()).stream()
                    .filter(entry -> entry.property().equals("stated/clinic"))
                    .filter(entry -> entry.newValue().text().contains("held"))
                    .toList();
            assertThat(entries.stream()
                            .map(entry -> entry.stated()
                                    .map(when ->
                                            Duration.between(when, entry.at()).toSeconds())
                                    .orElse(0L)))
                    .containsExactly(0L, 7_200L, 93_600L, 0L);
            assertThat(entries.stream().map(JournalEntry::isLate)).containsExactly(false, false, true, false);
        }
    }

    // ---- signing

    /** The demo as if its recordings were real, which only a test may do. */
    private static void takeAsReal(OpenDesk desk, Path demo) throws Exception {
        DemoVisit.write(demo);
        try (Stream<Path> files = Files.walk(demo)) {
            for (Path file :
                    files.filter(one -> one.toString().endsWith(".csv")).toList()) {
                String text = Files.readString(file);
                if (text.startsWith("# Steamwright simulated")) {
                    Files.writeString(file, text.substring(text.indexOf('\n') + 1));
                }
            }
        }
        new Filing(desk.records()).take(demo, KIM, "");
    }

    /** What goes back from the page with the signature. */
    private static String seen(OpenDesk desk, Draft draft) throws Exception {
        Matcher seen = Pattern.compile("name=\"seen\" value=\"([0-9a-f]{64})\"")
                .matcher(desk.get(address(draft, "close")).body());
        assertThat(seen.find()).isTrue();
        return seen.group(1);
    }

    @Test
    void a_visit_is_signed_with_an_own_secret_and_changes_no_more() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            takeAsReal(desk, folder.resolve("demo"));
            Draft draft = draft(desk, "DEMO-2026-001");
            String close = desk.get(address(draft, "close")).body();
            Matcher signer = Pattern.compile(
                            "action=\"[^\"]+/keys\">\\s*<input[^>]+>\\s*<input[^>]+name=\"name\" value=\"([^\"]+)\"")
                    .matcher(close);
            assertThat(signer.find()).as("somebody who has no secret yet").isTrue();
            String name = signer.group(1);
            assertThat(desk.post(
                                    address(draft, "keys"),
                                    Map.of("name", name, "secret", "correct horse battery", "again", "another"))
                            .statusCode())
                    .isEqualTo(422);
            desk.post(
                    address(draft, "keys"),
                    Map.of("name", name, "secret", "correct horse battery", "again", "correct horse battery"));
            Map<String, String> signature = new HashMap<>(
                    Map.of("name", name, "meaning", "performed and recorded", "secret", "wrong one here"));
            signature.put("seen", seen(desk, draft));
            assertThat(desk.post(address(draft, "signatures"), signature).body())
                    .contains("This is not the secret of " + name + ". Nothing was signed.")
                    .doesNotContain("RECORD-");
            signature.remove("seen");
            signature.put("secret", "correct horse battery");
            assertThat(desk.post(address(draft, "signatures"), signature).body())
                    .as("nobody signs what they have not looked at")
                    .contains("The visit was changed after this page was opened. Nothing was signed.");
            signature.put("seen", seen(desk, draft));
            draft.set(FactPath.of("clinic", "room"), Optional.of("cellar"), KIM, "");
            assertThat(desk.post(address(draft, "signatures"), signature).body())
                    .contains("The visit was changed after this page was opened. Nothing was signed.");
            assertThat(draft.now().isSigned()).isFalse();
            FactPath plate = FactPath.parse("sterilizers/1/name-plate/serial");
            draft.now().set(plate, Optional.of("EX-9999"), KIM, "");
            signature.put("seen", seen(desk, draft));
            assertThat(desk.post(address(draft, "signatures"), signature).body())
                    .contains("the name plate says EX-9999, the visit is for EX-1001")
                    .contains("Nothing is signed before the plate was read and is the right one.");
            draft.now().set(plate, Optional.empty(), KIM, "");
            signature.put("seen", seen(desk, draft));
            assertThat(desk.post(address(draft, "signatures"), signature).body())
                    .as("a plate that nobody read")
                    .contains("Read the serial number off the name plate")
                    .contains("Nothing is signed before");
            draft.now().set(plate, Optional.of("EX-1001"), KIM, "");
            signature.put("seen", seen(desk, draft));
            draft.now().change().note("running", "").keep(KIM, "");
            assertThat(desk.post(address(draft, "signatures"), signature).statusCode())
                    .isEqualTo(303);
            assertThat(draft.now().isSigned()).isTrue();
            assertThat(desk.get(address(draft, "identity")).body())
                    .contains("This visit is signed.")
                    .contains("disabled")
                    .doesNotContain("Take the last change back");
            assertThat(save(desk, draft, field(Stage.IDENTITY, "clinic/room", "attic", ""))
                            .body())
                    .contains("is signed and does not change any more");
        }
    }
}
