package org.steamwright.command;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/**
 * Runs the usual commands once in an empty folder, so that the launcher can keep the classes they load in an archive.
 * Not shown in the help.
 */
final class WarmUpCommand implements Command {
    /** How the launcher calls it. */
    static final String WORD = "warm-up";

    @Override
    public CommandSpec spec() {
        CommandSpec spec = CommandSpec.create();
        Options.argument(spec, "DIR", true, "An empty folder that is thrown away afterwards.");
        return spec;
    }

    @Override
    public List<String> examples() {
        return List.of();
    }

    @Override
    public ExitStatus run(ParseResult typed, Surroundings surroundings) throws Refusal, IOException {
        Path folder = surroundings.resolve(Options.findArgument(typed).orElseThrow());
        Surroundings silent = new Surroundings(
                folder,
                new java.io.BufferedReader(java.io.Reader.nullReader()),
                OutputStream.nullOutputStream(),
                OutputStream.nullOutputStream(),
                Surroundings.Terminal.NONE);
        Steamwright.run(silent, "demo");
        Steamwright.run(silent, "assess", "demo", "--json");
        for (String recording : recordings(folder.resolve("demo").resolve("recordings"))) {
            Steamwright.run(silent, "read", recording);
            Steamwright.run(
                    silent,
                    "assess",
                    recording,
                    "--json",
                    "--kind",
                    "empty-chamber",
                    "--type",
                    "B",
                    "--at",
                    "134 °C",
                    "--criteria",
                    "eu-en13060",
                    "--zone",
                    "UTC",
                    "--pressure",
                    "absolute");
        }
        Steamwright.run(silent, "criteria");
        Steamwright.run(silent, "--help");
        return ExitStatus.PASS;
    }

    private static List<String> recordings(Path folder) throws IOException {
        List<String> found = new ArrayList<>();
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.csv")) {
            for (Path file : files) {
                found.add(file.toString());
            }
        }
        return found;
    }
}
