package org.steamwright.intake.table;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * By what a file is known again as one of the kind that a logger writes. Two files are of one kind if all four are equal,
 * where case and outer blanks don't matter.
 *
 * @param delimiter word for the mark between the cells
 * @param columns the cells of the header as written, empty text for a column without one
 * @param units the cells of the row of units; no element if there is none
 * @param preamble what stands before the first colon, equals sign or delimiter of each line before the header, where it
 *     has a letter and no digit: "Serial" of "Serial: 4711"
 */
public record FileKind(String delimiter, List<String> columns, List<String> units, List<String> preamble) {

    public FileKind {
        delimiter = delimiter.strip().toLowerCase(Locale.ROOT);
        columns = plain(columns);
        units = plain(units);
        preamble = plain(preamble);
    }

    /** A delimiter as people say it; {@link org.steamwright.intake.ReadingChoices.Builder#answer} takes the same word. */
    public static String delimiterWord(char mark) {
        return switch (mark) {
            case ',' -> "comma";
            case ';' -> "semicolon";
            case '\t' -> "tab";
            case '|' -> "pipe";
            default -> String.valueOf(mark);
        };
    }

    private static List<String> plain(List<String> texts) {
        List<String> plain = new ArrayList<>();
        for (String text : texts) {
            plain.add(text.strip());
        }
        return List.copyOf(plain);
    }

    /** Whether both are files of one kind. */
    public boolean isSameAs(FileKind other) {
        return delimiter.equals(other.delimiter)
                && isSame(columns, other.columns)
                && isSame(units, other.units)
                && isSame(preamble, other.preamble);
    }

    private static boolean isSame(List<String> one, List<String> other) {
        if (one.size() != other.size()) {
            return false;
        }
        for (int i = 0; i < one.size(); i++) {
            if (!one.get(i).equalsIgnoreCase(other.get(i))) {
                return false;
            }
        }
        return true;
    }
}
