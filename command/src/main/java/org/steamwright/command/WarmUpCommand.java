package org.steamwright.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.OutputStream;
import java.io.Reader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Runs the usual commands once in an empty folder, so that the launcher can keep the classes they load in an archive.
 * Not shown in the help.
 */
final class WarmUpCommand implements Command {
    /** How the launcher calls it. */
    static final String WORD = "warm-up";

    @Override
    public Usage usage() {
        Usage usage = new Usage("Loads what the usual commands load.");
        usage.argument("DIR", true, "A folder that is thrown away afterwards.");
        usage.argument("KIND", true, "What to load: report, the first time, or answer.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of();
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Path folder = surroundings.resolve(typed.findArgument(0).orElseThrow());
        Surroundings silent = new Surroundings(
                folder,
                new BufferedReader(Reader.nullReader()),
                OutputStream.nullOutputStream(),
                OutputStream.nullOutputStream(),
                Surroundings.Terminal.NONE);
        String recording = "demo/recordings/03-a-empty.csv";
        if (typed.findArgument(1).equals(Optional.of("report"))) {
            Steamwright.run(silent, "demo");
            Steamwright.run(silent, assessed(recording, "--out", "single"));
            return ExitStatus.PASS;
        }
        Steamwright.run(silent, "assess", "demo", "--json");
        Steamwright.run(silent, assessed(recording, "--json"));
        Steamwright.run(silent, assessed(recording, "--no-report", "--out", "answer"));
        Steamwright.run(silent, "read", recording);
        Steamwright.run(silent, "criteria");
        Steamwright.run(silent, "--help");
        return ExitStatus.PASS;
    }

    private static String[] assessed(String recording, String... more) {
        List<String> typed = new ArrayList<>(List.of("assess", recording, "--kind", "empty-chamber", "--type", "B"));
        typed.addAll(List.of("--at", "134 °C", "--criteria", "eu-en13060", "--zone", "UTC"));
        typed.addAll(List.of("--channel", "T1=reference-point"));
        for (String column : List.of("T2", "T3", "T4", "T5")) {
            typed.addAll(List.of("--channel", column + "=free-chamber"));
        }
        typed.addAll(List.of("--channel", "P=pressure", "--pressure", "absolute"));
        typed.addAll(List.of(more));
        return typed.toArray(String[]::new);
    }
}
