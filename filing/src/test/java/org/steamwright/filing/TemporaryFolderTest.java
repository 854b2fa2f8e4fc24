package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TemporaryFolderTest {

    private static final FileTime LONG_AGO = FileTime.from(Instant.parse("2026-01-05T09:00:00Z"));

    @TempDir
    private Path place;

    private Path left(String name, FileTime since) throws IOException {
        Path folder = Files.createDirectories(place.resolve(name));
        Files.createDirectory(folder.resolve("visit"));
        Files.writeString(folder.resolve("visit").resolve("visit.yaml"), "left by a pulled plug");
        Files.writeString(folder.resolve("in-use"), "");
        Files.setLastModifiedTime(folder.resolve("in-use"), since);
        return folder;
    }

    @Test
    void goes_with_all_that_is_in_it() throws IOException {
        try (TemporaryFolder work = TemporaryFolder.create(place, "visit")) {
            assertThat(work.path()).isEmptyDirectory();
            Files.createDirectories(work.path().resolve("recordings"));
            Files.writeString(work.path().resolve("recordings").resolve("one.csv"), "x");
        }
        assertThat(place).isEmptyDirectory();
    }

    @Test
    void what_a_killed_program_left_is_deleted_by_the_next() throws IOException {
        Path left = left("steamwright-visit1", LONG_AGO);
        try (TemporaryFolder work = TemporaryFolder.create(place, "visit")) {
            assertThat(left).doesNotExist();
            assertThat(work.path()).exists();
        }
    }

    @Test
    void what_is_young_or_somebody_elses_stays() throws IOException {
        Path young = left("steamwright-visit1", FileTime.from(Instant.now()));
        Path others = left("another-1", LONG_AGO);
        Path without = left("steamwright-visit2", LONG_AGO);
        Files.delete(without.resolve("in-use"));
        Path aimedAt = left("kept", LONG_AGO);
        Files.createSymbolicLink(place.resolve("steamwright-visit3"), aimedAt);
        TemporaryFolder.create(place, "visit").close();
        assertThat(young.resolve("visit").resolve("visit.yaml")).exists();
        assertThat(others).exists();
        assertThat(without).exists();
        assertThat(aimedAt.resolve("visit").resolve("visit.yaml")).exists();
    }

    /** Another process works there; then it is killed. */
    @Test
    void what_another_program_works_in_stays_until_it_is_killed() throws Exception {
        Process other = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                        Worker.class.getName(),
                        place.toString())
                .start();
        try (var said = other.inputReader()) {
            Path works = Path.of(said.readLine());
            Path outer = works.resolveSibling("in-use");
            Files.setLastModifiedTime(outer, LONG_AGO);
            TemporaryFolder.create(place, "visit").close();
            assertThat(works).isDirectory();
            other.destroyForcibly();
            assertThat(other.waitFor(60, TimeUnit.SECONDS)).isTrue();
            // the way that the first look in a process takes
            TemporaryFolder.create(place.resolve("."), "visit").close();
            assertThat(works).doesNotExist();
        } finally {
            other.destroyForcibly();
        }
        assertThat(place).isEmptyDirectory();
    }

    /** Opens a folder and waits to be killed. */
    static final class Worker {
        private Worker() {}

        public static void main(String[] arguments) throws Exception {
            TemporaryFolder work = TemporaryFolder.create(Path.of(arguments[0]), "visit");
            System.out.println(work.path());
            Thread.sleep(TimeUnit.MINUTES.toMillis(2));
            work.close();
        }
    }
}
