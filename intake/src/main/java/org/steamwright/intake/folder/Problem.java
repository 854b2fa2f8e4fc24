package org.steamwright.intake.folder;

/**
 * Something in a visit folder that has to be mended before it can be assessed.
 *
 * @param id stable identifier such as {@code VISIT-010}, has a page in docs/messages
 * @param file name of the file it stands in, without folder
 * @param line in that file from 1; 0 if it has no line
 * @param way to the value
 * @param flaw what was found, what was expected, what to do
 */
public record Problem(String id, String file, int line, Way way, Flaw flaw) {

    /** About a file as a whole. */
    public static Problem ofFile(MessageId mistake, String file, int line, String sentence, String remedy) {
        return new Problem(mistake.id(), file, line, Way.WHOLE, Flaw.of(sentence, remedy));
    }

    /** Whether something is not stated yet, so that what lacks it is unfinished and not wrong. */
    public boolean isUnfinished() {
        return id.equals(Mistake.MISSING_KEY.id()) || flaw.sort() == Flaw.Sort.NOT_CHOSEN;
    }

    /** Whether there is no visit at all: no file that describes it. */
    public boolean isNoVisit() {
        return id.equals(Mistake.NO_VISIT.id());
    }

    /** What was found, what was expected, what to do, as whoever wrote the file reads it. */
    public String text() {
        return flaw.text();
    }

    /** File, line and way, as far as they are known. */
    public String where() {
        return where(file, line, way);
    }

    static String where(String file, int line, Way way) {
        StringBuilder where = new StringBuilder(file);
        if (line > 0) {
            where.append(", line ").append(line);
        }
        if (!way.written().isEmpty()) {
            where.append(", ").append(way);
        }
        return where.toString();
    }

    @Override
    public String toString() {
        return id + " " + where() + ": " + text();
    }
}
