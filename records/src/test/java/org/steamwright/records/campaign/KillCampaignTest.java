package org.steamwright.records.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.Stores;
import org.steamwright.records.Submission;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/**
 * Killed at any moment, the program has kept what it acknowledged, once. {@code -Drecords.kills} of the program, {@code
 * -Drecords.server.kills} of the server; short forms with every build.
 */
class KillCampaignTest {

    private static final int KILLS = Integer.getInteger("records.kills", 5);
    private static final int SERVER_KILLS = Integer.getInteger("records.server.kills", 1);
    private static final Duration LONGEST_START = Duration.ofSeconds(2);
    private static final int FRESH_AFTER = 400;

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource
    void a_killed_program_has_kept_what_it_acknowledged_and_nothing_twice(Stores.Engine engine) throws Exception {
        int kills = engine == Stores.Engine.SQLITE ? KILLS : Math.max(2, KILLS / 10);
        SplittableRandom random = new SplittableRandom(20260302);
        Place place = Stores.fresh(engine, folder);
        int reached = 0;
        long acknowledged = 0;
        int between = 0;
        Duration longest = Duration.ZERO;
        TreeHead head = TreeHead.EMPTY;
        for (int kill = 0; kill < kills; kill++) {
            if (reached > FRESH_AFTER) {
                place = Stores.fresh(engine, folder);
                reached = 0;
                head = TreeHead.EMPTY;
            }
            int told = runAndKill(place, reached + 1, random);
            acknowledged += Math.max(0, told - reached);
            long start = System.nanoTime();
            try (Records records = Records.open(place, Clock.systemUTC())) {
                Duration opened = Duration.ofNanos(System.nanoTime() - start);
                longest = opened.compareTo(longest) > 0 ? opened : longest;
                assertThat(Verifier.verify(records, List.of(head), Reassessment.NONE)
                                .differences())
                        .as("after kill %s", kill)
                        .isEmpty();
                int found = (int) records.head().tree().size() / KilledWriter.ENTRIES;
                assertThat(records.head().tree().size()).isEqualTo((long) found * KilledWriter.ENTRIES);
                assertThat(found).as("acknowledged is kept").isBetween(told, told + 1);
                if (found > told) {
                    between++;
                }
                // the sender does not know about the one after the last acknowledged: it sends it again
                records.append(KilledWriter.submission(records, told + 1));
                reached = told + 1;
                assertThat(records.head().tree().size())
                        .as("none is kept twice")
                        .isEqualTo((long) reached * KilledWriter.ENTRIES);
                assertThat(records.subjects(Kind.VISIT, Integer.MAX_VALUE)).hasSize(reached);
                head = records.head().tree();
            }
        }
        System.out.printf(
                "%s: %d kills, %d submissions acknowledged, none lost, none doubled; %d killed between keeping and telling; longest start %d ms%n",
                engine, kills, acknowledged, between, longest.toMillis());
        assertThat(longest).isLessThan(LONGEST_START);
    }

    /** Lets a program write and kills it; the last number that it told. */
    private int runAndKill(Place place, int first, SplittableRandom random) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Xshare:auto",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                KilledWriter.class.getName(),
                place.folder().toString(),
                Integer.toString(first),
                Integer.toString(first + 1_000_000)));
        place.server().ifPresent(command::add);
        Path told = folder.resolve("told.txt");
        Files.deleteIfExists(told);
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .redirectOutput(told.toFile())
                .start();
        // some are killed while they open the store, most while they write
        int after = random.nextInt(30) - 2;
        long pause = random.nextInt(1, 4_000_000);
        if (after >= 0) {
            while (process.isAlive() && last(told, first - 1) - first + 1 < after) {
                LockSupport.parkNanos(500_000);
            }
        } else {
            pause += random.nextInt(1, 900) * 1_000_000L;
        }
        LockSupport.parkNanos(pause);
        process.destroyForcibly();
        process.waitFor();
        return last(told, first - 1);
    }

    /** The last number in whole lines of the file. */
    private static int last(Path told, int none) throws IOException {
        String text = Files.readString(told, StandardCharsets.UTF_8);
        int last = none;
        for (String line : text.substring(0, text.lastIndexOf('\n') + 1).split("\n")) {
            last = line.matches("\\d+") ? Integer.parseInt(line) : last;
        }
        return last;
    }

    @Test
    void a_killed_server_has_kept_what_it_acknowledged_and_nothing_twice() throws Exception {
        Path cluster = folder.resolve("cluster");
        SplittableRandom random = new SplittableRandom(5);
        int told = 0;
        int unknown = 0;
        Optional<String> database = Optional.empty();
        for (int kill = 0; kill <= SERVER_KILLS; kill++) {
            EmbeddedPostgres server = Stores.postgres()
                    .setDataDirectory(cluster.toFile())
                    .setCleanDataDirectory(false)
                    .setPGStartupWait(Duration.ofSeconds(60))
                    .start();
            String name = database.orElseGet(() -> Stores.freshDatabase(server).replaceAll(".*/(\\w+)\\?.*", "$1"));
            database = Optional.of(name);
            Place place = Place.server(server.getJdbcUrl("postgres", name), folder.resolve("files"));
            long wanted = Duration.ofMillis(random.nextInt(20, 800)).toNanos();
            try (Records records = Records.open(place, Clock.systemUTC())) {
                assertThat(Verifier.verify(records, List.of(), Reassessment.NONE)
                                .differences())
                        .isEmpty();
                assertThat(records.head().tree().size() / KilledWriter.ENTRIES).isBetween((long) told, told + 1L);
                records.append(KilledWriter.submission(records, told + 1));
                told++;
                assertThat(records.head().tree().size()).isEqualTo((long) told * KilledWriter.ENTRIES);
                if (kill == SERVER_KILLS) {
                    break;
                }
                long start = System.nanoTime();
                Thread killer = new Thread(() -> {
                    while (System.nanoTime() - start < wanted) {
                        Thread.onSpinWait();
                    }
                    killServer(cluster);
                });
                killer.start();
                try {
                    while (true) {
                        Submission next = KilledWriter.submission(records, told + 1);
                        records.append(next);
                        told++;
                    }
                } catch (RecordsException e) {
                    unknown += e.id() == org.steamwright.records.RecordsMessage.OUTCOME_UNKNOWN ? 1 : 0;
                }
                killer.join();
            } finally {
                server.close();
            }
        }
        System.out.printf(
                "server: %d kills, %d submissions, none lost, none doubled; the outcome was unknown to the program %d times%n",
                SERVER_KILLS, told, unknown);
    }

    private static void killServer(Path cluster) {
        try {
            long pid = Long.parseLong(
                    Files.readAllLines(cluster.resolve("postmaster.pid")).get(0).strip());
            ProcessHandle server = ProcessHandle.of(pid).orElseThrow();
            List<ProcessHandle> workers = server.descendants().toList();
            server.destroyForcibly();
            workers.forEach(ProcessHandle::destroyForcibly);
            server.onExit().get(30, TimeUnit.SECONDS);
            for (ProcessHandle worker : workers) {
                worker.onExit().get(30, TimeUnit.SECONDS);
            }
        } catch (Exception e) {
            throw new IllegalStateException(e);
        }
    }
}
