package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import org.steamwright.filing.FactTree.NoPlaceException;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolderException;

/** A visit without those entries that somebody has begun and not finished, so that the rest of it can be assessed meanwhile. */
final class Unfinished {

    /** Later and deeper places first, so that taking one away moves none of the others. */
    private static final Comparator<FactPath> BACKWARDS =
            Comparator.comparing(Unfinished::key).reversed();

    private final byte[] visitFile;
    private final int entries;

    private Unfinished(byte[] visitFile, int entries) {
        this.visitFile = visitFile;
        this.entries = entries;
    }

    /**
     * What is left of a visit.
     *
     * @param visitFile as it could not be read
     * @param problems why not
     * @return empty if something is wrong and not only unfinished, or if what lacks something can't be left out
     */
    static Optional<Unfinished> of(byte[] visitFile, List<Problem> problems) {
        try {
            FactTree tree = FactTree.ofFacts(StatedFacts.of(Filing.VISIT_FILE, visitFile));
            SortedSet<FactPath> entries = new TreeSet<>(BACKWARDS);
            for (Problem problem : problems) {
                Optional<FactPath> entry = problem.isUnfinished()
                        ? FactPath.of(problem.way()).map(Unfinished::whole).filter(Unfinished::canBeLeftOut)
                        : Optional.empty();
                if (entry.isEmpty()) {
                    return Optional.empty();
                }
                entries.add(entry.get());
            }
            for (FactPath entry : entries) {
                tree = tree.without(entry);
            }
            return Optional.of(new Unfinished(DraftChange.text(tree), entries.size()));
        } catch (VisitFolderException | NoPlaceException | DraftRefusal notSo) {
            return Optional.empty();
        }
    }

    /** Of a clock that was read only on one side, all that is said of it. */
    private static FactPath whole(FactPath path) {
        List<String> steps = path.steps();
        return path.first().equals("instrument-checks")
                        && steps.size() > 3
                        && steps.get(2).equals("clock")
                ? new FactPath(steps.subList(0, 3))
                : path;
    }

    /** An entry of a list or the load of a run; never a run, whose number others name, nor what runs stand on. */
    private static boolean canBeLeftOut(FactPath path) {
        List<String> steps = path.steps();
        boolean isEntry = FactPath.place(path.last()).isPresent();
        return switch (path.first()) {
            case "people", "checklists" -> isEntry;
            case "instrument-checks" -> isEntry || path.last().equals("clock");
            case "job-sheet" -> isEntry && steps.size() > 2;
            case "runs" -> steps.size() > 2 && (isEntry || path.last().equals("load"));
            default -> false;
        };
    }

    private static String key(FactPath path) {
        StringBuilder key = new StringBuilder();
        path.steps()
                .forEach(step -> key.append('/')
                        .append(
                                FactPath.place(step).isPresent()
                                        ? String.format(Locale.ROOT, "%06d", Integer.parseInt(step))
                                        : step));
        return key.toString();
    }

    /** Puts the text of what is left in the place of the visit file. */
    void write(Path folder) throws IOException {
        Files.write(folder.resolve(Filing.VISIT_FILE), visitFile);
    }

    /** How many entries were left out. */
    int entries() {
        return entries;
    }
}
