package org.steamwright.desk.today;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
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
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

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
            draft.now().change().note("read-at/1", "2026-08-02").keep(kim, "");
            assertThat(desk.get("/today").body())
                    .contains("Indicators of run 1 were not read in time: they were to be read on 2 Aug 2026."
                            + " Until somebody reads them they count as not assessed.");
            FactPath indicator = FactPath.parse("runs/1/indicators/1");
            draft.now().set(indicator.then("incubated-until"), Optional.of("2026-08-05 16:00"), kim, "");
            assertThat(desk.get("/today").body())
                    .as("what the indicator states goes before what is noted for the run")
                    .contains("Indicators of run 1 are read on 5 Aug 2026, 16:00.");
            draft.now().set(indicator.then("read-on"), Optional.of("2026-08-05 09:00"), kim, "");
            draft.now().set(indicator.then("result"), Optional.of("no-growth"), kim, "");
            assertThat(desk.get("/today").body())
                    .as("read before its end")
                    .contains("Indicators of run 1 are read on 5 Aug 2026, 16:00.");
            draft.now().set(indicator.then("read-on"), Optional.of("2026-08-05 16:10"), kim, "");
            assertThat(desk.get("/today").body()).doesNotContain("ndicators of run 1");
        }
    }

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");

    private static Draft draft(OpenDesk desk, String number, String day) throws Exception {
        return new Drafts(desk.records()).open(KIM, number, Map.of("date", day, "zone", "Australia/Adelaide"));
    }

    /** Indicators of the first run are awaited until a moment by the clock of the site. */
    private static void awaited(Draft draft, String until) throws Exception {
        FactPath runs = FactPath.of("runs");
        draft.now().add(runs, Map.of("kind", "reference-load"), KIM, "");
        draft.now()
                .add(
                        FactPath.parse("runs/1/indicators"),
                        Map.of("result", "awaited", "incubated-until", until),
                        KIM,
                        "");
    }

    private static String between(String page, String from, String to) {
        assertThat(page).contains(from).contains(to);
        return page.substring(page.indexOf(from), page.indexOf(to, page.indexOf(from)));
    }

    @Test
    void nothing_that_wants_something_drops_off_however_much_came_after_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            awaited(draft(desk, "R-OLD", "2026-05-01"), "2026-05-03 16:00");
            for (int i = 10; i < 25; i++) {
                draft(desk, "R-" + i, "2026-07-" + i);
            }
            String page = desk.get("/today").body();
            assertThat(between(page, "Indicators to read", "Visits being written"))
                    .contains("R-OLD")
                    .contains("were not read in time: they were to be read on 3 May 2026, 16:00.");
            assertThat(page.substring(page.indexOf("Visits being written")))
                    .contains("R-24", "R-13", "1 to 12 of 16.")
                    .doesNotContain("R-12<", "R-OLD");
            assertThat(page.indexOf(">R-24<")).isLessThan(page.indexOf(">R-23<"));
            assertThat(page).contains("href=\"/today?from=12#open\"");
            String next = desk.get("/today?from=12").body();
            assertThat(next.substring(next.indexOf("Visits being written")))
                    .contains("R-12", "R-10", "R-OLD", "13 to 16 of 16.", "href=\"/today?from=0#open\"")
                    .doesNotContain("R-13<");
            Draft given = new Drafts(desk.records()).find("R-OLD").orElseThrow();
            assertThat(desk.post("/visits/" + given.id() + "/given-up", Map.of("reason", ""))
                            .statusCode())
                    .isEqualTo(422);
            desk.post("/visits/" + given.id() + "/given-up", Map.of("reason", "the machine is gone"));
            assertThat(desk.get("/today").body()).doesNotContain("R-OLD").contains("1 to 12 of 15.");
            assertThat(desk.get("/visits/" + given.id() + "/identity").body())
                    .contains("Reason: the machine is gone")
                    .doesNotContain("path.");
        }
    }

    @Test
    void a_visit_that_can_not_be_read_yet_tells_the_first_three_reasons_and_leads_to_the_rest() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = draft(desk, "R-1", "2026-08-03");
            awaited(draft, "2026-08-05 16:00");
            String answer = desk.get("/visits/" + draft.id() + "/answer").body();
            assertThat(answer)
                    .contains("Not assessed: the visit can't be read yet.")
                    .contains("No steriliser is named yet.")
                    .contains("<a href=\"/visits/" + draft.id() + "/close\">And 1 more.</a>")
                    .doesNotContain("VISIT-008", "Add a line like", "visit.yaml");
            assertThat(answer.split("<li>")).hasSize(4);
        }
    }

    @Test
    void visits_of_later_days_stand_apart_the_next_one_first() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            draft(desk, "R-LATER", "2026-08-20");
            draft(desk, "R-SOON", "2026-08-04");
            draft(desk, "R-NOW", "2026-08-03");
            String page = desk.get("/today").body();
            assertThat(between(page, "Visits being written", "Planned"))
                    .contains("R-NOW")
                    .doesNotContain("R-SOON", "R-LATER");
            String planned = page.substring(page.indexOf(">Planned<"));
            assertThat(planned.indexOf("R-SOON")).isPositive().isLessThan(planned.indexOf("R-LATER"));
        }
    }

    @Test
    void a_visit_to_come_says_what_keeps_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft draft = draft(desk, "R-SOON", "2026-08-04");
            assertThat(desk.get("/today").body()).contains("/visits/" + draft.id() + "/go");
            assertThat(desk.get("/visits/" + draft.id() + "/go").body())
                    .contains("No steriliser named yet", "Nobody named yet")
                    .doesNotContain("nothing speaks against");
            Path office = Files.createDirectories(folder.resolve("office"));
            Files.writeString(office.resolve("register.yaml"), """
                steamwright-register: 1
                sterilizers:
                  - id: ST-1
                    serial: EX-7007
                    cycles: [{name: 134 wrapped, type: B, sterilizing-temperature: 134 °C}]
                """);
            new RegisterFiling(desk.records()).take(office, KIM, "");
            draft.now().add(FactPath.of("sterilizers"), Map.of("key", "A", "serial", "EX-7007"), KIM, "");
            assertThat(desk.get("/visits/" + draft.id() + "/go").body())
                    .contains("EX-7007", "This keeps the visit:", "Name who goes.")
                    .doesNotContain("nothing speaks against");
        }
    }

    @Test
    void what_is_to_be_read_is_told_on_every_page_from_its_hour_on() throws Exception {
        SetClock clock = new SetClock(Instant.parse("2026-08-03T07:30:00Z"));
        Records records = Records.open(Place.folder(folder.resolve("record")), clock, DueInRecord.RULE);
        try (OpenDesk desk = OpenDesk.with(records, folder)) {
            awaited(draft(desk, "R-1", "2026-08-02"), "2026-08-03 19:15");
            String early = desk.get("/visits").body();
            assertThat(early)
                    .contains("<title>Visits - Steamwright")
                    .contains("data-due=\"0\" data-soon=\"2026-08-03T09:45:00Z\"");
            assertThat(desk.get("/today").body())
                    .contains("Indicators of run 1 are read on 3 Aug 2026, 19:15.")
                    .contains(">in 2 h 15 min<");
            clock.set(Instant.parse("2026-08-03T09:45:00Z"));
            for (String path : List.of("/visits", "/due", "/register", "/visits/R-1/close")) {
                assertThat(desk.get(path).body())
                        .as(path)
                        .contains("<title>(1) ")
                        .contains("visits with indicators to read: 1")
                        .contains("data-due=\"1\" data-soon=\"\"");
            }
            assertThat(desk.get("/today").body())
                    .contains("Read the indicators of run 1: they were due on 3 Aug 2026, 19:15.")
                    .doesNotContain("countdown");
            Draft draft = new Drafts(records).find("R-1").orElseThrow();
            draft.set(FactPath.parse("runs/1/indicators/1/read-on"), Optional.of("2026-08-03 19:20"), KIM, "");
            draft.now().set(FactPath.parse("runs/1/indicators/1/result"), Optional.of("no-growth"), KIM, "");
            assertThat(desk.get("/visits").body()).contains("<title>Visits - Steamwright");
        }
    }

    /** A clock that stands where it is put. */
    private static final class SetClock extends Clock {
        private volatile Instant now;

        SetClock(Instant now) {
            this.now = now;
        }

        void set(Instant moment) {
            now = moment;
        }

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }

        @Override
        public Instant instant() {
            return now;
        }
    }

    @Test
    void what_runs_out_stands_in_one_list_with_its_day_and_where_to_go() throws Exception {
        Path office = Files.createDirectory(folder.resolve("kit"));
        Files.writeString(office.resolve("register.yaml"), """
                steamwright-register: 1
                technicians:
                  - id: KS
                    name: Kim Sample (invented)
                    competences:
                      - {duties: [service], from: 2024-01-01, until: 2026-08-04, document: paper 7 (invented)}
                lots:
                  - {id: BI-1, kind: biological, product: strip (invented), number: LOT-1, expires: 2026-08-01, incubation: 168 h}
                  - {id: BI-2, kind: biological, product: strip (invented), number: LOT-2, expires: 2026-01-31, incubation: 168 h}
                  - {id: BI-3, kind: biological, product: strip (invented), number: LOT-3, expires: 2027-08-31, incubation: 168 h}
                testers:
                  - id: ET-01
                    certificates:
                      - {number: K-9 (invented), calibrated-on: 2025-08-04, due-on: 2026-08-03}
                """);
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get("/today").body()).doesNotContain("What runs out");
            new RegisterFiling(desk.records()).take(office, KIM, "");
            String page = desk.get("/today").body();
            String list = page.substring(page.indexOf("What runs out"));
            assertThat(list.indexOf("LOT-1"))
                    .as("the earliest first")
                    .isPositive()
                    .isLessThan(list.indexOf("ET-01"));
            assertThat(list.indexOf("ET-01")).isLessThan(list.indexOf("Kim Sample (invented)"));
            assertThat(list)
                    .contains("ran out 2 days ago", "runs out today", "runs out tomorrow", "4 Aug 2026")
                    .contains("Competence for service", "href=\"/register/entries/")
                    .doesNotContain("LOT-2", "LOT-3");
            assertThat(desk.get("/expiring").body())
                    .contains("What runs out", "LOT-1", "ET-01", "Kim Sample (invented)")
                    .contains("stands in the register")
                    .doesNotContain("LOT-2", "LOT-3");
            for (String path : List.of("/today", "/expiring")) {
                Matcher way = Pattern.compile("href=\"(/register/entries/[^\"]+)\"")
                        .matcher(desk.get(path).body());
                assertThat(way.find()).isTrue();
                assertThat(desk.get(way.group(1)).statusCode()).as(way.group(1)).isEqualTo(200);
            }
        }
    }

    @Test
    void a_read_out_by_the_clock_of_another_place_says_so() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Draft there = draft(desk, "R-1", "2026-08-03");
            awaited(there, "2026-08-05 16:00");
            assertThat(desk.get("/today").body())
                    .contains("are read on 5 Aug 2026, 16:00.", "(the time is that of the clinic)");
            there.now().set(FactPath.of("zone"), Optional.of("UTC"), KIM, "");
            assertThat(desk.get("/today").body())
                    .contains("are read on 5 Aug 2026, 16:00.")
                    .doesNotContain("that of the clinic");
        }
    }
}
