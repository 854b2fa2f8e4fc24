package org.steamwright.desk.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.Statement;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.path.Stage;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.filing.KeptResults;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueStart;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;

/**
 * How long the office's pages take with a register of the size of a nation; the long form and its figures stand in
 * docs/reference/speed.md. {@code -Ddesk.sterilizers} says how many, {@code -Ddesk.asked} how often each page is asked,
 * {@code -Ddesk.saves} how often is saved, {@code -Ddesk.drafts} how many visits are being written, {@code -Ddesk.server} names a PostgreSQL database in the place of SQLite: an empty one,
 * or that of an earlier measurement, which is not filled again. The short form shows that the pages find
 * what is there, and pages of lists come to an end.
 */
class NationalSpeedTest {

    private static final int STERILIZERS = Integer.getInteger("desk.sterilizers", 260);
    private static final int ASKED = Integer.getInteger("desk.asked", 3);
    private static final int SAVES = Integer.getInteger("desk.saves", 3);
    private static final int DRAFTS = Integer.getInteger("desk.drafts", 12);
    private static final int TOGETHER = 50;
    private static final int FACTS_OF_A_SHEET = 6;
    private static final String SERVER = System.getProperty("desk.server", "");
    /** Where files lie; those of an earlier measurement lie where they lay then. */
    private static final String FILES = System.getProperty("desk.files", "");

    @TempDir
    private Path folder;

    private final SplittableRandom random = new SplittableRandom(5);

    @Test
    void pages_of_a_large_register_take_as_long_as_they_may() throws Exception {
        Path own = FILES.isEmpty() ? folder.resolve("record") : Path.of(FILES);
        Place place = SERVER.isEmpty() ? Place.folder(own) : Place.server(SERVER, own);
        Records records = Records.open(place, Clock.fixed(OpenDesk.NOW, ZoneOffset.UTC), DueInRecord.RULE);
        try (OpenDesk desk = OpenDesk.with(records, folder)) {
            long began = System.nanoTime();
            if (records.count(Kind.STERILIZER) == 0) {
                new NationalRecord(records, LocalDate.ofInstant(OpenDesk.NOW, ZoneOffset.UTC)).fill(STERILIZERS);
            } else if (records.results().countWaiting() >= STERILIZERS) {
                new NationalRecord(records, LocalDate.ofInstant(OpenDesk.NOW, ZoneOffset.UTC)).resultsAnew();
            }
            // saves of an earlier measurement leave results to be worked out
            workOut(records);
            System.out.printf(
                    Locale.ROOT,
                    "%s: %d sterilisers, %d clinics, %d visits, %d entries brought in within %.0f s; load %.1f%n",
                    SERVER.isEmpty() ? "SQLite" : "PostgreSQL",
                    records.count(Kind.STERILIZER),
                    records.count(Kind.CLINIC),
                    records.count(Kind.VISIT),
                    records.head().tree().size(),
                    (System.nanoTime() - began) / 1e9,
                    load());
            assertThat(records.count(Kind.STERILIZER)).isEqualTo(STERILIZERS);
            assertThat(records.results().countWaiting()).isZero();
            assertThat(desk.get("/register").body()).contains(Integer.toString(STERILIZERS));
            assertThat(desk.get("/register/sterilizers?from=200").body()).contains(NationalRecord.number(200));
            assertThat(desk.get("/due?days=366").body()).contains("/due?days=366&amp;from=100");
            assertThat(desk.get("/trends?from=200").body()).contains("SN-");
            List<SubjectId> drafts = drafts(records);
            assertThat(desk.get("/visits/" + drafts.get(0)).body()).contains(NationalRecord.draft(0));
            for (Map.Entry<String, Supplier<String>> page : pages(records).entrySet()) {
                measure(desk, page.getKey(), page.getValue());
            }
            for (Map.Entry<String, Supplier<String>> page :
                    pagesOfVisits(drafts).entrySet()) {
                measure(desk, page.getKey(), page.getValue());
            }
            save(records);
            System.out.printf(Locale.ROOT, "load at the end %.1f%n", load());
        }
    }

    private static double load() {
        return ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
    }

    private int machine() {
        return random.nextInt(STERILIZERS);
    }

    private int from() {
        return random.nextInt(Math.max(1, STERILIZERS / 100)) * 100;
    }

    /** Visits that are being written, made once; what follows from them is worked out before anything is measured. */
    private static List<SubjectId> drafts(Records records) throws Exception {
        List<SubjectId> known = new ArrayList<>();
        for (int i = 0; i < DRAFTS; i++) {
            records.exactly(Kind.VISIT, "number", NationalRecord.draft(i)).forEach(one -> known.add(one.id()));
        }
        if (!known.isEmpty()) {
            return known;
        }
        List<SubjectId> made =
                NationalRecord.drafts(records, DRAFTS, STERILIZERS, LocalDate.ofInstant(OpenDesk.NOW, ZoneOffset.UTC));
        workOut(records);
        assertThat(records.results().countWaiting()).isZero();
        return made;
    }

    private static void workOut(Records records) {
        KeptResults results = new KeptResults(records, new Filing(records)::assess);
        boolean hasMore = true;
        while (hasMore) {
            hasMore = results.work(TOGETHER);
        }
    }

    private Map<String, Supplier<String>> pagesOfVisits(List<SubjectId> drafts) {
        Map<String, Supplier<String>> pages = new LinkedHashMap<>();
        Supplier<String> visit = () -> "/visits/" + drafts.get(random.nextInt(drafts.size()));
        pages.put("a visit's overview", visit);
        for (Stage stage : Stage.values()) {
            pages.put("a visit's step, " + stage.word(), () -> visit.get() + "/" + stage.word());
        }
        pages.put("what is missing in a visit", () -> visit.get() + "/context");
        pages.put("a visit's recordings", () -> visit.get() + "/runs/1/recordings");
        return pages;
    }

    private Map<String, Supplier<String>> pages(Records records) {
        Map<String, Supplier<String>> pages = new LinkedHashMap<>();
        pages.put("today", () -> "/today");
        pages.put("visits", () -> "/visits");
        pages.put("due list, first page", () -> "/due?days=" + random.nextInt(30, 366));
        pages.put("due list, any page", () -> "/due?days=366&" + anyPage(records));
        pages.put("due list at a place", () -> "/due?days=366&place=town%20" + random.nextInt(400));
        pages.put("plan, first page", () -> "/plan?days=60");
        pages.put("plan, any page", () -> "/plan?days=366&" + anyPage(records));
        pages.put("register", () -> "/register");
        pages.put("clinics, any page", () -> "/register/clinics?from=" + from() * 2 / 5);
        pages.put("clinics, as typed", () -> "/register/clinics?q=" + typed("Riverbank Podiatry 17"));
        pages.put("sterilisers, any page", () -> "/register/sterilizers?from=" + from());
        pages.put("sterilisers, as typed", () -> "/register/sterilizers?q=" + typed(NationalRecord.serial(machine())));
        pages.put("a steriliser", () -> "/register/sterilizers/" + NationalRecord.number(machine()));
        pages.put("a clinic", () -> {
            List<Subject> clinics = records.subjects(Kind.CLINIC, from() * 2 / 5, 1);
            return "/clinic/" + clinics.get(0).id();
        });
        pages.put(
                "find, as typed",
                () -> "/find?q="
                        + typed(random.nextBoolean() ? "Harbour Dental 1" : NationalRecord.report(machine(), 1)));
        pages.put("what concerns a steriliser", () -> {
            Subject machine = records.exactly(Kind.STERILIZER, "number", NationalRecord.number(machine()))
                    .get(0);
            return "/affected?use=sterilizer&what=" + machine.id();
        });
        pages.put("trends, first page", () -> "/trends?figure=leak-rate");
        pages.put("trends, any page", () -> "/trends?figure=minimum-holding-time&from=" + from());
        pages.put(
                "trends of one",
                () -> "/trends/one?machine="
                        + records.exactly(Kind.STERILIZER, "number", NationalRecord.number(machine()))
                                .get(0)
                                .id());
        pages.put("measures", () -> "/measures");
        pages.put("review", () -> "/review");
        pages.put("non-conformities", () -> "/nonconformities");
        return pages;
    }

    /** A page anywhere in the due list of a year, as the links between its pages name it. */
    private String anyPage(Records records) {
        LocalDate until = LocalDate.ofInstant(OpenDesk.NOW, ZoneOffset.UTC).plusDays(366);
        int from = random.nextInt(Math.toIntExact(records.countDue(until)));
        DueDate first = records.due(until, DueStart.counted(from), 1).get(0);
        return "from=" + from + "&at=" + URLEncoder.encode(DueStart.At.of(first).text(), StandardCharsets.UTF_8);
    }

    /** The beginning of a text, as far as somebody has typed. */
    private String typed(String text) {
        return URLEncoder.encode(text.substring(0, 1 + random.nextInt(text.length())), StandardCharsets.UTF_8);
    }

    private static void measure(OpenDesk desk, String what, Supplier<String> path)
            throws IOException, InterruptedException {
        double[] millis = new double[ASKED];
        for (int i = -Math.max(1, ASKED / 10); i < ASKED; i++) {
            String asked = path.get();
            long began = System.nanoTime();
            var answer = desk.get(asked);
            if (i >= 0) {
                millis[i] = (System.nanoTime() - began) / 1e6;
            }
            assertThat(answer.statusCode()).as(asked + answer.body()).isEqualTo(200);
        }
        print(what, millis);
    }

    /** What the desk saves, in turn and beside a bare commit of one row on the same disk. */
    private void save(Records records) throws Exception {
        Author author = new Author("Kim Sample (invented)", "technician");
        List<SubjectId> visits = new ArrayList<>();
        for (int i = 0; i < SAVES; i++) {
            visits.add(records.subjects(Kind.VISIT, random.nextInt(2 * STERILIZERS), 1)
                    .get(0)
                    .id());
        }
        Draft draft = new Drafts(records)
                .open(
                        author,
                        // an earlier measurement has left one of its own
                        "N-9-" + records.count(Kind.VISIT),
                        Map.of("clinic", Map.of("name", "Harbour Street Dental (invented)", "address", "")));
        double[] fact = new double[SAVES];
        double[] six = new double[SAVES];
        double[] field = new double[SAVES];
        double[] bare = new double[SAVES];
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("bare"));
                Statement statement = connection.createStatement()) {
            statement.execute("pragma journal_mode = wal");
            statement.execute("pragma synchronous = full");
            statement.execute("create table bare (content text)");
            try (PreparedStatement insert = connection.prepareStatement("insert into bare values (?)")) {
                for (int i = 0; i < SAVES; i++) {
                    SubjectId visit = visits.get(i);
                    List<Change> one = Records.changes(Kind.VISIT, visit, Map.of("stated/notes", "reading " + i));
                    fact[i] = took(() -> records.append(author, one));
                    Map<String, Object> sheet = new HashMap<>();
                    for (int k = 0; k < FACTS_OF_A_SHEET; k++) {
                        sheet.put("stated/readings/" + k, (i + k) / 10.0);
                    }
                    List<Change> all = Records.changes(Kind.VISIT, visit, sheet);
                    six[i] = took(() -> records.append(author, all));
                    String typed = "word " + i;
                    field[i] = took(
                            () -> draft.now().set(FactPath.of("clinic", "address"), Optional.of(typed), author, ""));
                    insert.setString(1, "x".repeat(1_500));
                    bare[i] = took(insert::executeUpdate);
                }
            }
        }
        assertThat(draft.now().text(FactPath.of("clinic", "address"))).isEqualTo("word " + (SAVES - 1));
        print("save one fact", fact);
        print("save six facts of a visit", six);
        print("save a field of a draft, with the file of the visit", field);
        print("beside them, a bare SQLite commit", bare);
    }

    private static double took(Callable<?> what) throws Exception {
        long began = System.nanoTime();
        what.call();
        return (System.nanoTime() - began) / 1e6;
    }

    private static void print(String what, double[] millis) {
        Arrays.sort(millis);
        System.out.printf(
                Locale.ROOT,
                "| %s | %.2f | %.2f | %.2f | %.2f |%n",
                what,
                millis[millis.length / 2],
                millis[millis.length * 95 / 100],
                millis[millis.length * 99 / 100],
                millis[millis.length - 1]);
    }
}
