package org.steamwright.records.campaign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/**
 * The operating system answers the n-th write or flush with an error, once or from then on: {@code -Drecords.injected} says up
 * to which n at most; it ends where the program makes fewer such calls. Needs {@code strace} and takes seconds for each n, so that it runs only when asked for.
 */
class InjectedErrorsTest {

    private static final int STEPS = Integer.getInteger("records.injected", 0);
    private static final int SUBMISSIONS = 5;

    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource({"fsync, EIO", "fdatasync, EIO", "pwrite64, EIO", "pwrite64, ENOSPC", "rename, ENOSPC", "openat, EIO"})
    void an_error_of_the_system_loses_nothing_that_was_acknowledged(String call, String error) throws Exception {
        assumeTrue(STEPS > 0, "asked for with -Drecords.injected");
        assumeTrue(hasStrace(), "strace is not installed");
        int runs = 0;
        int hit = 0;
        int refused = 0;
        int last = 0;
        for (int step = 1; step <= STEPS && last == step - 1; step++) {
            for (String when : List.of(Integer.toString(step), step + "+")) {
                Place place = Place.folder(folder.resolve(call + error + when));
                Path told = folder.resolve("told.txt");
                Path trace = folder.resolve("trace.txt");
                Files.deleteIfExists(trace);
                // opened once before: what is looked for are errors while saving
                Records.open(place, Clock.systemUTC()).close();
                Process process = new ProcessBuilder(
                                "strace",
                                "-f",
                                "-qq",
                                "-o",
                                trace.toString(),
                                "-P",
                                place.folder().toString(),
                                "-P",
                                place.database().toString(),
                                "-P",
                                place.database() + "-wal",
                                "-e",
                                "trace=" + call,
                                "-e",
                                "inject=" + call + ":error=" + error + ":when=" + when,
                                Path.of(System.getProperty("java.home"), "bin", "java")
                                        .toString(),
                                "-XX:TieredStopAtLevel=1",
                                "-XX:+UseSerialGC",
                                "-cp",
                                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                                KilledWriter.class.getName(),
                                place.folder().toString(),
                                "1",
                                Integer.toString(SUBMISSIONS))
                        .redirectError(ProcessBuilder.Redirect.DISCARD)
                        .redirectOutput(told.toFile())
                        .start();
                assertThat(process.waitFor(300, TimeUnit.SECONDS)).isTrue();
                List<String> lines = Files.readAllLines(told, StandardCharsets.UTF_8);
                long acknowledged =
                        lines.stream().filter(line -> line.matches("\\d+")).count();
                if (Files.readString(trace, StandardCharsets.UTF_8).contains("INJECTED")) {
                    hit++;
                    last = step;
                }
                runs++;
                refused += lines.stream().anyMatch(line -> line.startsWith("refused")) ? 1 : 0;
                assertThat(acknowledged == SUBMISSIONS || lines.stream().anyMatch(line -> line.startsWith("refused")))
                        .as("%s at %s: %s", call, when, lines)
                        .isTrue();
                try (Records records = Records.open(place, Clock.systemUTC())) {
                    assertThat(Verifier.verify(records, List.of(), Reassessment.NONE)
                                    .differences())
                            .as("%s at %s", call, when)
                            .isEmpty();
                    long found = records.head().tree().size() / KilledWriter.ENTRIES;
                    assertThat(found).as("%s at %s", call, when).isBetween(acknowledged, acknowledged + 1);
                    records.append(KilledWriter.submission(records, (int) acknowledged + 1));
                    assertThat(records.head().tree().size()).isEqualTo((acknowledged + 1) * KilledWriter.ENTRIES);
                }
            }
        }
        System.out.printf(
                "%s %s: %d runs up to call %d, %d with an error injected, %d refused and told, none lost, none doubled%s%n",
                call, error, runs, last, hit, refused, last < STEPS ? ", every such call in turn" : "");
    }

    private static boolean hasStrace() throws InterruptedException {
        try {
            return new ProcessBuilder("strace", "-V")
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .redirectError(ProcessBuilder.Redirect.DISCARD)
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException e) {
            return false;
        }
    }
}
