package org.steamwright.desk.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.shelf.Review;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.proof.Hash;

class OfficePagesTest {

    @TempDir
    private Path folder;

    private static Subject visit(OpenDesk desk, String number) {
        return desk.records().subjects(Kind.VISIT, 100).stream()
                .filter(one -> one.text("number").equals(number))
                .findFirst()
                .orElseThrow();
    }

    private static String machine(OpenDesk desk, String serial) {
        return "/register/sterilizers/"
                + desk.records()
                        .exactly(Kind.STERILIZER, "serial", serial)
                        .get(0)
                        .id();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/due",
                "/plan",
                "/register",
                "/register/clinics",
                "/register/sterilizers",
                "/register/instruments",
                "/register/people",
                "/register/lots",
                "/register/parts",
                "/find",
                "/affected",
                "/trends",
                "/measures",
                "/nonconformities",
                "/review"
            })
    void an_empty_record_opens_every_page_and_says_how_it_fills(String path) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            var page = desk.get(path);
            assertThat(page.statusCode()).as(page.body()).isEqualTo(200);
            assertThat(page.body()).contains("<h1>").doesNotContain("{0}").doesNotContain("null");
        }
    }

    @Test
    void the_due_list_tells_reason_place_and_forecast() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String due = desk.get("/due?days=400").body();
            assertThat(due)
                    .contains("EX-1001")
                    .contains("Example Dental Practice (invented), Sterilising room")
                    .contains("Validation")
                    .contains("counter: between");
            assertThat(desk.get("/due?days=400&from=999999").statusCode()).isEqualTo(200);
            assertThat(desk.get("/due?days=nonsense&from=-5").statusCode()).isEqualTo(200);
            String plan = desk.get("/plan?days=400").body();
            assertThat(plan).contains("By ").contains("Sterilising room");
            var calendar = desk.get("/due.ics?days=400");
            assertThat(calendar.headers().firstValue("Content-Type")).contains("text/calendar;charset=utf-8");
            assertThat(calendar.body()).contains("BEGIN:VEVENT");
            assertThat(desk.get("/due.csv?days=400").body()).startsWith("\"urgency\",");
        }
    }

    @Test
    void the_plan_names_visits_to_come_and_the_review_those_that_can_be_reviewed() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            LocalDate today = LocalDate.now(desk.records().clock());
            visit(desk, "PLAN-SOON", today.plusDays(10));
            visit(desk, "PLAN-LATE", today.plusDays(200));
            visit(desk, "PLAN-EARLY", today.minusDays(2));
            assertThat(desk.get("/plan?days=60").body()).contains("PLAN-SOON").doesNotContain("PLAN-LATE");
            assertThat(desk.get("/plan?days=366").body()).contains("PLAN-LATE");
            assertThat(desk.get("/review").body())
                    .contains("PLAN-EARLY")
                    .contains("is being written")
                    .contains("Cannot be assessed yet; the visit says what is missing.")
                    .doesNotContain("visit.yaml")
                    .doesNotContain("PLAN-SOON");
        }
    }

    private static void visit(OpenDesk desk, String number, LocalDate day) {
        SubjectId id = desk.records().newSubject();
        desk.records()
                .append(
                        new Author("Kim Sample (invented)", "office"),
                        List.of(
                                Change.set(Kind.VISIT, id, "number", number),
                                Change.set(Kind.VISIT, id, "date", day.toString())));
    }

    @Test
    void a_change_of_the_register_is_seen_at_once_and_other_entries_leave_it_at_hand() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            assertThat(desk.get("/register/sterilizers/EX-1001").body()).contains("in use");
            Subject machine = desk.records().subjects(Kind.STERILIZER, 100).stream()
                    .filter(one -> one.text("serial").equals("EX-1001"))
                    .findFirst()
                    .orElseThrow();
            desk.records()
                    .append(
                            new Author("Kim Sample (invented)", "office"),
                            List.of(Change.set(Kind.STERILIZER, machine.id(), "stated/status", "out-of-service")
                                    .because("valve sticks")));
            assertThat(desk.get("/register/sterilizers/EX-1001").body()).contains("out of service");
            assertThat(desk.get("/register/sterilizers/NONE").statusCode()).isEqualTo(404);
        }
    }

    @Test
    void a_list_is_narrowed_by_what_is_typed() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            assertThat(desk.get("/register/sterilizers?q=ex-1001").body())
                    .contains(machine(desk, "EX-1001"))
                    .doesNotContain(machine(desk, "EX-2002"));
            assertThat(desk.get("/register/clinics?q=zzzz").body()).contains("Nothing begins with that.");
            assertThat(desk.get("/due?days=400&place=example").body()).contains("EX-1001");
            assertThat(desk.get("/due?days=400&place=zzzz").body()).doesNotContain("EX-1001");
            assertThat(desk.get("/plan?days=400&place=example").body()).contains("Sterilising room");
            assertThat(desk.get("/due.csv?days=400&place=zzzz").body())
                    .startsWith("\"urgency\",")
                    .doesNotContain("EX-1001");
        }
    }

    @Test
    void one_box_finds_and_the_reverse_says_what_is_affected() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            assertThat(desk.get("/find?q=ex1001").body()).contains("EX-1001").contains("/register/sterilizers/");
            assertThat(desk.get("/find?q=EX-1001").body()).doesNotContain("[&#34;", "[&quot;", "[\"");
            assertThat(desk.get("/find?q=zzzzzz").body()).contains("Nothing begins with that.");
            Subject visit = visit(desk, "DEMO-2026-001");
            String set = visit.text("criteria-set").replace(" ", "%20");
            assertThat(desk.get("/affected?use=criteria-set&what=" + set).body())
                    .contains("DEMO-2026-001")
                    .contains("DEMO-2026-002");
            String instrument =
                    visit.fact("instruments").orElseThrow().node().get(0).asText();
            assertThat(desk.get("/affected?use=instrument&what=" + instrument).body())
                    .contains("DEMO-2026-001");
            assertThat(desk.get("/affected?use=algorithm-version&what=" + visit.text("algorithm-version"))
                            .body())
                    .contains("DEMO-2026-001");
            assertThat(desk.get("/affected?use=nonsense&what=x&after=nonsense").statusCode())
                    .isEqualTo(200);
        }
    }

    @Test
    void trends_show_the_last_figure_beside_its_limit() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String page = desk.get("/trends?figure=leak-rate").body();
            assertThat(page)
                    .contains("Leak rate")
                    .contains("EX-2002")
                    .contains("kPa/min")
                    .contains("not known:");
            String one = desk.get("/trends/one?serial=EX-2002").body();
            assertThat(one).contains("<svg").contains("Holding time");
            assertThat(desk.get("/measures").body())
                    .contains("Passed at the first visit")
                    .contains("Overdue now");
        }
    }

    @Test
    void a_nonconformity_is_opened_worked_on_closed_and_opened_again() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            assertThat(desk.post("/nonconformities", Map.of("what", "", "owner", ""))
                            .statusCode())
                    .isEqualTo(422);
            String path = desk.post(
                            "/nonconformities",
                            Map.of(
                                    "what",
                                    "<b>seal</b> torn",
                                    "owner",
                                    "Kim Sample (invented)",
                                    "until",
                                    "2026-08-01",
                                    "visit",
                                    visit(desk, "DEMO-2026-001").id().toString()))
                    .headers()
                    .firstValue("Location")
                    .orElseThrow();
            assertThat(desk.get("/nonconformities").body())
                    .contains("NC-2026-001")
                    .contains("open, past its day")
                    .contains("&lt;b&gt;seal");
            assertThat(desk.post(path + "/close", Map.of()).body())
                    .contains("It can be closed when these are said: Cause, Correction, Shown by.");
            Map<String, String> more = new HashMap<>(Map.of(
                    "what", "seal torn", "owner", "Kim Sample (invented)", "cause", "age", "correction", "new seal"));
            more.put("evidence", "leak test of 3 August");
            more.put("until", "2026-08-04");
            desk.post(path, more);
            assertThat(desk.post(path + "/close", Map.of()).statusCode()).isEqualTo(303);
            assertThat(desk.get(path).body())
                    .contains("3 Aug 2026", "4 Aug 2026")
                    .contains("new seal")
                    .contains(">Closed</td>")
                    .doesNotContain("It is closed.", "2026-08-04");
            assertThat(desk.post(path, more).body()).contains("It is closed.");
            assertThat(desk.post(path + "/close", Map.of()).body()).contains("Say why it is opened again.");
            desk.post(path + "/close", Map.of("reason", "the new one leaks too"));
            assertThat(desk.get(path).body()).contains("the new one leaks too");
            assertThat(desk.get("/affected?use=visit&what=x").statusCode()).isEqualTo(200);
        }
    }

    @Test
    void a_nonconformity_from_a_run_carries_visit_steriliser_and_run_and_says_what_it_does_not_know() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            String run = desk.get("/visits/" + visit(desk, "DEMO-2026-001").id() + "/runs/2")
                    .body();
            Matcher form =
                    Pattern.compile("href=\"(/nonconformities\\?[^\"]+)\"").matcher(run);
            assertThat(form.find()).isTrue();
            String address = form.group(1).replace("&amp;", "&");
            assertThat(desk.get(address).body())
                    .contains("name=\"visit\" maxlength=\"200\" autocomplete=\"off\" value=\"DEMO-2026-001\"")
                    .contains("value=\"EX-1001\"")
                    .containsPattern("name=\"run\"[^>]*value=\"2\"");
            Map<String, String> typed = new HashMap<>(Map.of(
                    "what",
                    "too cold",
                    "owner",
                    "Kim Sample (invented)",
                    "visit",
                    "DEMO-2026-001",
                    "sterilizer",
                    "EX-1001"));
            typed.put("run", "99");
            HttpResponse<String> unknown = desk.post("/nonconformities", typed);
            assertThat(unknown.statusCode()).isEqualTo(422);
            assertThat(unknown.body()).contains("That visit has no run 99.").contains("too cold</textarea>");
            typed.put("run", "2");
            typed.put("visit", "R-0");
            assertThat(desk.post("/nonconformities", typed).body()).contains("There is no visit R-0.");
            typed.put("visit", "DEMO-2026-001");
            String path = desk.post("/nonconformities", typed)
                    .headers()
                    .firstValue("Location")
                    .orElseThrow();
            assertThat(desk.get(path).body())
                    .contains("DEMO-2026-001")
                    .contains("EX-1001")
                    .contains("/visits/" + visit(desk, "DEMO-2026-001").id() + "/runs/2");
        }
    }

    @Test
    void many_nonconformities_are_shown_a_page_at_a_time_and_a_change_is_seen_at_once() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Author office = new Author("Kim Sample (invented)", "office");
            List<Change> changes = new ArrayList<>();
            for (int i = 1; i <= 230; i++) {
                SubjectId id = desk.records().newSubject();
                changes.add(
                        Change.set(Kind.NONCONFORMITY, id, "number", String.format(Locale.ROOT, "NC-2026-%03d", i)));
                changes.add(Change.set(Kind.NONCONFORMITY, id, "what", "seal torn"));
                if (i > 120) {
                    changes.add(Change.set(Kind.NONCONFORMITY, id, "closed", "2026-07-01"));
                }
            }
            desk.records().append(office, changes);
            assertThat(desk.get("/nonconformities").body())
                    .contains("NC-2026-001", "NC-2026-100", "NC-2026-230", "NC-2026-131")
                    .doesNotContain("NC-2026-101<", "NC-2026-130<")
                    .contains("/nonconformities?from=100", "/nonconformities?state=closed&amp;from=100");
            assertThat(desk.get("/nonconformities?from=100").body())
                    .contains("NC-2026-120")
                    .doesNotContain("NC-2026-100<");
            assertThat(desk.get("/nonconformities?state=closed&from=100").body())
                    .contains("NC-2026-121")
                    .doesNotContain("NC-2026-131<");
            desk.post("/nonconformities", Map.of("what", "door bent", "owner", "Kim Sample (invented)"));
            assertThat(desk.get("/nonconformities?from=100").body())
                    .contains("NC-2026-231")
                    .contains("door bent");
        }
    }

    @Test
    void a_visit_that_can_not_be_read_stands_in_the_lists_as_not_assessed_with_its_reason() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Subject visit = visit(desk, "DEMO-2026-002");
            Hash recording = visit.facts().entrySet().stream()
                    .filter(fact ->
                            fact.getKey().startsWith("files/") && fact.getKey().endsWith(".csv"))
                    .map(fact ->
                            Hash.ofHex(fact.getValue().node().path("sha256").asText()))
                    .findFirst()
                    .orElseThrow();
            Files.writeString(desk.records().files().path(recording), "something else");
            for (String path : List.of("/review", "/trends?figure=leak-rate", "/measures")) {
                assertThat(desk.get(path).body())
                        .as(path)
                        .containsPattern("(?s)DEMO-2026-002.*?not assessed.*?the bytes are not those that were kept");
            }
            assertThat(desk.get("/trends?figure=leak-rate").body())
                    .contains("Visits that could not be assessed: 1.")
                    .contains("EX-2002");
        }
    }

    @Test
    void a_review_shows_exceptions_and_differences_and_falls_with_the_facts() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Subject first = visit(desk, "DEMO-2026-001");
            Subject second = visit(desk, "DEMO-2026-002");
            String page = desk.get("/review/" + second.id()).body();
            assertThat(page)
                    .contains("Out of the ordinary")
                    .contains("Against the visit before")
                    .contains("/visits/" + second.id() + "/runs/1");
            assertThat(desk.get("/review/" + first.id()).body())
                    .contains("No earlier visit of this steriliser is kept.");
            String path = "/review/" + second.id();
            String seen = Review.hash(second);
            assertThat(desk.post(path, Map.of("answer", "send-back", "seen", seen))
                            .body())
                    .contains("Say what has to be mended");
            desk.post(path, Map.of("answer", "send-back", "why", "photo of the plate is missing", "seen", seen));
            assertThat(desk.get(path).body()).contains("sent back").contains("photo of the plate is missing");
            assertThat(desk.get(path).body())
                    .contains("Points are open in this visit.", "needed to send it back, and to approve it");
            HttpResponse<String> bare = desk.post(path, Map.of("answer", "approve", "seen", seen));
            assertThat(bare.statusCode())
                    .as("with points open an approval says why")
                    .isEqualTo(422);
            assertThat(bare.body()).contains("Approving it takes a reason");
            assertThat(desk.get("/review").body()).doesNotContain("approved");
            desk.post(path, Map.of("answer", "approve", "why", "the clinic asked for PQ alone", "seen", seen));
            assertThat(desk.get("/review").body()).contains("approved");
            assertThat(desk.get(path).body()).contains("the clinic asked for PQ alone");
            desk.records()
                    .append(
                            new Author("Kim Sample (invented)", "technician"),
                            List.of(Change.set(Kind.VISIT, second.id(), "stated/purpose", "something else")));
            assertThat(desk.get("/review").body()).contains("changed since the review");
            assertThat(desk.get("/review/nothing").statusCode()).isEqualTo(404);
        }
    }

    @Test
    void a_review_tells_exceptions_first_and_lays_each_steriliser_beside_its_own_last_visit() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Path yearly = Files.createDirectories(folder.resolve("again"));
            Path from = folder.resolve("year").resolve("2-final");
            try (Stream<Path> all = Files.walk(from)) {
                for (Path file : all.toList()) {
                    Path copy = yearly.resolve(from.relativize(file).toString());
                    if (Files.isRegularFile(file)) {
                        Files.createDirectories(copy.getParent());
                        Files.copy(file, copy);
                    }
                }
            }
            Path facts = yearly.resolve("visit.yaml");
            String text = Files.readString(facts);
            Matcher firmware = Pattern.compile("firmware: \"([^\"]*)\"").matcher(text);
            assertThat(firmware.find()).isTrue();
            String old = firmware.group(1);
            Files.writeString(
                    facts,
                    text.replaceFirst("report-number: .*", "report-number: R-9")
                            .replaceFirst("(?m)^date: .*", "date: 2026-05-04")
                            .replaceFirst("firmware: \"[^\"]*\"", "firmware: \"9.9 (invented)\"")
                            .replaceFirst("(?m)^deviations:\\n", "deviations:\n  - the bench was moved (invented)\n"));
            new Filing(desk.records()).take(yearly, new Author("Kim Sample (invented)", "technician"), "");
            Subject again = visit(desk, "R-9");
            String page = desk.get("/review/" + again.id()).body();
            int exceptions = page.indexOf("Out of the ordinary");
            int ofA = page.indexOf("Against the visit before: EX-1001");
            int ofB = page.indexOf("Against the visit before: EX-2002");
            int figures = page.indexOf(">then<");
            int recordings = page.indexOf(">Recordings<");
            assertThat(List.of(exceptions, ofA, ofB, recordings)).isSorted().doesNotContain(-1);
            assertThat(page.substring(ofA, ofB))
                    .contains("The visit before is DEMO-2026-001 of 2 Mar 2026.")
                    .contains(">Firmware</td>", ">" + old + "</td>", ">9.9 (invented)</td>")
                    .contains(">Deviation</td>", "the bench was moved (invented)")
                    .doesNotContain(">Criteria set</td>", ">Outcomes</td>");
            assertThat(page.substring(ofB, recordings))
                    .as("its own last visit, which is the one after the repair")
                    .contains("The visit before is DEMO-2026-002 of 24 Mar 2026.")
                    .contains(">Outcomes</td>")
                    .doesNotContain(">Firmware</td>");
            assertThat(figures).isLessThan(recordings);
        }
    }

    @Test
    void an_instrument_goes_into_quarantine_and_out_again() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            var instruments = org.steamwright.filing.RegisterFiling.class;
            assertThat(instruments).isNotNull();
            Path office = Path.of(System.getProperty("steamwright.root"), "docs", "examples", "office");
            new org.steamwright.filing.RegisterFiling(desk.records())
                    .take(office, new Author("Kim Sample (invented)", "office"), "");
            String path = "/register/instruments/TL-11";
            assertThat(desk.get(path).body()).contains("Never in quarantine.").contains("TL-11");
            assertThat(desk.post(path + "/quarantine", Map.of("day", "2026-08-02"))
                            .statusCode())
                    .as("without a reason")
                    .isEqualTo(422);
            desk.post(path + "/quarantine", Map.of("day", "2026-08-02", "reason", "dropped"));
            assertThat(desk.get(path).body()).contains("dropped").contains("Let out of quarantine");
            assertThat(desk.get("/register/instruments").body()).contains("in quarantine: not to be used");
            desk.post(path + "/quarantine", Map.of("day", "2026-08-02", "end", "yes"));
            assertThat(Optional.of(desk.get("/register/instruments").body()))
                    .hasValueSatisfying(body -> assertThat(body).contains("in date"));
            assertThat(desk.get("/register/instruments/NONE").statusCode()).isEqualTo(404);
        }
    }

    @Test
    void nobody_approves_what_is_not_finished_and_the_page_says_what() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Draft draft = new Drafts(desk.records()).find("DEMO-2026-002").orElseThrow();
            draft.add(
                    FactPath.parse("runs/1/indicators"),
                    Map.of("kind", "biological"),
                    new Author("Kim Sample (invented)", "technician"),
                    "");
            Subject visit = visit(desk, "DEMO-2026-002");
            String path = "/review/" + visit.id();
            String page = desk.get(path).body();
            assertThat(page)
                    .contains("Not finished", "run 1, indicator")
                    .contains("Entries of this visit are not finished")
                    .contains("value=\"send-back\"")
                    .doesNotContain("value=\"approve\"");
            HttpResponse<String> refused =
                    desk.post(path, Map.of("answer", "approve", "why", "it will do", "seen", Review.hash(visit)));
            assertThat(refused.statusCode()).isEqualTo(422);
            assertThat(refused.body()).contains("there is nothing to approve yet");
            desk.post(path, Map.of("answer", "send-back", "why", "indicator", "seen", Review.hash(visit)));
            assertThat(desk.get("/review").body()).contains("sent back");
        }
    }

    @Test
    void what_keeps_a_visit_is_told_on_the_plan_too() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Draft draft = new Drafts(desk.records())
                    .open(
                            new Author("Kim Sample (invented)", "technician"),
                            "R-9",
                            Map.of("date", "2026-08-20", "zone", "Australia/Adelaide"));
            assertThat(desk.get("/plan?days=60").body())
                    .contains("What keeps it")
                    .contains("hx-get=\"/visits/" + draft.id() + "/go?brief=1\"");
            assertThat(desk.get("/visits/" + draft.id() + "/go?brief=1").body())
                    .as("in a row that names machine and people, they are not named again")
                    .contains("No steriliser named yet")
                    .doesNotContain("Nobody named yet");
        }
    }
}
