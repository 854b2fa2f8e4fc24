package org.steamwright.desk.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.KeptResults;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.ResultBook.Waiting;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.VisitResult.Figure;

/**
 * Figures on the pages over all visits, worked out by hand from five visits of two invented machines. The leak rate of the first
 * machine rises by 0.030 kPa/min in 365 days on a straight line, its limit is 0.115 kPa/min.
 */
class FleetFiguresTest {

    private static final Author OFFICE = new Author("Alex Sample (invented)", "office");
    private static final String FAMILY = "Example 24 (invented)";

    @TempDir
    private Path folder;

    private final List<VisitResult> results = new ArrayList<>();

    private void visit(
            Records records, String serial, String day, double leak, String standing, boolean isBad, long minutes) {
        visit(records, serial, serial, day, leak, standing, isBad, minutes);
    }

    private void visit(
            Records records,
            String machine,
            String serial,
            String day,
            double leak,
            String standing,
            boolean isBad,
            long minutes) {
        SubjectId id = records.newSubject();
        records.append(OFFICE, Records.changes(Kind.VISIT, id, Map.of("number", "R-" + results.size(), "date", day)));
        results.add(new VisitResult(
                id,
                "by hand",
                minutes < 0 ? VisitResult.OPEN : VisitResult.OUT,
                day,
                standing,
                VisitResult.Reason.NONE,
                true,
                isBad,
                false,
                minutes < 0 ? OptionalLong.empty() : OptionalLong.of(minutes),
                0,
                List.of(new Figure(
                        "leak-rate", machine, serial, "", "AT_MOST", day, 1, leak, 0.115, "KILOPASCAL_PER_MINUTE"))));
    }

    private void fill(Records records) {
        visit(records, "EX-1", "2024-07-01", 0.040, "pass", false, 1_440);
        visit(records, "EX-1", "2025-07-01", 0.070, "pass", false, 1_440);
        visit(records, "EX-1", "2026-07-01", 0.100, "pass", true, 1_440);
        visit(records, "EX-2", "2025-11-05", 0.060, "fail", true, 4_320);
        visit(records, "EX-2", "2026-05-05", 0.050, "pass", false, -1);
        keep(records, Map.of("EX-1", FAMILY, "EX-2", FAMILY));
    }

    private void keep(Records records, Map<String, String> families) {
        long entries = records.head().tree().size();
        Map<Waiting, VisitResult> kept = new LinkedHashMap<>();
        results.forEach(result -> kept.put(new Waiting(result.visit(), entries), result));
        records.results().keep(kept, families, KeptResults::standing);
    }

    @Test
    void a_forecast_says_the_day_on_which_the_line_meets_the_limit() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            fill(desk.records());
            // 0.015 kPa/min are left and go in 182.5 days: on the 183rd day after 1 July 2026 the line is over
            String meets = "meets the limit on 31 Dec 2026; may be over from 31 Dec 2026. Service before that.";
            String one = desk.get("/trends/one?serial=EX-1").body();
            assertThat(one).contains(meets).contains("0.040", "0.070", "0.100", "0.115");
            String list = desk.get("/trends?figure=leak-rate").body();
            assertThat(list)
                    .contains(meets)
                    .as("0.030 in 365 days are 0.03002 in a year of 365.25")
                    .contains("0.0300 kPa/min")
                    .as("two visits only")
                    .contains("not known: two visits only, three are needed");
            assertThat(list.indexOf("EX-1<")).as("the most pressing first").isLessThan(list.indexOf("EX-2<"));
        }
    }

    @Test
    void two_makers_with_one_serial_number_have_trends_of_their_own() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Map<String, String> machines = new LinkedHashMap<>();
            for (String maker : List.of("North Works (invented)", "South Works (invented)")) {
                SubjectId id = desk.records().newSubject();
                desk.records()
                        .append(
                                OFFICE,
                                Records.changes(
                                        Kind.STERILIZER, id, Map.of("serial", "7", "maker", maker, "model", "B")));
                machines.put(maker, id.toString());
            }
            String north = machines.get("North Works (invented)");
            String south = machines.get("South Works (invented)");
            visit(desk.records(), north, "7", "2024-07-01", 0.041, "pass", false, 1_440);
            visit(desk.records(), north, "7", "2025-07-01", 0.042, "pass", false, 1_440);
            visit(desk.records(), south, "7", "2025-07-02", 0.093, "pass", false, 1_440);
            keep(desk.records(), Map.of());

            String list = desk.get("/trends?figure=leak-rate").body();
            assertThat(list).contains("North Works (invented) B", "South Works (invented) B");
            for (String machine : machines.values()) {
                assertThat(list).contains("/trends/one?machine=" + machine + "&amp;figure=leak-rate");
            }
            assertThat(list).as("machines of an unknown model are no family").doesNotContain(" of 2 machines");
            assertThat(desk.get("/trends/one?machine=" + north).body())
                    .contains("Trends of North Works (invented) B 7", "0.041", "0.042")
                    .doesNotContain("0.093");
            assertThat(desk.get("/trends/one?machine=" + south).body())
                    .contains("0.093")
                    .doesNotContain("0.041");
            assertThat(desk.get("/trends/one?serial=7").body())
                    .as("an address that somebody kept")
                    .contains("Several machines have the serial number 7")
                    .contains("/trends/one?machine=" + north, "/trends/one?machine=" + south)
                    .doesNotContain("0.041", "0.093");
        }
    }

    @Test
    void the_band_of_a_family_runs_over_the_last_figures_of_its_machines() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            fill(desk.records());
            assertThat(desk.get("/trends?figure=leak-rate").body())
                    .contains("within 0.050 kPa/min to 0.100 kPa/min of 2 machines");
            assertThat(desk.get("/trends/one?serial=EX-1").body())
                    .contains("Grey: what is usual among the machines of its family.");
        }
    }

    @Test
    void the_drawing_puts_each_dot_the_limit_and_the_forecast_where_their_day_and_figure_lie() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            fill(desk.records());
            // 306 wide over 913 days from 44 on; 164 high over 0.093 from 0.124 down, beginning at 16
            assertThat(desk.get("/trends/one?serial=EX-1").body())
                    .contains("points=\"44.0,164.1 166.3,111.2 288.7,58.3\"")
                    .as("limit")
                    .contains("d=\"M44.0 31.9H350.0\"")
                    .as("forecast")
                    .contains("d=\"M288.7 58.3L350.0 31.9\"")
                    .contains("cx=\"350.0\" cy=\"31.9\" r=\"4\"")
                    .as("band from 0.050 to 0.100")
                    .contains("<rect x=\"44.0\" y=\"58.3\" width=\"306.0\" height=\"88.2\"")
                    .contains(">1 Jul 2024<", ">1 Jul 2026<", ">31 Dec 2026<");
        }
    }

    @Test
    void measures_are_counted_over_the_visits_of_a_year() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            fill(desk.records());
            String page = desk.get("/measures").body();
            // from 4 August 2025 to 3 August 2026: three visits, one of the two machines failed as found at each of two
            assertThat(page).contains("From 4 Aug 2025 to 3 Aug 2026");
            assertThat(figure(page, "Visits")).isEqualTo("3");
            assertThat(figure(page, "Failed as found")).isEqualTo("2 of 3");
            assertThat(figure(page, "Passed at the first visit"))
                    .as("of those that were signed")
                    .isEqualTo("1 of 2");
            assertThat(figure(page, "Report turn-around"))
                    .as("signed after one and after three days: the lower of two in the middle")
                    .isEqualTo("1.0 days (2 of 3 visits signed)");
            assertThat(figure(page, "Nov 2025")).isEqualTo("1");
            assertThat(figure(page, "Jul 2026")).isEqualTo("1");
        }
    }

    /** What stands in the cell after the one with these words. */
    private static String figure(String page, String words) {
        int cell = page.indexOf(">" + words + "</td>");
        assertThat(cell).as(words + " in " + page).isPositive();
        String row = page.substring(cell + words.length() + 2, page.indexOf("</tr>", cell));
        return row.substring(row.indexOf("<td"))
                .replaceFirst("^<td[^>]*>", "")
                .replaceFirst("(?s)</td>.*", "")
                .strip();
    }
}
