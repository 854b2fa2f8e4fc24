package org.steamwright.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The files with which an office runs the desk: what they name is there. */
class OfficeFilesTest {

    private static final Path ROOT = Path.of("..").toAbsolutePath().normalize();
    private static final Path FILES = ROOT.resolve("packaging/office");
    private static final Pattern OPTION = Pattern.compile("(?<![\\w-])--[a-z][a-z-]+");

    @TempDir
    private Path folder;

    private static Set<String> ofTheDesk() {
        return new CommandLine(new Desk())
                .getCommandSpec().options().stream()
                        .map(CommandLine.Model.OptionSpec::longestName)
                        .filter(name -> !name.equals("--help") && !name.equals("--version"))
                        .collect(Collectors.toCollection(TreeSet::new));
    }

    /** What the page of commands, which is the program's own help, says of one of them. */
    private static String section(String word) throws IOException {
        String page = Files.readString(ROOT.resolve("docs/reference/command-line.md"));
        int start = page.indexOf("\n## " + word + "\n");
        assertThat(start).as(word).isPositive();
        int end = page.indexOf("\n## ", start + 4);
        return page.substring(start, end < 0 ? page.length() : end);
    }

    private static Set<String> options(String text) {
        return OPTION.matcher(text)
                .results()
                .map(found -> found.group())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static List<String> lines(String file, String start) throws IOException {
        return Files.readAllLines(FILES.resolve(file)).stream()
                .filter(line -> line.startsWith(start))
                .toList();
    }

    @Test
    void every_option_that_the_files_name_is_one_of_the_program() throws IOException {
        Set<String> service = options(String.join("\n", lines("steamwright-desk.service", "ExecStart=")));
        assertThat(service).contains("--users", "--public", "--server-file").isSubsetOf(ofTheDesk());
        Set<String> container = options(String.join("\n", lines("Containerfile", "ENTRYPOINT"))
                + String.join("\n", lines("Containerfile", "CMD")));
        assertThat(container).contains("--users", "--public", "--server-file").isSubsetOf(ofTheDesk());
        Set<String> backup = options(String.join("\n", lines("steamwright-backup.service", "ExecStart=")));
        assertThat(backup).contains("--server-file").isSubsetOf(options(section("backup")));
        assertThat(options(section("restore"))).contains("--server-file");
        assertThat(options(section("verify"))).contains("--server-file", "--head");
    }

    @Test
    void the_pages_name_every_option_of_the_desk() throws IOException {
        assertThat(options(section("desk"))).containsAll(ofTheDesk());
        String page = Files.readString(ROOT.resolve("docs/how-to/open-the-desk.md"));
        Set<String> listed = page.lines()
                .filter(line -> line.startsWith("| `--"))
                .map(line -> options(line).iterator().next())
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(listed).isEqualTo(ofTheDesk());
    }

    @Test
    void the_how_to_points_to_every_file() throws IOException {
        String page = Files.readString(ROOT.resolve("docs/how-to/run-the-desk-for-an-office.md"));
        try (var files = Files.list(FILES)) {
            for (Path file : files.toList()) {
                assertThat(page).contains("(../../packaging/office/" + file.getFileName() + ")");
            }
        }
        assertThat(page).contains("restore", "createdb");
    }

    @Test
    void the_service_may_use_more_memory_than_the_program_asks_for() throws IOException {
        String launcher = Files.readString(ROOT.resolve("steamwright"));
        assertThat(launcher).contains("-Xmx1g");
        assertThat(lines("steamwright-desk.service", "MemoryMax=")).containsExactly("MemoryMax=1.5G");
        assertThat(Files.readString(FILES.resolve("nginx.conf")))
                .contains("proxy_set_header Host $http_host;", "return 301 https://");
    }

    /** Outside check: systemd reads the units, with the program and its user put where this machine has some. */
    @Test
    void systemd_understands_the_units() throws Exception {
        Path verifier = Path.of("/usr/bin/systemd-analyze");
        Assumptions.assumeTrue(Files.isExecutable(verifier), "no systemd on this machine");
        List<String> command = new ArrayList<>(List.of(verifier.toString(), "verify", "--man=no"));
        try (var files = Files.list(FILES)) {
            for (Path file : files.toList()) {
                String name = file.getFileName().toString();
                if (name.endsWith(".service") || name.endsWith(".timer")) {
                    Path copy = folder.resolve(name);
                    Files.writeString(
                            copy,
                            Files.readString(file)
                                    .replace("/opt/steamwright/steamwright", "/bin/sh")
                                    .replace("User=steamwright", "User=root"));
                    command.add(copy.toString());
                }
            }
        }
        assertThat(command).hasSize(6);
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        assertThat(said.lines().filter(line -> line.contains("steamwright")).toList())
                .isEmpty();
    }
}
