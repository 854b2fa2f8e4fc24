package org.steamwright.records.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.function.IntConsumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Author;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueRule;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Stores;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.Use;
import org.steamwright.records.store.Transfer;

/**
 * An invented register of many sterilizers with ten visits each, and how long questions and saves take.
 * {@code -Drecords.sterilizers} says how many; the short form with every build only shows that it runs.
 */
class SpeedTest {

    private static final int STERILIZERS = Integer.getInteger("records.sterilizers", 100);
    private static final int ASKED = Integer.getInteger("records.asked", 100);
    private static final int SAVES = Integer.getInteger("records.saves", 50);
    /** Time of the processor is printed beside time on the clock: the machine may be busy with other things. */
    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private static final int VISITS = 10;
    private static final int TOGETHER = 200;
    private static final Author AUTHOR = new Author("Alex Example", "office");
    private static final List<String> FIRST = List.of(
            "Harbour",
            "Hillside",
            "Riverbank",
            "Market",
            "Station",
            "Garden",
            "Lakeview",
            "Northern",
            "Old Mill",
            "Sunrise");
    private static final List<String> SECOND = List.of(
            "Dental", "Family Practice", "Podiatry", "Skin Clinic", "Veterinary", "Day Surgery", "Health Centre");

    private static final DueRule YEARLY = (sterilizer, visits) -> visits.stream()
            .map(visit -> LocalDate.parse(visit.text("date")).plusYears(1))
            .max(LocalDate::compareTo)
            .map(day -> List.of(new DueDate(sterilizer.id(), day, "yearly", "fixed", "")))
            .orElse(List.of());

    @TempDir
    Path folder;

    @Test
    void questions_and_saves_take_as_long_as_they_may() throws SQLException {
        Place place = Place.folder(folder.resolve("store"));
        try (Records records = Records.open(place, Clock.systemUTC(), YEARLY)) {
            long start = System.nanoTime();
            fill(records);
            System.out.printf(
                    Locale.ROOT,
                    "%d sterilizers, %d visits, %d entries brought in within %.0f s%n",
                    STERILIZERS,
                    STERILIZERS * VISITS,
                    records.head().tree().size(),
                    (System.nanoTime() - start) / 1e9);
            ask("SQLite", records);
            save("SQLite", records);
        }
        Place server = Stores.fresh(Stores.Engine.POSTGRESQL, folder);
        try (var database = org.steamwright.records.store.Database.open(place)) {
            Transfer.copy(database, server);
        }
        try (Connection connection = Stores.connect(server);
                Statement statement = connection.createStatement()) {
            statement.execute("vacuum analyze");
        }
        try (Records records = Records.open(server, Clock.systemUTC(), YEARLY)) {
            ask("PostgreSQL", records);
            save("PostgreSQL", records);
        }
    }

    private static SubjectId sterilizer(int number) {
        return new SubjectId(new UUID(0x0194_0000_0000_7000L, 0x8000_0000_0000_0000L | number));
    }

    private static void fill(Records records) {
        SplittableRandom random = new SplittableRandom(1);
        List<Submission> together = new ArrayList<>();
        for (int i = 0; i < STERILIZERS; i++) {
            together.add(new Submission(
                    records.newSubmission(),
                    AUTHOR,
                    Records.changes(
                            Kind.STERILIZER,
                            sterilizer(i),
                            Map.of(
                                    "serial",
                                    serial(i),
                                    "clinic-name",
                                    FIRST.get(random.nextInt(FIRST.size())) + " "
                                            + SECOND.get(random.nextInt(SECOND.size())) + " " + i % 5_000))));
            for (int k = 0; k < VISITS; k++) {
                together.add(visit(records, i, k, random));
            }
            if (together.size() >= TOGETHER || i == STERILIZERS - 1) {
                records.appendAll(together);
                together.clear();
            }
        }
    }

    private static String serial(int number) {
        return "SN-" + (100_000 + number * 7L % 900_000) + "-" + number % 97;
    }

    private static Submission visit(Records records, int sterilizer, int number, SplittableRandom random) {
        return new Submission(
                records.newSubmission(),
                AUTHOR,
                Records.changes(
                        Kind.VISIT,
                        records.newSubject(),
                        Map.of(
                                "sterilizer", sterilizer(sterilizer).toString(),
                                "date",
                                        LocalDate.of(2016 + number, 1 + sterilizer % 12, 1 + sterilizer % 28)
                                                .toString(),
                                "instruments", List.of("LOG-" + random.nextInt(500), "PRB-" + random.nextInt(2_000)),
                                "lots", List.of("LOT-" + random.nextInt(5_000)),
                                "criteria-set", "example-134@" + number % 3,
                                "algorithm-version", "0." + number % 4 + ".0")));
    }

    private static void ask(String engine, Records records) {
        SplittableRandom random = new SplittableRandom(2);
        String[] beginnings = {"s", "sn", "sn1", "sn10", "harb", "h", "2025", "2025-06", "podi", "sk", "zz"};
        measure(engine + ": due list, first 100", i -> {
            LocalDate until = LocalDate.of(2026, 1 + random.nextInt(12), 1);
            assertThat(records.due(until, 100)).hasSizeLessThanOrEqualTo(100);
        });
        measure(
                engine + ": search, as typed",
                i -> assertThat(records.find(beginnings[i % beginnings.length], 20)
                                .hits())
                        .hasSizeLessThanOrEqualTo(20));
        measure(
                engine + ": search, serial number",
                i -> assertThat(records.find(serial(random.nextInt(STERILIZERS)), 20)
                                .hits())
                        .isNotEmpty());
        measure(
                engine + ": search, two words of many hits",
                i -> assertThat(records.find(
                                        FIRST.get(random.nextInt(FIRST.size())) + " "
                                                + SECOND.get(random.nextInt(SECOND.size())),
                                        20)
                                .hits())
                        .hasSizeLessThanOrEqualTo(20));
        measure(
                engine + ": what used an instrument, first 50",
                i -> assertThat(records.usedBy(Use.INSTRUMENT, "LOG-" + random.nextInt(500), Optional.empty(), 50))
                        .hasSizeLessThanOrEqualTo(50));
        measure(
                engine + ": what used a criteria set, first 50",
                i -> assertThat(records.usedBy(
                                Use.CRITERIA_SET, "example-134@" + random.nextInt(3), Optional.empty(), 50))
                        .hasSizeLessThanOrEqualTo(50));
        measure(
                engine + ": what used a lot, first 50",
                i -> assertThat(records.usedBy(Use.LOT, "LOT-" + random.nextInt(5_000), Optional.empty(), 50))
                        .hasSizeLessThanOrEqualTo(50));
    }

    private static void measure(String what, IntConsumer question) {
        double[] milliseconds = new double[ASKED];
        double[] busy = new double[ASKED];
        for (int i = -ASKED / 10; i < ASKED; i++) {
            long start = System.nanoTime();
            long worked = THREADS.getCurrentThreadCpuTime();
            question.accept(Math.abs(i));
            if (i >= 0) {
                milliseconds[i] = (System.nanoTime() - start) / 1e6;
                busy[i] = (THREADS.getCurrentThreadCpuTime() - worked) / 1e6;
            }
        }
        print(what, milliseconds);
        print(what + ", processor", busy);
    }

    private static void print(String what, double[] milliseconds) {
        Arrays.sort(milliseconds);
        System.out.printf(
                Locale.ROOT,
                "| %s | %.2f | %.2f | %.2f | %.2f |%n",
                what,
                milliseconds[milliseconds.length / 2],
                milliseconds[milliseconds.length * 95 / 100],
                milliseconds[milliseconds.length * 99 / 100],
                milliseconds[milliseconds.length - 1]);
    }

    /** In turn with a bare commit of one row of the same size, on the same disk. */
    private void save(String engine, Records records) throws SQLException {
        double[] own = new double[SAVES];
        double[] bare = new double[SAVES];
        double[] busy = new double[SAVES];
        SplittableRandom random = new SplittableRandom(3);
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("bare-" + engine));
                Statement statement = connection.createStatement()) {
            statement.execute("pragma journal_mode = wal");
            statement.execute("pragma synchronous = full");
            statement.execute("create table bare (content text)");
            try (PreparedStatement insert = connection.prepareStatement("insert into bare values (?)")) {
                for (int i = 0; i < SAVES; i++) {
                    Submission submission = visit(records, random.nextInt(STERILIZERS), 9, random);
                    long start = System.nanoTime();
                    long worked = THREADS.getCurrentThreadCpuTime();
                    records.append(submission);
                    own[i] = (System.nanoTime() - start) / 1e6;
                    busy[i] = (THREADS.getCurrentThreadCpuTime() - worked) / 1e6;
                    insert.setString(1, "x".repeat(1_500));
                    start = System.nanoTime();
                    insert.executeUpdate();
                    bare[i] = (System.nanoTime() - start) / 1e6;
                }
            }
        }
        print(engine + ": save a visit of six facts", own);
        print(engine + ": save a visit of six facts, processor", busy);
        print(engine + ": beside it, a bare SQLite commit", bare);
    }
}
