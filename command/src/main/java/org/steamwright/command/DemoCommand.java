package org.steamwright.command;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.steamwright.simulator.DemoVisit;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** Writes the visit of an invented clinic, assesses it and says where the report lies. */
final class DemoCommand implements Command {
    /** Folder that the demo is written into, below the folder that the program was started in. */
    private static final String USUAL_FOLDER = "demo";

    @Override
    public CommandSpec spec() {
        CommandSpec spec = CommandSpec.create();
        spec.usageMessage()
                .description(
                        "Write the visit folder of an invented clinic, assess it and say where the report lies.",
                        "The recordings are simulated and marked so. Can be repeated: the same files come out.");
        Options.value(spec, "--out", "DIR", "Folder to write into; 'demo' if not given.");
        Options.flag(spec, "--plain", "Print one fact a line, fields parted by tabulators.");
        Options.flag(spec, "--quiet", "Print nothing but errors.");
        Options.flag(spec, "--no-report", "Make result.json only, no report.pdf.");
        return spec;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright demo", "steamwright demo --out demo --quiet");
    }

    @Override
    public ExitStatus run(ParseResult typed, Surroundings surroundings) throws Refusal, IOException {
        Path folder = surroundings.resolve(Options.find(typed, "--out").orElse(USUAL_FOLDER));
        surroundings.progress("simulating the demo visit …");
        try {
            DemoVisit.write(folder);
        } catch (FileAlreadyExistsException taken) {
            throw new Refusal(
                    ExitStatus.USAGE, taken.getFile(), "Nothing was written. Name a new folder with --out DIR.");
        }
        Assessing.Wishes wishes = new Assessing.Wishes(
                false,
                Options.isSet(typed, "--plain"),
                Options.isSet(typed, "--quiet"),
                !Options.isSet(typed, "--no-report"),
                true,
                folder,
                true);
        Assessing.folder(folder, Optional.empty(), wishes, surroundings);
        if (!wishes.isQuiet() && !wishes.isPlain()) {
            surroundings.say("");
            surroundings.say(
                    "This was an invented clinic with simulated recordings. One of its runs is meant to fail.");
            if (wishes.isReporting()) {
                surroundings.say("The report lies in " + surroundings.shown(folder.resolve(Assessing.REPORT)));
            }
        }
        return ExitStatus.PASS;
    }
}
