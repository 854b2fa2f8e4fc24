package org.steamwright.intake.folder;

import java.util.Collection;
import java.util.List;
import java.util.Locale;

/**
 * What is wrong at a place: as data for a door that says it in words of its own, and as whoever wrote the file reads it.
 *
 * @param sort what kind of mistake it is to somebody who fills in a form
 * @param about key that is missing, or what was found as it was written; blank where the sentence says all
 * @param expected what would have been right, as the sort says
 * @param sentence what was found and what was expected
 * @param remedy what to do, wherever it is written; may be blank
 * @param inFile what to write in the file; may be blank
 */
public record Flaw(Sort sort, String about, List<String> expected, String sentence, String remedy, String inFile) {

    /** Kinds of mistakes that a form words in its own way. */
    public enum Sort {
        /** A key is not there. */
        MISSING,
        /** A key is not there, and several things could be meant; these are expected. */
        NOT_CHOSEN,
        /** A list has no entry. */
        EMPTY,
        /** A word or name is none of those that are expected. */
        NOT_AMONG,
        /** A number stands alone; what it should be, its units, and an example are expected. */
        NO_UNIT,
        /** A text is no such quantity; what it should be, its units, and an example are expected. */
        NOT_A_QUANTITY,
        /** A pressure does not say that it is absolute; an example is expected. */
        NOT_ABSOLUTE,
        /** A text is no number. */
        NOT_A_NUMBER,
        /** A text is no whole number; the least and the most are expected. */
        NOT_A_COUNT,
        /** A text is no day of the calendar. */
        NOT_A_DAY,
        /** A text is no day with a time of day. */
        NOT_A_MOMENT,
        /** A text is no time zone. */
        NOT_A_ZONE,
        /** A value is not possible; the least and the most are expected. */
        OUTSIDE,
        /** A name is there a second time. */
        TWICE,
        /** A recording is that of another run too; its file there and the number of that run are expected nowhere else. */
        SAME_RECORDING,
        /** A file is not there. */
        NO_FILE,
        /** Something else; the sentence says it. */
        OTHER
    }

    public Flaw {
        expected = List.copyOf(expected);
        remedy = remedy.strip();
        inFile = inFile.strip();
    }

    /** Something of which the sentence says all. */
    public static Flaw of(String sentence) {
        return new Flaw(Sort.OTHER, "", List.of(), sentence, "", "");
    }

    /** Something of which the sentences say all. */
    public static Flaw of(String sentence, String remedy) {
        return of(sentence).with(remedy);
    }

    /** @param sentence with one place for the key */
    public static Flaw missing(String sentence, String key) {
        return new Flaw(Sort.MISSING, key, List.of(), said(sentence, key), "", "");
    }

    /** @param sentence with places for the key and for the choices */
    public static Flaw notChosen(String sentence, String key, Collection<String> choices) {
        return new Flaw(
                Sort.NOT_CHOSEN, key, List.copyOf(choices), said(sentence, key, String.join(", ", choices)), "", "");
    }

    /** A list without an entry. */
    public static Flaw empty(String sentence) {
        return new Flaw(Sort.EMPTY, "", List.of(), sentence, "", "");
    }

    /** @param sentence with places for what was found and for the choices */
    public static Flaw notAmong(String sentence, String found, Collection<String> choices) {
        return new Flaw(
                Sort.NOT_AMONG, found, List.copyOf(choices), said(sentence, found, String.join(", ", choices)), "", "");
    }

    /** @param sentence with places for what was found, the least and the most */
    public static Flaw outside(String sentence, String found, String least, String most) {
        return new Flaw(Sort.OUTSIDE, found, List.of(least, most), said(sentence, found, least, most), "", "");
    }

    /** @param sentence with one place for what was found */
    public static Flaw found(Sort sort, String sentence, String found) {
        return new Flaw(sort, found, List.of(), said(sentence, found), "", "");
    }

    /** @param sentence with places for what was found, what it should be, and its units */
    public static Flaw quantity(Sort sort, String sentence, String found, String noun, String units, String example) {
        return new Flaw(
                sort,
                found,
                List.of(noun, units, example),
                said(sentence, found, noun, units),
                "Write for example: " + example,
                "");
    }

    private static String said(String sentence, Object... parts) {
        return String.format(Locale.ROOT, sentence, parts);
    }

    /** The same with what would have been right. */
    public Flaw expecting(String... right) {
        return new Flaw(sort, about, List.of(right), sentence, remedy, inFile);
    }

    /** The same with what to do, wherever it is written. */
    public Flaw with(String what) {
        return new Flaw(sort, about, expected, sentence, what, inFile);
    }

    /** The same with what to write in the file. */
    public Flaw inFile(String what) {
        return new Flaw(sort, about, expected, sentence, remedy, what);
    }

    /** Everything, as whoever wrote the file reads it. */
    public String text() {
        return sentence + (remedy.isEmpty() ? "" : " " + remedy) + (inFile.isEmpty() ? "" : " " + inFile);
    }
}
