package org.steamwright.desk.runs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.AssessedRun;

/** A border of a phase stated on the page of the run, as a plain form would send it. */
class BordersTest {

    private static final String VISIT = "DEMO-2026-002";

    @TempDir
    private Path folder;

    private OpenDesk desk;
    private Draft draft;
    private AssessedRun run;
    private Phase drying;

    @BeforeEach
    void open() throws Exception {
        desk = OpenDesk.demo(folder);
        draft = new Drafts(desk.records()).find(VISIT).orElseThrow();
        run = draft.assessed().orElseThrow().runs().stream()
                .filter(one -> found(one).isPresent())
                .findFirst()
                .orElseThrow();
        drying = found(run).orElseThrow();
    }

    private static Optional<Phase> found(AssessedRun one) {
        return one.evaluation().phases().flatMap(phases -> phases.find(Phase.Kind.DRYING));
    }

    @AfterEach
    void close() throws IOException {
        desk.close();
    }

    private String page() {
        return "/visits/" + VISIT + "/runs/" + run.run().number();
    }

    private HttpResponse<String> state(String border, double at, String because) throws Exception {
        return desk.post(page() + "/borders", Map.of("border", border, "at", String.valueOf(at), "because", because));
    }

    private Object stated() {
        return new Drafts(desk.records())
                .find(VISIT)
                .orElseThrow()
                .find(FactPath.of("runs", run.run().number(), "stated-borders"))
                .orElse(List.of());
    }

    @Test
    void a_stated_border_is_kept_at_once_and_shown_beside_the_found_one() throws Exception {
        double at = Math.floor(drying.toSeconds()) - 20;
        assertThat(state("drying/to", at, "seen <b>on</b> the gauge").statusCode())
                .isEqualTo(303);
        assertThat(stated())
                .isEqualTo(List.of(Map.of(
                        "phase", "drying",
                        "end", "to",
                        "at", at + " s",
                        "by", "Alex Sample (invented)",
                        "because", "seen <b>on</b> the gauge")));
        String shown = desk.get(page()).body();
        assertThat(shown)
                .contains("drying, stated", "Alex Sample (invented)", "seen &lt;b&gt;on&lt;/b&gt; the gauge")
                .doesNotContain("<b>on</b>");
        assertThat(desk.get(page() + "/traces").body()).contains("\"stated\":[{\"word\":\"end of drying\"");
        assertThat(desk.get(page() + "/whole.svg").body()).contains("end of drying, stated");
    }

    @Test
    void the_same_border_is_stated_once_and_can_be_taken_away_or_undone() throws Exception {
        state("drying/to", Math.floor(drying.toSeconds()) - 20, "first");
        state("drying/to", Math.floor(drying.toSeconds()) - 30, "second");
        assertThat(stated()).asString().contains("second").doesNotContain("first");
        assertThat(desk.post(page() + "/borders/remove", Map.of("border", "drying/to"))
                        .statusCode())
                .isEqualTo(303);
        assertThat(stated()).isEqualTo(List.of());
        state("exhaust/to", drying.fromSeconds() + 1, "undone");
        desk.post("/visits/" + draft.id() + "/undo", Map.of("stage", "oq"));
        assertThat(stated()).isEqualTo(List.of());
    }

    @ParameterizedTest
    @CsvSource({
        "drying/to, 1e9, reason",
        "drying/to, 99999, reason",
        "drying/to, 1, reason",
        "plateau/to, 700, reason",
        "nothing, 700, reason",
        "drying/to, 900, ''",
        "drying/to, NaN, reason"
    })
    void what_can_not_stand_is_refused_and_nothing_is_kept(String border, String at, String because) throws Exception {
        assertThat(desk.post(page() + "/borders", Map.of("border", border, "at", at, "because", because))
                        .statusCode())
                .isEqualTo(422);
        assertThat(stated()).isEqualTo(List.of());
    }

    @Test
    void the_page_offers_every_border_but_those_of_the_plateau() throws Exception {
        assertThat(desk.get(page()).body())
                .contains("value=\"drying/to\"", "value=\"air-removal/from\"", "id=\"border-form\"", "name=\"because\"")
                .doesNotContain("value=\"plateau/");
    }

    @Test
    void a_border_typed_with_a_decimal_comma_is_kept_as_meant() throws Exception {
        String at = Math.round(Math.floor(drying.toSeconds()) - 20) + ",5";
        Map<String, String> typed = Map.of("border", "drying/to", "at", at, "because", "comma");
        assertThat(desk.post(page() + "/borders", typed).statusCode()).isEqualTo(303);
        assertThat(stated()).asString().contains("at=" + at.replace(',', '.') + " s");
    }

    @Test
    void a_window_that_shows_older_borders_is_told_and_changes_nothing() throws Exception {
        Matcher seen = Pattern.compile("name=\"seen\" value=\"([^\"]+)\"")
                .matcher(desk.get(page()).body());
        assertThat(seen.find()).isTrue();
        Map<String, String> first = Map.of(
                "border",
                "drying/to",
                "at",
                String.valueOf(Math.floor(drying.toSeconds()) - 20),
                "because",
                "first window",
                "seen",
                seen.group(1));
        assertThat(desk.post(page() + "/borders", first).statusCode()).isEqualTo(303);
        Map<String, String> second = new HashMap<>(first);
        second.put("at", String.valueOf(Math.floor(drying.toSeconds()) - 40));
        second.put("because", "second window");
        HttpResponse<String> told = desk.post(page() + "/borders", second);
        assertThat(told.statusCode()).isEqualTo(409);
        assertThat(told.body()).contains("in another window since this page was shown");
        assertThat(stated()).asString().contains("first window").doesNotContain("second window");
        assertThat(desk.post(page() + "/borders/remove", Map.of("border", "drying/to", "seen", seen.group(1)))
                        .statusCode())
                .isEqualTo(409);
    }

    @Test
    void the_last_change_is_shown_on_the_page_of_the_run_and_taken_back_there() throws Exception {
        state("drying/to", Math.floor(drying.toSeconds()) - 20, "soon regretted");
        Matcher change = Pattern.compile("name=\"change\" value=\"([^\"]+)\"")
                .matcher(desk.get(page()).body());
        assertThat(change.find()).isTrue();
        HttpResponse<String> undone =
                desk.post(page() + "/recordings/undo", Map.of("change", change.group(1), "back", "run"));
        assertThat(undone.headers().firstValue("Location").orElseThrow())
                .endsWith("/runs/" + run.run().number());
        assertThat(stated()).isEqualTo(List.of());
    }
}
