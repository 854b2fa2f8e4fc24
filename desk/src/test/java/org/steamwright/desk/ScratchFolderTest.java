package org.steamwright.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.WebRoutes;

/** Folders for what is on its way go with the desk that made them. */
class ScratchFolderTest {

    @TempDir
    private Path folder;

    private DeskServer.Setup setup(Path temporary, int port) {
        return new DeskServer.Setup.Maker(WebRoutes.all(), Doorkeeper.single("Alex Sample (invented)"), temporary)
                .port(port)
                .make();
    }

    @Test
    void goes_with_what_is_in_it_when_the_desk_is_closed() throws IOException {
        try (DeskServer desk = DeskServer.start(setup(folder, 0))) {
            assertThat(desk.port()).isPositive();
            assertThat(left(folder)).hasSize(1);
            Files.writeString(folder.resolve(left(folder).get(0)).resolve("half an upload"), "x");
        }
        assertThat(left(folder)).isEmpty();
        assertThat(folder).exists();
    }

    @Test
    void goes_when_the_desk_could_not_be_opened() throws IOException {
        try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
            assertThatThrownBy(() -> DeskServer.start(setup(folder, taken.getLocalPort())))
                    .isInstanceOf(IOException.class);
        }
        assertThat(left(folder)).isEmpty();
    }

    /** An interrupt takes the same way, but a build in the background has it ignored, and so would the program. */
    @ParameterizedTest
    @ValueSource(strings = {"--training", "--no-browser"})
    void goes_when_the_program_is_told_to_stop(String kind) throws Exception {
        assumeThat(System.getProperty("os.name")).as("signals are sent by kill").doesNotContain("Windows");
        Path temporary = Files.createDirectory(folder.resolve("tmp"));
        List<String> line = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Djava.io.tmpdir=" + temporary,
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                Desk.class.getName(),
                "--record",
                "record",
                "--name",
                "Alex Sample (invented)",
                "--port",
                "0",
                "--no-browser"));
        if (!line.contains(kind)) {
            line.add(kind);
        }
        Process desk = new ProcessBuilder(line)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        try (BufferedReader said = desk.inputReader()) {
            List<String> lines = new ArrayList<>();
            String one = said.readLine();
            while (one != null && !one.contains(" is open at ")) {
                lines.add(one);
                one = said.readLine();
            }
            assertThat(one).as("what it said: " + lines).isNotNull();
            assertThat(left(temporary)).as("there is one while it is open").isNotEmpty();
            int sent = new ProcessBuilder("kill", "-TERM", String.valueOf(desk.pid()))
                    .start()
                    .waitFor();
            assertThat(sent).isZero();
            assertThat(desk.waitFor(60, TimeUnit.SECONDS)).as("it stops").isTrue();
        } finally {
            desk.destroyForcibly();
        }
        assertThat(left(temporary)).isEmpty();
    }

    private static List<String> left(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> String.valueOf(file.getFileName()))
                    .filter(name -> name.startsWith("steamwright-"))
                    .toList();
        }
    }
}
