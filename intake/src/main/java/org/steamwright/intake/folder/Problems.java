package org.steamwright.intake.folder;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Collects the problems of one file, so that all of them are told together. */
final class Problems {

    private final String file;
    private final String words;
    private final List<Problem> found;

    Problems(String file) {
        this(file, "the visit file", new ArrayList<>());
    }

    private Problems(String file, String words, List<Problem> found) {
        this.file = file;
        this.words = words;
        this.found = found;
    }

    /** The same collection for a register that the visit file names; its problems carry its own name. */
    Problems ofRegister(String name) {
        return new Problems(name, "the register " + name, found);
    }

    /** The same collection for a task list; its problems carry its own name. */
    Problems ofList(String name) {
        return new Problems(name, "the task list " + name, found);
    }

    /** What the file is, in words. */
    String words() {
        return words;
    }

    String file() {
        return file;
    }

    void add(Mistake mistake, int line, String path, String text) {
        Problem problem = new Problem(mistake.id(), file, line, path, text);
        if (!found.contains(problem)) {
            found.add(problem);
        }
    }

    boolean isEmpty() {
        return found.isEmpty();
    }

    /** Number of problems so far; tells whether a step added some. */
    int count() {
        return found.size();
    }

    void throwIfAny() throws VisitFolderException {
        if (!found.isEmpty()) {
            List<Problem> sorted = new ArrayList<>(found);
            sorted.sort(Comparator.comparingInt(Problem::line));
            throw new VisitFolderException(sorted);
        }
    }
}
