package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.whatif.Change;
import org.steamwright.visit.whatif.WhatIf;

/** Judges visits again under other premises and lists what would change. */
final class WhatIfCommand implements Command {
    /** How deep visit folders may lie below the folder that was named. */
    private static final int DEPTH = 4;

    private static final String VISIT = "visit.yaml";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Judge again under other premises and list what changes.",
                "Another criteria set, decision rule, formula, clock or instrument error; several are made at once.",
                "A folder with many visit folders is looked through whole: that is the look-back after an",
                "instrument came back out of tolerance. Writes nothing; the verdict on record stays what it is.");
        usage.footer(
                "",
                "'±' tries both signs: --error 'TL-07=±0.3 K' judges with +0.3 K and with −0.3 K.",
                "The error is what the instrument read too high, beyond what its certificate corrects.");
        usage.argument("PATH", true, "Visit folder, its visit.yaml, or a folder with visit folders.");
        usage.value("--criteria", "NAME|FILE", "Judge by this preset or criteria file.");
        usage.value("--rule", "WORD", "Decision rule for every limit: simple, guarded or four-words.");
        usage.value("--formula", "NAME", "Theoretical temperature by iapws-r7-97 or short-formula.");
        usage.values(
                "--clock", "NAME=SHIFT", "Move the clock of an instrument, a channel or a recording: 'TL-07=+2 s'.");
        usage.values("--error", "ID=ERROR", "Let an instrument read too high: 'TL-07=+0.3 K', 'PL-02=±2 kPa'.");
        usage.flag("--plain", "Print one difference a line, fields parted by tabulators.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright whatif demo --criteria eu-en13060",
                "steamwright whatif demo --rule simple",
                "steamwright whatif . --error 'TL-01=±0.4 K'");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        List<List<Change>> premises = Premises.of(typed, new Presets(), surroundings);
        String name = typed.findArgument(0).orElseThrow();
        Path path = surroundings.resolve(name);
        List<Path> folders = folders(path, name);
        DifferenceText text = new DifferenceText(typed.isSet("--plain"));
        List<Refusal> unread = new ArrayList<>();
        int judged = 0;
        for (Path folder : folders) {
            Optional<AssessedVisit> visit = assessed(folder, folders.size() > 1, unread, surroundings);
            if (visit.isEmpty()) {
                continue;
            }
            for (List<Change> changes : premises) {
                Optional<Change> idle = changes.stream()
                        .filter(change -> !change.concerns(visit.get().visit()))
                        .findFirst();
                if (idle.isEmpty()) {
                    judged++;
                    surroundings.say(text.of(surroundings.shown(folder), WhatIf.of(visit.get(), changes)));
                } else if (folders.size() == 1) {
                    throw idle(idle.get(), name);
                }
            }
        }
        if (folders.size() > 1) {
            surroundings.say(text.ofAll(folders.size(), unread.size(), judged));
        }
        if (!unread.isEmpty()) {
            List<String> lines = new ArrayList<>();
            unread.forEach(refusal -> lines.addAll(refusal.lines()));
            throw new Refusal(ExitStatus.UNREADABLE, lines);
        }
        return ExitStatus.PASS;
    }

    private static Refusal idle(Change change, String name) {
        return new Refusal(
                ExitStatus.USAGE,
                change.words() + ": nothing in " + name + " is touched by that.",
                "Use the id of an instrument with a certificate, the name of a channel or of a recording, as visit.yaml spells it, and the"
                        + " unit of what it measures.");
    }

    private static Optional<AssessedVisit> assessed(
            Path folder, boolean isOneOfMany, List<Refusal> unread, Surroundings surroundings)
            throws Refusal, IOException {
        surroundings.progress("reading " + surroundings.shown(folder) + " …");
        try {
            Visit visit = VisitFolder.read(folder, new Presets());
            surroundings.progress("");
            return Optional.of(Visits.assess(visit));
        } catch (VisitFolderException unusable) {
            surroundings.progress("");
            Refusal refusal = Assessing.unreadable(unusable);
            if (!isOneOfMany) {
                throw refusal;
            }
            List<String> lines = new ArrayList<>();
            lines.add(surroundings.shown(folder) + ": " + refusal.lines().get(0));
            lines.addAll(refusal.lines().subList(1, refusal.lines().size()));
            unread.add(new Refusal(ExitStatus.UNREADABLE, lines));
            return Optional.empty();
        }
    }

    private static List<Path> folders(Path path, String name) throws Refusal, IOException {
        if (Files.isRegularFile(path) && Assessing.isVisit(path)) {
            return List.of(path);
        }
        if (!Files.isDirectory(path)) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    name + ": there is no such visit.",
                    "Name a visit folder, its visit.yaml, or a folder with visit folders.");
        }
        if (Files.exists(path.resolve(VISIT))) {
            return List.of(path);
        }
        try (Stream<Path> files = Files.find(path, DEPTH, (file, is) -> is.isRegularFile() && file.endsWith(VISIT))) {
            List<Path> found = files.sorted()
                    .map(file -> {
                        Path parent = file.getParent();
                        return parent == null ? file : parent;
                    })
                    .toList();
            if (found.isEmpty()) {
                throw new Refusal(
                        ExitStatus.UNREADABLE,
                        name + ": no " + VISIT + " in this folder or below it.",
                        "Name a visit folder; 'steamwright demo' makes one to try.");
            }
            return found;
        }
    }
}
