package org.steamwright.intake.folder;

import java.util.List;
import java.util.stream.Collectors;

/** A visit folder, or what was declared about a single recording, can't be used as it is. Carries every problem found. */
public final class VisitFolderException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    VisitFolderException(List<Problem> problems) {
        super(problems.stream().map(Problem::toString).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    /** All problems, in the order of the file; at least one. */
    public List<Problem> problems() {
        return problems;
    }
}
