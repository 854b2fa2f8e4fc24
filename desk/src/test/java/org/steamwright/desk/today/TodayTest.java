package org.steamwright.desk.today;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;

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
}
