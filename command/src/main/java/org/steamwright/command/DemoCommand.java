package org.steamwright.command;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.propagation.LinearPropagation;
import org.steamwright.report.language.Language;
import org.steamwright.report.picture.Pictures;
import org.steamwright.simulator.DemoVisit;

/** Writes the visit of an invented clinic, assesses it and says where the report lies. */
final class DemoCommand implements Command {
    /** Folder that the demo is written into, below the folder that the program was started in. */
    private static final String USUAL_FOLDER = "demo";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Write the visit folder of an invented clinic, assess it, and tell the clinic's year from its record.",
                "The year lies beside it in a folder with '-year' added. Ends by saying where the report lies. The recordings are simulated and marked so. Can be repeated: the same files come out.");
        usage.value("--out", "DIR", "Folder to write into; 'demo' if not given.");
        usage.flag("--plain", "Print one fact a line, fields parted by tabulators.");
        usage.flag("--quiet", "Print nothing but errors.");
        usage.flag("--no-report", "Make result.json only, no report.pdf.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright demo", "steamwright demo --out demo --quiet");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Path folder = surroundings.resolve(typed.find("--out").orElse(USUAL_FOLDER));
        surroundings.progress("simulating the demo visit …");
        try {
            DemoVisit.write(folder);
        } catch (FileAlreadyExistsException taken) {
            throw new Refusal(
                    ExitStatus.USAGE, taken.getFile(), "Nothing was written. Name a new folder with --out DIR.");
        }
        Assessing.Wishes wishes = new Assessing.Wishes(
                false,
                typed.isSet("--plain"),
                typed.isSet("--quiet"),
                !typed.isSet("--no-report"),
                !typed.isSet("--no-report"),
                true,
                folder,
                true,
                LinearPropagation.INSTANCE,
                Pictures.NONE,
                List.of(Language.ENGLISH));
        Assessing.folder(folder, Optional.empty(), Optional.empty(), Optional.empty(), wishes, surroundings);
        if (!wishes.isQuiet() && !wishes.isPlain()) {
            surroundings.say("");
            DemoYear.tell(DemoYear.folder(folder), surroundings);
            surroundings.say("");
            surroundings.say(
                    "This was an invented clinic with simulated recordings. One of its runs is meant to fail.");
            if (wishes.isReporting()) {
                surroundings.say(
                        "The report lies in " + surroundings.shown(folder.resolve(Assessing.report(Language.ENGLISH)))
                                + ", beside it a certificate of one page for each steriliser.");
            }
        }
        return ExitStatus.PASS;
    }
}
