package org.steamwright.intake.folder;

/**
 * Something in a visit folder that has to be mended before it can be assessed.
 *
 * @param id stable identifier such as {@code VISIT-010}, has a page in docs/messages
 * @param file name of the file it stands in, without folder
 * @param line in that file from 1; 0 if it has no line
 * @param path way to the value, list places counted from 1, such as {@code runs[2].channels.T3}; may be empty
 * @param text what was found, what was expected, what to do
 * @param missing name of the file that is not there, if that is the problem; else blank
 */
public record Problem(String id, String file, int line, String path, String text, String missing) {

    /** Not about a file that is missing. */
    public Problem(String id, String file, int line, String path, String text) {
        this(id, file, line, path, text, "");
    }

    /** Whether something is not stated yet, so that what lacks it is unfinished and not wrong. */
    public boolean isUnfinished() {
        boolean isNameMissing = id.equals(Mistake.AMBIGUOUS_NAME.id()) && text.startsWith("found no ");
        return id.equals(Mistake.MISSING_KEY.id()) || isNameMissing;
    }

    /** File, line and path, as far as they are known. */
    public String where() {
        StringBuilder where = new StringBuilder(file);
        if (line > 0) {
            where.append(", line ").append(line);
        }
        if (!path.isEmpty()) {
            where.append(", ").append(path);
        }
        return where.toString();
    }

    @Override
    public String toString() {
        return id + " " + where() + ": " + text;
    }
}
