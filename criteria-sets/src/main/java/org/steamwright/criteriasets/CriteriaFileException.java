package org.steamwright.criteriasets;

import java.util.OptionalInt;

/** A criteria set that cannot be used: where, what was found, what was expected, and how to mend it. */
public final class CriteriaFileException extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;

    private final CriteriaMessage kind;
    private final String fileName;
    private final int line;
    private final String path;

    private CriteriaFileException(
            CriteriaMessage kind,
            String fileName,
            int line,
            String path,
            String found,
            String expected,
            String remedy) {
        super("%s %s%s%s: found %s, expected %s. %s"
                .formatted(
                        kind.id(),
                        fileName,
                        line > 0 ? ", line " + line : "",
                        path.isEmpty() ? "" : ", " + path,
                        found,
                        expected,
                        remedy));
        this.kind = kind;
        this.fileName = fileName;
        this.line = line;
        this.path = path;
    }

    /** Concerns the file as a whole. */
    static CriteriaFileException ofFile(
            CriteriaMessage kind, String fileName, String found, String expected, String remedy) {
        return new CriteriaFileException(kind, fileName, 0, "", found, expected, remedy);
    }

    /** Concerns one place in the file. */
    static CriteriaFileException ofPlace(
            CriteriaMessage kind, Place place, String found, String expected, String remedy) {
        return new CriteriaFileException(kind, place.fileName(), place.line(), place.path(), found, expected, remedy);
    }

    /** Which message. */
    public CriteriaMessage kind() {
        return kind;
    }

    /** Name of the file, or of the preset, as given. */
    public String fileName() {
        return fileName;
    }

    /** Line, counted from 1; empty where the file as a whole is meant. */
    public OptionalInt line() {
        return line > 0 ? OptionalInt.of(line) : OptionalInt.empty();
    }

    /** Path inside the file, such as 'criteria.leak-rate.at-most'; may be empty. */
    public String path() {
        return path;
    }
}
