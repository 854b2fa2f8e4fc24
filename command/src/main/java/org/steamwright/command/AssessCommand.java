package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.visit.Visit;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** Assesses a visit folder or a single recording. */
final class AssessCommand implements Command {

    @Override
    public CommandSpec spec() {
        CommandSpec spec = CommandSpec.create();
        spec.usageMessage()
                .description(
                        "Assess a visit folder or a single recording: print the verdict with the figures that decided",
                        "it, and write result.json and report.pdf. Files that are there are never overwritten unless",
                        "--replace is given and they are earlier results of the same recordings.")
                .footer(
                        "",
                        "A visit folder says everything in its visit.yaml; then only --criteria, --out and the options",
                        "for what is printed and written make sense. For a single recording the command asks at the",
                        "terminal for what the file cannot tell; in a script the options above answer it.");
        Options.argument(spec, "PATH", true, "Visit folder, its visit.yaml, or a single recording (CSV).");
        Options.value(spec, "--criteria", "NAME|FILE", "Judge by this preset or criteria file.");
        Options.flag(
                spec, "--json", "Print the result as JSON and nothing else; write no files unless --out is given.");
        Options.flag(spec, "--plain", "Print one fact a line, fields parted by tabulators.");
        Options.flag(spec, "--quiet", "Print nothing but errors; the exit status tells the verdict.");
        Options.value(
                spec,
                "--out",
                "DIR",
                "Write into this folder; otherwise beside visit.yaml, or for a recording where you are.");
        Options.flag(spec, "--replace", "Let earlier results of the same recordings give way.");
        Options.flag(spec, "--no-report", "Write no report.pdf.");
        Options.flag(spec, "--no-input", "Never ask; what is missing is an error.");
        Declared.options(spec);
        return spec;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright assess demo",
                "steamwright assess demo --json --no-report",
                "steamwright assess run.csv --kind empty-chamber --type N --at '121 °C' --hold '15 min'"
                        + " --criteria eu-en13060 --no-report");
    }

    @Override
    public ExitStatus run(ParseResult typed, Surroundings surroundings) throws Refusal, IOException {
        String name = Options.findArgument(typed).orElseThrow();
        Path path = surroundings.resolve(name);
        if (!Files.exists(path)) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    name + ": there is no such file or folder.",
                    "Name a visit folder, its visit.yaml or a recording; 'steamwright demo' makes a folder to try.");
        }
        Optional<Path> out = Options.find(typed, "--out").map(surroundings::resolve);
        boolean isJson = Options.isSet(typed, "--json");
        boolean isVisit = Assessing.isVisit(path);
        Path folder = out.orElse(!isVisit ? surroundings.resolve("") : beside(path));
        Assessing.Wishes wishes = new Assessing.Wishes(
                isJson,
                Options.isSet(typed, "--plain"),
                Options.isSet(typed, "--quiet"),
                !Options.isSet(typed, "--no-report"),
                !isJson || out.isPresent(),
                folder,
                Options.isSet(typed, "--replace"));
        if (isVisit) {
            List<String> idle = Declared.said(typed);
            if (!idle.isEmpty()) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        String.join(", ", idle) + ": only for a single recording; " + name + " is a visit.",
                        "Write it in the visit.yaml instead (docs/reference/visit-folder.md).");
            }
            return Assessing.folder(path, Options.find(typed, "--criteria"), wishes, surroundings);
        }
        surroundings.progress("reading " + name + " …");
        boolean isAsking = surroundings.terminal().isAsking() && !Options.isSet(typed, "--no-input");
        try {
            Visit visit = Declared.visit(path, typed, isAsking, new Presets(), surroundings);
            return Assessing.visit(visit, true, wishes, surroundings);
        } catch (UnreadableFileException unreadable) {
            throw unreadable(unreadable);
        }
    }

    static Refusal unreadable(UnreadableFileException unreadable) {
        List<String> lines = new ArrayList<>();
        lines.add(unreadable.getMessage() == null ? unreadable.file() : unreadable.getMessage());
        lines.add("Nothing was assessed.");
        return new Refusal(ExitStatus.UNREADABLE, lines);
    }

    private static Path beside(Path path) {
        if (Files.isDirectory(path)) {
            return path;
        }
        Path folder = path.toAbsolutePath().getParent();
        return folder == null ? path.toAbsolutePath() : folder;
    }
}
