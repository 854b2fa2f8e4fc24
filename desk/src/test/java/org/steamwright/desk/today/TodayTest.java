package org.steamwright.desk.today;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.records.Author;

class TodayTest {

    @TempDir
    private Path folder;

    @Test
    void an_empty_record_says_how_to_begin() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get("/today").body()).contains("Today, 3 Aug 2026").contains("No visit is open.");
        }
    }

    @Test
    void the_newest_visit_stands_first_with_its_answer() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String page = desk.get("/today").body();
            assertThat(page.indexOf("DEMO-2026-002")).isPositive().isLessThan(page.indexOf("DEMO-2026-001"));
            assertThat(page).contains("Invented data");
        }
    }

    @Test
    void what_follows_from_a_visit_comes_when_the_page_asks_for_it() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Matcher part = Pattern.compile("hx-get=\"([^\"]+)\"")
                    .matcher(desk.get("/today").body());
            assertThat(part.find()).isTrue();
            assertThat(desk.get(part.group(1)).body())
                    .startsWith("<p>")
                    .contains("may be run with the load that was tested")
                    .contains("no list of installation qualification");
        }
    }

    @Test
    void indicators_that_are_awaited_are_told_from_their_day_on_as_something_to_do() throws Exception {
        Author kim = new Author("Kim Sample (invented)", "technician");
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = new Drafts(desk.records())
                    .open(
                            kim,
                            "R-1",
                            Map.of("runs", List.of(Map.of("indicators", List.of(Map.of("result", "awaited"))))));
            draft.change().note("read-at/1", "2026-08-04").keep(kim, "");
            assertThat(desk.get("/today").body()).contains("Indicators of run 1 are read on 4 Aug 2026.");
            draft.now().change().note("read-at/1", "2026-08-03").keep(kim, "");
            assertThat(desk.get("/today").body())
                    .contains("Read the indicators of run 1: they were due on 3 Aug 2026.");
            FactPath indicator = FactPath.parse("runs/1/indicators/1");
            draft.now().set(indicator.then("incubated-until"), Optional.of("2026-08-05 16:00"), kim, "");
            assertThat(desk.get("/today").body())
                    .as("what the indicator states goes before what is noted for the run")
                    .contains("Indicators of run 1 are read on 5 Aug 2026.");
            draft.now().set(indicator.then("read-on"), Optional.of("2026-08-05 09:00"), kim, "");
            draft.now().set(indicator.then("result"), Optional.of("no-growth"), kim, "");
            assertThat(desk.get("/today").body())
                    .as("read before its end")
                    .contains("Indicators of run 1 are read on 5 Aug 2026.");
            draft.now().set(indicator.then("read-on"), Optional.of("2026-08-05 16:10"), kim, "");
            assertThat(desk.get("/today").body()).doesNotContain("ndicators of run 1");
        }
    }
}
