package org.steamwright.house;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.command.ExitStatus;

/** The desk is a door of its own and knows nothing of the command line; both end with the numbers of one page all the same. */
class ExitNumbersTest {

    private static final int SECONDS = 120;

    @TempDir
    Path folder;

    private int desk(String... arguments) throws IOException, InterruptedException {
        List<String> line = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                "org.steamwright.desk.Desk",
                "--no-browser",
                "--port",
                "0"));
        line.addAll(List.of(arguments));
        Process desk = new ProcessBuilder(line)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("said").toFile())
                .start();
        try {
            assertThat(desk.waitFor(SECONDS, TimeUnit.SECONDS))
                    .as("the desk ends at once")
                    .isTrue();
            return desk.exitValue();
        } finally {
            desk.destroyForcibly();
        }
    }

    @Test
    void what_the_desk_can_not_do_has_the_number_that_the_command_line_gives_it() throws Exception {
        Files.writeString(folder.resolve("a-file"), "no record");

        assertThat(desk("--nowhere")).isEqualTo(ExitStatus.USAGE.number());
        assertThat(desk("--settings", "any")).as("settings without users").isEqualTo(ExitStatus.USAGE.number());
        assertThat(desk("--server-file", "missing")).isEqualTo(ExitStatus.UNREADABLE.number());
        assertThat(desk("--record", "a-file")).isEqualTo(ExitStatus.SURROUNDINGS.number());
    }
}
