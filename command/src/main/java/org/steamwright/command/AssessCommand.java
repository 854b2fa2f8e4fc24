package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.propagation.LinearPropagation;
import org.steamwright.assessment.propagation.MonteCarloPropagation;
import org.steamwright.assessment.propagation.Propagation;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.report.picture.Pictures;
import org.steamwright.visit.Visit;

/** Assesses a visit folder or a single recording. */
final class AssessCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Assess a visit folder or a single recording.",
                "Prints the verdict with the figures that decided it and writes result.json and report.pdf.",
                "Files that are there are never overwritten unless --replace is given and they are earlier",
                "results of the same recordings.");
        usage.footer(
                "",
                "A visit folder says everything in its visit.yaml; then only --criteria, --out and the options",
                "for what is printed and written make sense. For a single recording the command asks at the",
                "terminal for what the file cannot tell; in a script the options above answer it.");
        usage.argument("PATH", true, "Visit folder, its visit.yaml, or a single recording (CSV).");
        usage.value("--criteria", "NAME|FILE", "Judge by this preset or criteria file.");
        usage.value(
                "--earlier",
                "DIR|FILE",
                "Earlier visits: a folder of them or a result.json. A recording used there already is remarked.");
        usage.value(
                "--propagation",
                "WORD",
                "How doubt is propagated to figures: linear (JCGM 100, the usual) or monte-carlo (JCGM 101).");
        usage.flag("--json", "Print the result as JSON and nothing else; write no files unless --out is given.");
        usage.flag("--plain", "Print one fact a line, fields parted by tabulators.");
        usage.flag("--quiet", "Print nothing but errors; the exit status tells the verdict.");
        usage.value(
                "--out",
                "DIR",
                "Write into this folder; otherwise beside visit.yaml, or for a recording where you are.");
        usage.flag("--replace", "Let earlier results of the same recordings give way.");
        usage.flag("--no-report", "Write no report.pdf.");
        usage.flag("--certificates", "Write a certificate of one page for each steriliser, too.");
        Languages.place(usage);
        usage.flag("--no-input", "Never ask; what is missing is an error.");
        Declared.options(usage);
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright assess demo",
                "steamwright assess demo --json --no-report",
                "steamwright assess demo --language en,de --certificates",
                "steamwright assess run.csv --kind empty-chamber --type N --at '121 °C' --hold '15 min'"
                        + " --criteria eu-en13060 --no-report");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        String name = typed.findArgument(0).orElseThrow();
        Path path = surroundings.resolve(name);
        if (!Files.exists(path)) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    name + ": there is no such file or folder.",
                    "Name a visit folder, its visit.yaml or a recording; 'steamwright demo' makes a folder to try.");
        }
        Optional<Path> out = typed.find("--out").map(surroundings::resolve);
        boolean isJson = typed.isSet("--json");
        boolean isVisit = Assessing.isVisit(path);
        Path folder = out.orElse(!isVisit ? surroundings.resolve("") : beside(path));
        Assessing.Wishes wishes = new Assessing.Wishes(
                isJson,
                typed.isSet("--plain"),
                typed.isSet("--quiet"),
                !typed.isSet("--no-report"),
                typed.isSet("--certificates"),
                !isJson || out.isPresent(),
                folder,
                typed.isSet("--replace"),
                propagation(typed),
                isVisit ? Assessing.picturesIn(beside(path)) : Pictures.NONE,
                Languages.of(typed));
        if (isVisit) {
            List<String> idle = Declared.said(typed);
            if (!idle.isEmpty()) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        String.join(", ", idle) + ": only for a single recording; " + name + " is a visit.",
                        "Write it in the visit.yaml instead (docs/reference/visit-folder.md).");
            }
            return Assessing.folder(
                    path,
                    typed.find("--criteria"),
                    earlier(typed, surroundings),
                    Reading.givenProfiles(typed, surroundings),
                    wishes,
                    surroundings);
        }
        surroundings.progress("reading " + name + " …");
        boolean isAsking = surroundings.terminal().isAsking() && !typed.isSet("--no-input");
        try {
            Visit visit = Declared.visit(path, typed, isAsking, new Presets(), surroundings);
            return Assessing.visit(visit, true, wishes, surroundings);
        } catch (UnreadableFileException unreadable) {
            throw unreadable(unreadable);
        }
    }

    /** Draws always begin with the same seed, so that the same recordings give the same result. */
    private static Propagation propagation(Typed typed) throws Refusal {
        String word = typed.find("--propagation").orElse("linear");
        return switch (word) {
            case "linear" -> LinearPropagation.INSTANCE;
            case "monte-carlo" -> new MonteCarloPropagation(1, MonteCarloPropagation.USUAL_TRIALS);
            default ->
                throw new Refusal(
                        ExitStatus.USAGE,
                        "--propagation " + word + ": found '" + word + "', expected linear or monte-carlo.",
                        "Write one of these words, or leave the option away for linear.");
        };
    }

    static Refusal unreadable(UnreadableFileException unreadable) {
        List<String> lines = new ArrayList<>();
        lines.add(unreadable.getMessage() == null ? unreadable.file() : unreadable.getMessage());
        lines.add("Nothing was assessed.");
        return new Refusal(ExitStatus.UNREADABLE, lines);
    }

    private static Optional<Path> earlier(Typed typed, Surroundings surroundings) throws Refusal {
        Optional<String> name = typed.find("--earlier");
        Optional<Path> path = name.map(surroundings::resolve);
        if (path.isPresent() && !Files.exists(path.get())) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    name.get() + ": there is no such file or folder.",
                    "Name a folder with earlier visits, or a result.json.");
        }
        return path;
    }

    private static Path beside(Path path) {
        if (Files.isDirectory(path)) {
            return path;
        }
        Path folder = path.toAbsolutePath().getParent();
        return folder == null ? path.toAbsolutePath() : folder;
    }
}
