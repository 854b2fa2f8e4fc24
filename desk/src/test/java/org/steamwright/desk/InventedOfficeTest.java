package org.steamwright.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.Results;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Author;
import org.steamwright.records.InventedRecord;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.verify.Verifier;
import org.steamwright.visit.state.VisitState;

/** The invented year as {@code desk --demo} makes it, looked at on the day on which it ends. */
class InventedOfficeTest {

    private static final Clock TODAY = Clock.fixed(OpenDesk.NOW, ZoneOffset.UTC);

    @TempDir
    static Path folder;

    private static OpenDesk desk;

    @BeforeAll
    static void make() throws IOException {
        Path demo = folder.resolve("demo-desk");
        assertThat(InventedOffice.make(demo, TODAY)).isTrue();
        assertThat(InventedOffice.make(demo, TODAY)).as("what is there stays").isFalse();
        desk = OpenDesk.with(Records.open(Place.folder(demo), TODAY, DueInRecord.RULE), folder);
    }

    @AfterAll
    static void close() throws IOException {
        desk.close();
    }

    private static String page(String path) throws IOException, InterruptedException {
        return desk.get(path).body();
    }

    private static Subject clinic(String name) {
        return desk.records().subjects(Kind.CLINIC, 10).stream()
                .filter(one -> one.text("name").startsWith(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void three_clinics_have_a_year_of_visits_in_every_state_of_work() {
        assertThat(desk.records().subjects(Kind.CLINIC, 10)).hasSize(3);
        assertThat(desk.records().subjects(Kind.STERILIZER, 10)).hasSize(6);
        Map<VisitState, Integer> states = new VisitStates(desk.records()).count();
        assertThat(states).isEqualTo(new TreeMap<>(Map.of(VisitState.ISSUED, 10, VisitState.OPEN, 2)));
        List<LocalDate> days = desk.records().subjects(Kind.VISIT, 100).stream()
                .map(visit -> LocalDate.parse(visit.text("date")))
                .toList();
        assertThat(days).isSorted();
        assertThat(days.get(days.size() - 1)).isEqualTo(LocalDate.of(2026, 8, 2));
    }

    @Test
    void what_is_signed_says_that_it_is_invented_and_the_record_verifies() {
        assertThat(Verifier.verify(desk.records(), List.of(), new Results()).differences())
                .isEmpty();
        Issues issues = new Issues(desk.records());
        Subject visit = desk.records().subjects(Kind.VISIT, 1).get(0);
        assertThat(issues.of(visit.id()))
                .isNotEmpty()
                .allSatisfy(issue -> assertThat(
                                issues.document(issue).node().path("invented").asText())
                        .isEqualTo(InventedRecord.SIGNED));
    }

    @Test
    void no_real_visit_comes_into_it() {
        Map<String, byte[]> real = Map.of(
                "visit.yaml",
                "steamwright-visit: 1\nreport-number: R-1\nruns: [{kind: empty-chamber, recording: a.csv}]\n"
                        .getBytes(StandardCharsets.UTF_8),
                "a.csv",
                "time,T1\n".getBytes(StandardCharsets.UTF_8));
        assertThatThrownBy(() -> new Drafts(desk.records()).take(new Author("Kim", "technician"), "R-1", real))
                .isInstanceOf(FilingException.class)
                .hasMessageContaining("everything in the record is invented");
    }

    @Test
    void without_its_mark_nothing_more_is_signed() throws Exception {
        Path demo = folder.resolve("demo-desk");
        Path mark = demo.resolve("INVENTED.txt");
        Path away = folder.resolve("away.txt");
        Files.move(mark, away);
        try {
            Filing filing = new Filing(desk.records());
            Subject open = filing.visit("DEMO-111").visit();
            assertThatThrownBy(() -> filing.sign(
                            open,
                            "Kim Sample (invented)",
                            "",
                            InventedOffice.SECRET.toCharArray(),
                            new Author("Kim Sample (invented)", "technician")))
                    .hasMessageContaining("simulated recordings can't be signed");
        } finally {
            Files.move(away, mark);
        }
    }

    @Test
    void an_unfinished_year_is_made_anew_and_a_foreign_folder_is_left_alone() throws IOException {
        Path foreign = Files.createDirectory(folder.resolve("foreign-being-made"));
        Files.writeString(foreign.resolve("mine.txt"), "mine");
        assertThatThrownBy(() -> InventedOffice.make(folder.resolve("foreign"), TODAY))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("is not empty");
        assertThat(foreign.resolve("mine.txt")).exists();
    }

    @Test
    void the_pages_show_what_the_year_is_there_for() throws Exception {
        assertThat(page("/trends?figure=leak-rate"))
                .as("band of the family and forecast")
                .contains("EX-3003")
                .contains("meets the limit");
        assertThat(page("/today")).contains("DEMO-112").contains("DEMO-111").doesNotContain("DEMO-110");
        assertThat(page("/nonconformities")).contains("NC-2026-001").contains("EX-4004");
        assertThat(page("/due?days=60")).contains("EX-6006").contains("EX-2002");
        assertThat(desk.records().subjects(Kind.INSTRUMENT, 20)).hasSize(8);
    }

    @Test
    void a_visit_begins_at_what_is_due_and_what_is_asked_for_is_chosen() throws Exception {
        Subject machine =
                desk.records().exactly(Kind.STERILIZER, "serial", "EX-6006").get(0);
        String begin = "/visits?machine=" + machine.id();
        assertThat(page("/register/sterilizers/" + machine.id()))
                .contains("href=\"" + begin + "#begin\"", "/nonconformities?sterilizer=EX-6006");
        assertThat(page(begin))
                .contains("<details id=\"begin\" open>", "<option value=\"" + machine.id() + "\" selected>")
                .contains("<option value=\"Kim Sample (invented)\"></option>", "Robin Example (invented)");
        assertThat(page("/visits")).contains("<details id=\"begin\">");
        assertThat(page("/visits?machine=nothing")).contains("<details id=\"begin\" open>");
        assertThat(page("/affected"))
                .as("what the register has, to be chosen")
                .contains("<option value=\"TL-05\"></option>", "<option value=\"LOT-0003\"></option>");
    }

    @Test
    void a_page_of_the_register_offers_what_belongs_to_it_and_its_place_in_the_head_is_marked() throws Exception {
        assertThat(page("/register/sterilizers")).contains("/register/table");
        for (String list : List.of("lots", "people", "parts", "clinics")) {
            assertThat(page("/register/" + list))
                    .as(list)
                    .contains("/register/new/")
                    .doesNotContain("/register/table");
        }
        for (Map.Entry<String, String> reached : Map.of(
                        "/plan", "/due", "/measures", "/register", "/expiring", "/today")
                .entrySet()) {
            assertThat(page(reached.getKey()))
                    .as(reached.getKey())
                    .contains("href=\"" + reached.getValue() + "\" aria-current=\"page\"");
        }
    }

    @Test
    void the_reviewer_reads_each_thing_once_and_is_one_step_from_its_recording() throws Exception {
        Subject visit = new Filing(desk.records()).visit("DEMO-112").visit();
        String review = page("/review/" + visit.id());
        assertThat(review.split("Awaited: BI-04-1", -1))
                .as("the run and no open point besides")
                .hasSize(2);
        assertThat(review)
                .contains("<a href=\"/visits/" + visit.id() + "/runs/4\">Run 4</a>", "Open visit DEMO-103")
                .contains("is signed in an invented record only");
        String exceptions = review.substring(
                review.indexOf("<h2>Out of the ordinary"), review.indexOf("<h2>Against the visit before"));
        int heads = 1;
        int rows = exceptions.split("<tr role=\"row\">", -1).length - 1 - heads;
        String list = page("/review");
        assertThat(list.substring(list.indexOf("DEMO-112"), list.indexOf("DEMO-111")))
                .as("as many as the list of visits counts")
                .contains(">" + rows + "<");
    }

    @Test
    void something_of_each_sort_runs_out() throws Exception {
        String today = page("/today");
        assertThat(today).contains("What runs out");
        assertThat(today.substring(today.indexOf("What runs out")))
                .contains("TL-05", "LOT-0002", "LOT-0007", "Robin Example (invented)")
                .contains("ran out 12 days ago", "runs out in 20 days", "runs out in 39 days", "runs out in 45 days")
                .doesNotContain("LOT-0003", "TL-01", "Kim Sample (invented)");
        assertThat(page("/expiring")).contains("TL-05", "LOT-0002", "LOT-0007", "Robin Example (invented)");
    }

    @Test
    void the_clinics_see_what_is_in_force() throws Exception {
        String dental = page("/clinic/" + clinic("Example Dental").id());
        assertThat(dental).contains("DEMO-110").contains("134 wrapped").contains("may be run");
        String surgery = page("/clinic/" + clinic("Sample Street").id());
        assertThat(surgery).as("a later leak test takes nothing away").contains("may be run");
    }

    private static String load(String clinic, String serial, String more) throws IOException, InterruptedException {
        return page("/clinic/" + clinic(clinic).id() + "/load?serial=" + serial
                + "&cycle=134+wrapped&name-1=cassette&count-1=1&family-1=solid&packaging-1=single+pouch" + more);
    }

    @Test
    void a_load_is_covered_when_its_mass_and_the_tests_of_the_day_are_stated() throws Exception {
        assertThat(load("Example Dental", "EX-1001", "&mass=1.2&tests=passed")).contains("Yes: covered by");
        assertThat(load("Example Dental", "EX-1001", "&mass=1.2")).contains("Not yet: test first");
        assertThat(load("Example Dental", "EX-1001", "&tests=passed"))
                .contains("No: not covered")
                .contains("State its mass.");
        assertThat(load("Example Dental", "EX-1001", "&mass=2,5&tests=passed"))
                .contains("The load weighs more than the one that was tested.");
        assertThat(load("Sample Street", "EX-4004", "&mass=1.2&tests=passed"))
                .as("the machine that failed")
                .contains("No: not covered");
        assertThat(load("Placeholder", "EX-6006", "&mass=1.2&tests=passed"))
                .as("the overdue one")
                .contains("It ended with");
    }

    @Test
    void a_load_card_says_what_may_be_run_and_until_when() throws Exception {
        String clinic = "/clinic/" + clinic("Example Dental").id();
        String machine = desk.records()
                .exactly(Kind.STERILIZER, "serial", "EX-1001")
                .get(0)
                .id()
                .toString();
        assertThat(page(clinic)).contains(clinic + "/cards/" + machine).contains("When to call for a new validation");
        assertThat(page(clinic + "/cards/" + machine))
                .contains("Mass: 2.4 kg at most.")
                .contains("surgical handpiece")
                .contains("Valid until")
                .contains("releases nothing")
                .contains("Evidence: report DEMO-110.");
        assertThat(desk.get(clinic + "/cards/EX-3003").statusCode())
                .as("another clinic's machine")
                .isEqualTo(404);
        assertThat(page("/clinic/" + clinic("Placeholder").id() + "/cards/EX-6006"))
                .contains("NOT covered today:");
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.walk(from)) {
            for (Path one : all.toList()) {
                Files.copy(one, to.resolve(from.relativize(one).toString()));
            }
        }
    }

    @Test
    void the_day_is_the_one_at_the_site_and_not_the_offices() throws Exception {
        Path copy = folder.resolve("copy");
        copy(folder.resolve("demo-desk"), copy);
        // the report stands until 22 July 2027; there it is the morning of the 23rd, in the office still the day before
        Clock evening = Clock.fixed(Instant.parse("2027-07-22T20:00:00Z"), ZoneOffset.UTC);
        String address = "/clinic/" + clinic("Example Dental").id();
        try (OpenDesk later = OpenDesk.with(Records.open(Place.folder(copy), evening, DueInRecord.RULE), folder)) {
            assertThat(later.get(address).body()).contains("It ended with 2027-07-22.");
            assertThat(later.get(address + "/load?serial=EX-1001&cycle=134+wrapped&mass=1&tests=passed"
                                    + "&name-1=probe&count-1=1&family-1=solid&packaging-1=single+pouch")
                            .body())
                    .contains("It ended with 2027-07-22.");
        }
    }
}
