package org.steamwright.intake.register;

import java.util.List;
import java.util.stream.Collectors;
import org.steamwright.intake.folder.Problem;

/** A register, a data file or a table can't be used as it is. Carries every problem found. */
public final class RegisterException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient List<Problem> problems;

    RegisterException(List<Problem> problems) {
        super(problems.stream().map(Problem::toString).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    /** All problems, in the order of the file; at least one. */
    public List<Problem> problems() {
        return problems;
    }
}
