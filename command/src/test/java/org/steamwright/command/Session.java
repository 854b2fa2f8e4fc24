package org.steamwright.command;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Runs command lines in a folder as a terminal would, and keeps what they said. */
final class Session {
    /** What a command line did. */
    record Said(ExitStatus status, String out, String err) {}

    private final Path folder;

    Session(Path folder) {
        this.folder = folder;
    }

    Path folder() {
        return folder;
    }

    /** Runs arguments without a terminal. */
    Said run(String... typed) {
        return run(Surroundings.Terminal.NONE, "", typed);
    }

    /** Runs arguments with somebody at the terminal who types these lines. */
    Said answered(String lines, String... typed) {
        return run(new Surroundings.Terminal(true, false, false, false, true), lines, typed);
    }

    Said run(Surroundings.Terminal terminal, String lines, String... typed) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        ExitStatus status = Steamwright.run(
                new Surroundings(folder, new BufferedReader(new StringReader(lines)), out, err, terminal), typed);
        return new Said(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    /** Runs a line as a shell would cut it: blanks part, single quotes keep together. */
    Said line(String line) {
        return line("", line);
    }

    /** The same with somebody at the terminal who types these lines, unless there are none. */
    Said line(String typed, String line) {
        List<String> words = new ArrayList<>();
        StringBuilder word = new StringBuilder();
        boolean isQuoted = false;
        boolean isOpen = false;
        for (char sign : line.toCharArray()) {
            if (sign == '\'') {
                isQuoted = !isQuoted;
                isOpen = true;
            } else if (sign == ' ' && !isQuoted) {
                if (isOpen) {
                    words.add(word.toString());
                }
                word.setLength(0);
                isOpen = false;
            } else {
                word.append(sign);
                isOpen = true;
            }
        }
        if (isOpen) {
            words.add(word.toString());
        }
        if (!words.get(0).equals("steamwright")) {
            throw new IllegalArgumentException("an example begins with steamwright: " + line);
        }
        String[] arguments = words.subList(1, words.size()).toArray(String[]::new);
        return typed.isEmpty() ? run(arguments) : answered(typed, arguments);
    }

    Path write(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }

    /** Copies the invented office of the documentation into the folder. */
    Path office() throws IOException {
        Path from = Path.of(System.getProperty("steamwright.root"), "docs", "examples", "office");
        Path to = Files.createDirectories(folder.resolve("office"));
        try (Stream<Path> files = Files.list(from)) {
            for (Path file : files.toList()) {
                Files.copy(file, to.resolve(file.getFileName()), StandardCopyOption.REPLACE_EXISTING);
            }
        }
        return to;
    }

    /** Every file below the folder with its content, to see that nothing was touched. */
    TreeMap<String, String> files() throws IOException {
        TreeMap<String, String> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.filter(Files::isRegularFile).toList()) {
                files.put(
                        folder.relativize(path).toString(),
                        Files.size(path) > 10_000_000
                                ? "large"
                                : new String(Files.readAllBytes(path), StandardCharsets.ISO_8859_1));
            }
        }
        return files;
    }
}
