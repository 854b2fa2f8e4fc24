package org.steamwright.command;

import java.util.List;

/** The command can't go on, with the status it ends with and what to say. */
final class Refusal extends Exception {
    private static final long serialVersionUID = 1L;

    private final ExitStatus status;
    private final transient List<String> lines;

    /**
     * @param status to end with
     * @param lines what was found, what was expected, what to do
     */
    Refusal(ExitStatus status, List<String> lines) {
        super(String.join(" ", lines));
        this.status = status;
        this.lines = List.copyOf(lines);
    }

    Refusal(ExitStatus status, String... lines) {
        this(status, List.of(lines));
    }

    ExitStatus status() {
        return status;
    }

    List<String> lines() {
        return lines;
    }
}
