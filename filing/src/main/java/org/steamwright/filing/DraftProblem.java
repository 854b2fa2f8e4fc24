package org.steamwright.filing;

import java.util.List;
import java.util.Optional;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.intake.folder.Problem;

/**
 * Something for which a visit that is being written can't be assessed yet.
 *
 * @param id stable identifier such as {@code VISIT-010}, has a page in docs/messages
 * @param file in which it stands; blank for the visit itself
 * @param path of the fact; empty for the visit as a whole, or if it stands in another file
 * @param flaw what is wrong there
 */
public record DraftProblem(String id, String file, Optional<FactPath> path, Flaw flaw) {

    private static final String VISIT_FILE = "visit.yaml";

    /** A problem of a visit as it was read. */
    public static DraftProblem of(Problem problem) {
        if (problem.isNoVisit()) {
            // the folder was made for the reading and is gone, so that its name tells nobody anything
            return new DraftProblem(
                    problem.id(),
                    "",
                    Optional.empty(),
                    Flaw.of(
                            "nothing is written down of it yet, expected at least its sterilisers and its runs.",
                            "Enter them, or break the visit off."));
        }
        boolean isOfVisit = problem.file().equals(VISIT_FILE);
        return new DraftProblem(
                problem.id(),
                isOfVisit ? "" : problem.file(),
                isOfVisit ? FactPath.of(problem.way()) : Optional.empty(),
                problem.flaw());
    }

    /** The place in words, such as "run 2" and "channel T3"; a file by its name, and the visit as a whole. */
    public List<String> place() {
        return path.map(FactPath::words).orElse(List.of(file.isEmpty() ? "the visit" : file));
    }

    /** What was found, what was expected and what to do, for somebody who sees no file. */
    public String said() {
        return (flaw.sentence() + " " + flaw.remedy()).strip();
    }

    /** What is missing there, by its key; empty if something is wrong and not missing. */
    public Optional<String> missing() {
        return switch (flaw.sort()) {
            case MISSING, NOT_CHOSEN -> Optional.of(flaw.about());
            default -> Optional.empty();
        };
    }

    /** The path of the fact, or of the one that is missing there. */
    public Optional<FactPath> field() {
        return missing()
                .map(key -> path.map(here -> here.then(key)).orElse(FactPath.of(key)))
                .or(() -> path);
    }
}
