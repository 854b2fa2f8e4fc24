package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

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

/** Loaded runs alone qualify no cycle, and the desk says so before they are made. */
class LoadsAloneTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");
    private static final FactPath RUNS = FactPath.of("runs");

    @TempDir
    Path folder;

    private static Draft visit(OpenDesk desk, String type) throws Exception {
        return new Drafts(desk.records())
                .open(
                        KIM,
                        "R-1",
                        Map.of(
                                "date",
                                "2026-08-03",
                                "sterilizers",
                                List.of(Map.of(
                                        "key",
                                        "A",
                                        "serial",
                                        "EX-1",
                                        "cycles",
                                        List.of(Map.of("name", "134 wrapped", "type", type))))));
    }

    private static Map<String, String> run(String kind) {
        return Map.of("kind", kind, "sterilizer", "A", "cycle", "134 wrapped");
    }

    private static Map<String, String> leak(String stage) {
        return Map.of("kind", "air-leakage", "sterilizer", "A", "stage", stage);
    }

    private static String page(OpenDesk desk, Draft draft, String stage) throws Exception {
        return desk.get("/visits/" + draft.id() + "/" + stage).body();
    }

    @Test
    void runs_that_could_qualify_nothing_are_told_where_they_are_written_down() throws Exception {
        String empty = "Cycle ‘134 wrapped’ has loaded runs on Steriliser A, EX-1 and none with the chamber empty."
                + " Loaded runs alone qualify no cycle: add one, about 51 minutes.";
        String leak = "Steriliser A, EX-1 has loaded runs and no air leakage test without sensors."
                + " Loaded runs alone qualify no cycle: add one, about 25 minutes.";
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = visit(desk, "B");
            assertThat(page(desk, draft, "runs")).doesNotContain("Loaded runs alone");
            draft = draft.add(RUNS, run("reference-load"), KIM, "");
            assertThat(page(desk, draft, "runs")).contains(empty, leak);
            draft = draft.add(RUNS, leak("with-sensors"), KIM, "").add(RUNS, leak("as-found"), KIM, "");
            assertThat(page(desk, draft, "runs"))
                    .as("neither speaks of the steriliser as it is handed back")
                    .contains(empty, leak);
            draft = draft.add(RUNS, run("empty-chamber"), KIM, "");
            assertThat(page(desk, draft, "runs")).contains(leak).doesNotContain(empty);
            draft = draft.add(RUNS, leak("after"), KIM, "");
            assertThat(page(desk, draft, "runs")).doesNotContain("Loaded runs alone");
        }
    }

    @Test
    void a_steriliser_without_vacuum_needs_no_leak_test() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = visit(desk, "N").add(RUNS, run("reference-load"), KIM, "");
            assertThat(page(desk, draft, "runs"))
                    .contains("none with the chamber empty", "about 41 minutes")
                    .doesNotContain("no air leakage test");
        }
    }

    @Test
    void leaving_out_what_loaded_runs_rest_on_is_told_at_once() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = visit(desk, "B");
            assertThat(page(desk, draft, "close")).doesNotContain("Left out: Air leakage test");
            Map<String, String> leftOut =
                    Map.of("path", "job-sheet/scope/leak", "value", "no", "seen", "", "stage", "close");
            String answer = desk.send(desk.form("/visits/" + draft.id() + "/facts", leftOut)
                            .header("X-Token", desk.token())
                            .header("HX-Request", "true"))
                    .body();
            String told = "Left out: Air leakage test. Without it loaded runs qualify no cycle;"
                    + " with it the visit takes about 25 minutes longer for each test.";
            assertThat(answer).as("with the answer to the choice").contains(told);
            assertThat(page(desk, draft, "close")).contains(told).doesNotContain("Left out: Empty chamber");
            draft = draft.now().set(FactPath.parse("job-sheet/scope/performance"), Optional.of("no"), KIM, "");
            assertThat(page(desk, draft, "close"))
                    .contains("No loaded runs are asked for, so this visit qualifies no cycle.")
                    .doesNotContain(told);
        }
    }
}
