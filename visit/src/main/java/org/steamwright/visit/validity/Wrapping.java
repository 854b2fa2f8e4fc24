package org.steamwright.visit.validity;

import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Packaging as far as it can be compared: its kind and how many layers.
 *
 * <p>Read from the words that people write. What can't be told apart is compared by its words alone, and so is whatever holds a
 * word that is not known here: it may deny the others, or count layers.
 *
 * @param kind pouch, wrap, container, or the words as written; blank for unwrapped
 * @param layers 0 for unwrapped
 */
record Wrapping(String kind, int layers) {

    private static final Set<String> UNWRAPPED = Set.of("none", "no", "unwrapped", "not wrapped", "without", "open");
    private static final Set<String> POUCH = Set.of("pouch", "pouches", "pouched", "bag", "bags", "bagged");
    private static final Set<String> WRAP = Set.of("wrap", "wraps", "wrapped", "wrapping");
    private static final Set<String> CONTAINER = Set.of("container", "containers");
    private static final Set<String> UNSTATED =
            Set.of("", "unknown", "not known", "unstated", "not stated", "n a", "na");
    private static final Set<String> ONCE = Set.of("once", "single", "one");
    private static final Set<String> TWICE = Set.of("twice", "double");
    /** Words that say neither how many layers there are nor that there are none. */
    private static final Set<String> BESIDE = Set.of(
            "paper",
            "film",
            "foil",
            "plastic",
            "peel",
            "self",
            "seal",
            "sealed",
            "sealing",
            "heat",
            "sheet",
            "crepe",
            "fabric",
            "cloth",
            "linen",
            "textile",
            "blue",
            "green",
            "white",
            "clear",
            "flat",
            "sterilisation",
            "sterilization",
            "rigid",
            "metal",
            "aluminium",
            "steel",
            "small",
            "medium",
            "large",
            "layer",
            "layers",
            "in",
            "a",
            "an",
            "the",
            "and",
            "of");

    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}\\p{N}]+");

    /** Whether nothing is said about it, be it in words or by a dash. */
    static boolean isUnstated(String text) {
        return UNSTATED.contains(String.join(" ", words(ValidatedState.key(text))));
    }

    static Wrapping of(String text) {
        String key = ValidatedState.key(text);
        if (UNWRAPPED.contains(key)) {
            return new Wrapping("", 0);
        }
        List<String> words = words(key);
        List<String> kinds = words.stream()
                .map(Wrapping::kind)
                .filter(kind -> !kind.isEmpty())
                .toList();
        // a figure counts layers where it comes first: pouches have sizes
        long once = count(words, ONCE) + (words.indexOf("1") == 0 ? 1 : 0);
        // 'two pouches' may be two things that are packed once each
        long twice = count(words, TWICE) + (isOfLayers(words, "two") || isOfLayers(words, "2") ? 1 : 0);
        boolean isUnderstood = kinds.size() == 1
                && once + twice <= 1
                && kinds.size() + once + twice + count(words, BESIDE) == words.size();
        return isUnderstood ? new Wrapping(kinds.get(0), twice == 1 ? 2 : 1) : new Wrapping(key, 1);
    }

    private static List<String> words(String key) {
        return BETWEEN_WORDS.splitAsStream(key).filter(word -> !word.isEmpty()).toList();
    }

    private static boolean isOfLayers(List<String> words, String number) {
        int at = words.indexOf(number);
        return at >= 0 && at + 1 < words.size() && words.get(at + 1).equals("layers");
    }

    private static long count(List<String> words, Set<String> those) {
        return words.stream().filter(those::contains).count();
    }

    private static String kind(String word) {
        return POUCH.contains(word)
                ? "pouch"
                : WRAP.contains(word) ? "wrap" : CONTAINER.contains(word) ? "container" : "";
    }

    /** Whether steam gets through this one no harder than through the other. Kinds are not compared with each other. */
    boolean isNoHarderThan(Wrapping other) {
        return layers == 0 || (kind.equals(other.kind) && layers <= other.layers);
    }
}
