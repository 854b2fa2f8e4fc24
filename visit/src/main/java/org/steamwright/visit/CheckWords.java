package org.steamwright.visit;

import java.text.Normalizer;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Words for the result of a check: those to choose from, and words of before, when results were typed. The list is closed and
 * short on purpose. What says no or not yet counts by its beginning, whatever stands behind it; what says yes counts only if
 * every part of the text is on the list, since the words behind 'good, but' may say anything.
 */
public final class CheckWords {

    /** What a text says, from good to bad. */
    enum Says {
        GOOD,
        /** Something was done to it, which says nothing of how it is. */
        WORK,
        NOT_APPLICABLE,
        UNDONE,
        UNKNOWN,
        FAILED
    }

    /** The words to choose from, as a visit file writes them. */
    public static final List<String> CHOSEN =
            List.of("good", "done", "failed", "not-done", "not-possible", "not-applicable");

    /** The same without the word that only says that something was done, for what is looked at. */
    public static final List<String> CHOSEN_OF_CHECKS =
            CHOSEN.stream().filter(word -> !word.equals("done")).toList();

    /** Choices of the desk before there was a list. */
    private static final Set<String> CHOSEN_BEFORE = Set.of("bad");

    private static final Pattern MARKS = Pattern.compile("\\p{M}+");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}\\p{N}]+");
    private static final Pattern BETWEEN_PARTS = Pattern.compile("[,;:]");

    private static final Map<String, Says> KNOWN = new LinkedHashMap<>();

    static {
        // English
        say(Says.GOOD, "good", "ok", "okay", "pass", "passes", "passed", "in order", "met", "uniform change");
        say(Says.WORK, "done", "adjusted", "cleaned", "replaced", "renewed", "exchanged", "repaired");
        say(Says.NOT_APPLICABLE, "not applicable", "n/a", "not due", "does not apply");
        say(Says.UNDONE, "not done", "not possible", "open", "not tested", "not checked", "awaited");
        say(Says.FAILED, "fail", "fails", "failed", "failure", "bad", "defect", "defective", "insufficient", "faulty");
        say(
                Says.FAILED,
                "not passed",
                "not good",
                "not ok",
                "not in order",
                "no pass",
                "not met",
                "broken",
                "worn out");
        // German
        say(Says.GOOD, "gut", "in Ordnung", "i. O.", "io", "bestanden", "erfüllt", "einwandfrei");
        say(
                Says.WORK,
                "erledigt",
                "gemacht",
                "eingestellt",
                "gereinigt",
                "ersetzt",
                "erneuert",
                "getauscht",
                "repariert");
        say(Says.NOT_APPLICABLE, "trifft nicht zu", "nicht zutreffend", "nicht anwendbar", "entfällt", "nicht fällig");
        say(
                Says.UNDONE,
                "nicht gemacht",
                "nicht möglich",
                "offen",
                "nicht geprüft",
                "nicht durchgeführt",
                "nicht erledigt");
        say(
                Says.FAILED,
                "schlecht",
                "fehlerhaft",
                "fehlgeschlagen",
                "defekt",
                "Mangel",
                "Mängel",
                "mangelhaft",
                "kaputt");
        say(
                Says.FAILED,
                "nicht in Ordnung",
                "nicht i. O.",
                "n. i. O.",
                "nio",
                "nicht gut",
                "nicht ok",
                "nicht bestanden");
        say(Says.FAILED, "nicht erfüllt", "durchgefallen", "undicht", "ungenügend");
        // French
        say(Says.GOOD, "bon", "bonne", "en ordre", "en bon état", "conforme", "réussi", "réussie", "satisfaisant");
        say(Says.WORK, "fait", "faite", "réglé", "nettoyé", "remplacé", "renouvelé", "réparé");
        say(Says.NOT_APPLICABLE, "sans objet", "non applicable", "ne s’applique pas", "pas prévu");
        say(Says.UNDONE, "non fait", "pas fait", "pas possible", "impossible", "non contrôlé", "non testé", "à faire");
        say(Says.FAILED, "mauvais", "mauvaise", "en défaut", "défaut", "défectueux", "défectueuse", "échec", "échoué");
        say(
                Says.FAILED,
                "non conforme",
                "pas conforme",
                "pas bon",
                "pas bonne",
                "pas en ordre",
                "insuffisant",
                "cassé");
    }

    private CheckWords() {}

    private static void say(Says says, String... words) {
        for (String word : words) {
            know(plain(word), says);
            know(plain(word.replace("ä", "ae").replace("ö", "oe").replace("ü", "ue")), says);
        }
    }

    private static void know(String word, Says says) {
        Says before = KNOWN.put(word, says);
        if (before != null && before != says) {
            throw new IllegalStateException("the word %s says two things".formatted(word));
        }
    }

    /** Whether it is a word to choose from, or one that was in its place before. */
    public static boolean isChosen(String result) {
        return CHOSEN_BEFORE.contains(plain(result))
                || CHOSEN.stream().anyMatch(word -> plain(word).equals(plain(result)));
    }

    /** The result as people read it: a chosen word without its hyphen, what somebody typed as it stands. */
    public static String shown(String result) {
        return CHOSEN.contains(result.strip()) ? result.strip().replace('-', ' ') : result;
    }

    /** What the text says. */
    static Says of(String text) {
        String words = plain(text);
        if (words.isEmpty() || begins(words, Says.UNDONE)) {
            return Says.UNDONE;
        }
        if (begins(words, Says.FAILED)) {
            return Says.FAILED;
        }
        Says known = KNOWN.get(words);
        if (known != null) {
            return known;
        }
        // they stand in the order from good to bad
        return BETWEEN_PARTS
                .splitAsStream(text)
                .map(part -> KNOWN.getOrDefault(plain(part), Says.UNKNOWN))
                .max(Comparator.naturalOrder())
                .orElse(Says.UNKNOWN);
    }

    private static boolean begins(String words, Says says) {
        return KNOWN.entrySet().stream()
                .anyMatch(one ->
                        one.getValue() == says && (words.equals(one.getKey()) || words.startsWith(one.getKey() + " ")));
    }

    /** Without case, accents, points and hyphens, which people type or do not. */
    private static String plain(String text) {
        String bare =
                MARKS.matcher(Normalizer.normalize(text, Normalizer.Form.NFKD)).replaceAll("");
        return BETWEEN_WORDS
                .matcher(bare.toLowerCase(Locale.ROOT).replace("ß", "ss"))
                .replaceAll(" ")
                .strip();
    }
}
