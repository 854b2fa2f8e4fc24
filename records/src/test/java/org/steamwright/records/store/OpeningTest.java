package org.steamwright.records.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Stores;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/** Several programs that open a record which is not there yet open the same one. */
class OpeningTest {

    private static final int AT_ONCE = 4;
    private static final int ROUNDS = 4;

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource
    void threads_with_connections_of_their_own_make_one_store(Stores.Engine engine) throws Exception {
        for (int round = 0; round < ROUNDS; round++) {
            Place place = Stores.fresh(engine, folder);
            List<Exception> refused = new ArrayList<>();
            CyclicBarrier start = new CyclicBarrier(AT_ONCE);
            List<Thread> programs = new ArrayList<>();
            for (int i = 0; i < AT_ONCE; i++) {
                String name = "clinic " + i;
                programs.add(new Thread(() -> {
                    try {
                        start.await(30, TimeUnit.SECONDS);
                        OpenedAtOnce.write(place, name);
                    } catch (Exception e) {
                        synchronized (refused) {
                            refused.add(e);
                        }
                    }
                }));
            }
            programs.forEach(Thread::start);
            for (Thread program : programs) {
                program.join();
            }
            assertThat(refused).as("round " + round).isEmpty();
            assertSound(place);
        }
    }

    @Test
    void programs_make_one_file() throws Exception {
        Place place = Stores.fresh(Stores.Engine.SQLITE, folder);
        Path gate = folder.resolve("gate");
        List<Process> programs = new ArrayList<>();
        List<Path> told = new ArrayList<>();
        for (int i = 0; i < AT_ONCE; i++) {
            told.add(folder.resolve("told-" + i));
            programs.add(new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-XX:TieredStopAtLevel=1",
                            "-XX:+UseSerialGC",
                            "-Xshare:auto",
                            "-cp",
                            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                            OpenedAtOnce.class.getName(),
                            place.folder().toString(),
                            gate.toString(),
                            "clinic " + i)
                    .redirectErrorStream(true)
                    .redirectOutput(told.get(i).toFile())
                    .start());
        }
        try {
            for (Path one : told) {
                for (int wait = 0; wait < 600 && !Files.readString(one).contains("ready"); wait++) {
                    Thread.sleep(50);
                }
            }
            Files.createFile(gate);
            for (int i = 0; i < AT_ONCE; i++) {
                assertThat(programs.get(i).waitFor(60, TimeUnit.SECONDS)).isTrue();
                assertThat(Files.readString(told.get(i))).contains("written");
            }
        } finally {
            programs.forEach(Process::destroyForcibly);
        }
        assertSound(place);
    }

    private static void assertSound(Place place) {
        try (Records records = Records.open(place, Clock.systemUTC())) {
            assertThat(records.count(Kind.CLINIC)).isEqualTo(AT_ONCE);
            assertThat(Verifier.verify(records, List.of(), Reassessment.NONE).differences())
                    .isEmpty();
        }
        File[] left = place.folder().toFile().listFiles((in, name) -> name.endsWith("-opening"));
        assertThat(left).as("nothing is left of the turns").isEmpty();
    }
}
