package org.steamwright.command;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;

/** What surrounds a run of the program: the folder it was started in, its three streams and what they are. */
public final class Surroundings {
    private final Path folder;
    private final BufferedReader in;
    private final PrintStream out;
    private final PrintStream err;
    private final Terminal terminal;

    /**
     * What is known about the streams.
     *
     * @param isAsking somebody can be asked: standard input is a terminal
     * @param isShowing standard output is a terminal
     * @param isWatched standard error is a terminal, so progress may be shown there
     * @param isStyled bold and reversed words are wanted
     * @param isUnicode the terminal can show more than ASCII
     */
    public record Terminal(
            boolean isAsking, boolean isShowing, boolean isWatched, boolean isStyled, boolean isUnicode) {
        /** No stream is a terminal. */
        public static final Terminal NONE = new Terminal(false, false, false, false, true);
    }

    /**
     * @param folder against which relative paths are resolved
     * @param in standard input
     * @param out takes results, in UTF-8
     * @param err takes messages, in UTF-8
     * @param terminal what the streams are
     */
    public Surroundings(Path folder, BufferedReader in, OutputStream out, OutputStream err, Terminal terminal) {
        this.folder = folder;
        this.in = in;
        this.out = new PrintStream(out, false, StandardCharsets.UTF_8);
        this.err = new PrintStream(err, true, StandardCharsets.UTF_8);
        this.terminal = terminal;
    }

    Terminal terminal() {
        return terminal;
    }

    /** The path that was typed, against the folder the program was started in. */
    Path resolve(String typed) {
        return folder.resolve(typed);
    }

    /** The path as it is best shown: relative to the folder the program was started in where it lies below. */
    String shown(Path path) {
        Path absolute = path.toAbsolutePath().normalize();
        Path base = folder.toAbsolutePath().normalize();
        return absolute.startsWith(base) && !absolute.equals(base)
                ? base.relativize(absolute).toString()
                : absolute.toString();
    }

    /** One line of results. */
    void say(String line) {
        out.print(terminal.isUnicode() ? line : Ascii.of(line));
        out.print('\n');
    }

    void say(Iterable<String> lines) {
        for (String line : lines) {
            say(line);
        }
    }

    /** One line of messages. */
    void warn(String line) {
        out.flush();
        err.print(terminal.isUnicode() ? line : Ascii.of(line));
        err.print('\n');
        err.flush();
    }

    /** Standard output for bytes. */
    PrintStream out() {
        return out;
    }

    /** Shows what is being done, if somebody watches; a blank text takes it away again. */
    void progress(String text) {
        if (terminal.isWatched()) {
            out.flush();
            err.print("\r\u001b[K" + (terminal.isUnicode() ? text : Ascii.of(text)));
            err.flush();
        }
    }

    /** Asks and returns the answer without outer blanks; blank at the end of the input. */
    String ask(String question) throws IOException {
        return line(question).strip();
    }

    private String line(String question) throws IOException {
        out.flush();
        err.print(terminal.isUnicode() ? question : Ascii.of(question));
        err.flush();
        String answer = in.readLine();
        return answer == null ? "" : answer;
    }

    /**
     * Asks for a secret, which a terminal does not show, and takes it as it was typed, blanks and all; empty at the end of the
     * input or if nothing was typed. The caller clears it.
     */
    Optional<char[]> secret(String question) throws IOException {
        Console console = terminal.isAsking() ? System.console() : null;
        char[] typed;
        if (console == null) {
            typed = line(question).toCharArray();
        } else {
            out.flush();
            char[] read = console.readPassword("%s", question);
            typed = read == null ? new char[0] : read;
        }
        return typed.length == 0 ? Optional.empty() : Optional.of(typed);
    }

    /** Everything that was said is on its way; false if standard output could not take it. */
    boolean flush() {
        err.flush();
        return !out.checkError();
    }
}
