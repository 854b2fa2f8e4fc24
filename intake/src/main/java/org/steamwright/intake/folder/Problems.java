package org.steamwright.intake.folder;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Collects the problems of one file, so that all of them are told together. */
final class Problems {

    private final String file;
    private final String words;
    private final String firstLine;
    private final String page;
    private final List<Problem> found;

    Problems(String file) {
        this(
                file,
                "the visit file",
                "steamwright-visit: " + VisitFolder.FORMAT_VERSION,
                "docs/reference/visit-folder.md",
                new ArrayList<>());
    }

    private Problems(String file, String words, String firstLine, String page, List<Problem> found) {
        this.file = file;
        this.words = words;
        this.firstLine = firstLine;
        this.page = page;
        this.found = found;
    }

    /** The same collection for a register that the visit file names; its problems carry its own name. */
    Problems ofRegister(String name) {
        return new Problems(
                name, "the register " + name, Register.VERSION_KEY + ": " + Register.FORMAT_VERSION, page, found);
    }

    /** A collection for a file that is no visit. */
    static Problems of(OtherYaml.Kind kind) {
        return new Problems(kind.file(), kind.words(), kind.firstLine(), kind.page(), new ArrayList<>());
    }

    /** The same collection for a task list; its problems carry its own name. */
    Problems ofList(String name) {
        return new Problems(name, "the task list " + name, firstLine, page, found);
    }

    /** The same collection for an after-change matrix; its problems carry its own name. */
    Problems ofMatrix(String name) {
        return new Problems(
                name,
                "the after-change matrix " + name,
                "steamwright-after-change: 1",
                "docs/reference/register.md",
                found);
    }

    /** What the file is, in words. */
    String words() {
        return words;
    }

    /** The line with which such a file begins. */
    String firstLine() {
        return firstLine;
    }

    /** Where an example of such a file stands. */
    String page() {
        return page;
    }

    String file() {
        return file;
    }

    void add(MessageId mistake, int line, Way way, Flaw flaw) {
        Problem problem = new Problem(mistake.id(), file, line, way, flaw);
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

    /** All of them in the order of the file. */
    List<Problem> sorted() {
        List<Problem> sorted = new ArrayList<>(found);
        sorted.sort(Comparator.comparingInt(Problem::line));
        return sorted;
    }

    void throwIfAny() throws VisitFolderException {
        if (!found.isEmpty()) {
            throw new VisitFolderException(sorted());
        }
    }
}
