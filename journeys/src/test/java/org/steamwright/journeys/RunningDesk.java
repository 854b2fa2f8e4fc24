package org.steamwright.journeys;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The desk as a process of its own, which can be stopped as a pulled plug would stop it. */
final class RunningDesk implements AutoCloseable {

    private static final Pattern ADDRESS = Pattern.compile("(https?://[^/\\s]+)/\\S* ");
    /** As the launcher gives it. */
    private static final String USUAL_HEAP = "1g";

    private static final Duration PATIENCE = Duration.ofMinutes(5);

    private final Process process;
    private final Path said;
    private final String origin;
    private boolean isUnplugged;

    private RunningDesk(Process process, Path said, String origin) {
        this.process = process;
        this.said = said;
        this.origin = origin;
    }

    /** A desk with the invented year, its record below the folder. */
    static RunningDesk demo(Path folder) {
        return start(folder, "--demo");
    }

    /** A desk with the record in that folder; made if it is not there. */
    static RunningDesk record(Path folder, String... more) {
        List<String> arguments = new ArrayList<>(List.of("--record", "record", "--name", "Alex Sample (invented)"));
        arguments.addAll(List.of(more));
        return start(folder, arguments.toArray(String[]::new));
    }

    /**
     * Starts the program's own main class.
     *
     * @param folder that it works in
     * @param arguments besides port 0 and no browser
     */
    static RunningDesk start(Path folder, String... arguments) {
        return started(folder, USUAL_HEAP, arguments);
    }

    /** A desk with the record in that folder and less memory than usual, such as {@code 256m}. */
    static RunningDesk recordInHeap(Path folder, String heap) {
        return started(folder, heap, "--record", "record", "--name", "Alex Sample (invented)");
    }

    private static RunningDesk started(Path folder, String heap, String... arguments) {
        List<String> line = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx" + heap,
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Djava.awt.headless=true",
                "-cp",
                classPath(),
                "org.steamwright.desk.Desk",
                "--port",
                "0",
                "--no-browser"));
        line.addAll(List.of(arguments));
        try {
            Path said = Files.createTempFile(folder, "desk", ".out");
            Process process = new ProcessBuilder(line)
                    .directory(folder.toFile())
                    .redirectErrorStream(true)
                    .redirectOutput(said.toFile())
                    .start();
            Runtime.getRuntime().addShutdownHook(new Thread(process::destroyForcibly));
            return new RunningDesk(process, said, awaitAddress(process, said));
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    /** The program's own jars, without those of the tests, so that what starts is what is shipped. */
    private static String classPath() {
        String all = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        StringBuilder kept = new StringBuilder();
        for (String entry : all.split(File.pathSeparator)) {
            if (!entry.contains("playwright") && !entry.contains("test-classes") && !entry.contains("junit")) {
                kept.append(kept.length() == 0 ? "" : File.pathSeparator).append(entry);
            }
        }
        return kept.toString();
    }

    private static String awaitAddress(Process process, Path said) throws IOException {
        long until = System.nanoTime() + PATIENCE.toNanos();
        while (System.nanoTime() < until) {
            String text = Files.readString(said, StandardCharsets.UTF_8);
            Matcher address = ADDRESS.matcher(text);
            if (address.find()) {
                return address.group(1);
            }
            try {
                if (process.waitFor(20, TimeUnit.MILLISECONDS)) {
                    throw new AssertionError("the desk stopped with status " + process.exitValue() + " and said: "
                            + Files.readString(said, StandardCharsets.UTF_8));
                }
            } catch (InterruptedException stopped) {
                Thread.currentThread().interrupt();
                throw new AssertionError("stopped while the desk was starting", stopped);
            }
        }
        process.destroyForcibly();
        throw new AssertionError("the desk gave no address within " + PATIENCE + " and said: "
                + Files.readString(said, StandardCharsets.UTF_8));
    }

    /** Where it answers, such as {@code http://127.0.0.1:40123}. */
    String origin() {
        return origin;
    }

    /** What it has written to its streams so far. */
    String said() {
        try {
            return Files.readString(said, StandardCharsets.UTF_8);
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    /** Pulls the plug: the process is killed without a word to it. */
    void pullThePlug() {
        isUnplugged = true;
        process.destroyForcibly();
        try {
            if (!process.waitFor(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
                throw new AssertionError("the desk could not be killed");
            }
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }

    /** Stops it; a desk that had stopped by itself before is a failure. */
    @Override
    public void close() {
        if (!isUnplugged && !process.isAlive()) {
            throw new AssertionError(
                    "the desk had stopped with status " + process.exitValue() + " and said: " + said());
        }
        process.destroy();
        try {
            if (!process.waitFor(10, TimeUnit.SECONDS)) {
                pullThePlug();
            }
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }
}
