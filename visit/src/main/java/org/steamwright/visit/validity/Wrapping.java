package org.steamwright.visit.validity;

import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Packaging as far as it can be compared: its kind and how many layers.
 *
 * <p>Read from the words that people write. Where one of them is not on the list, it is compared by its words alone: with nothing
 * but the same words.
 *
 * @param kind pouch, wrap, container, or the words as written; blank for unwrapped
 * @param layers 0 for unwrapped
 */
record Wrapping(String kind, int layers) {

    private static final Set<String> UNWRAPPED = Set.of("none", "no", "unwrapped", "not wrapped", "without", "open");
    private static final Map<String, String> KINDS = Map.ofEntries(
            Map.entry("pouch", "pouch"),
            Map.entry("pouches", "pouch"),
            Map.entry("pouched", "pouch"),
            Map.entry("bag", "pouch"),
            Map.entry("bags", "pouch"),
            Map.entry("bagged", "pouch"),
            Map.entry("wrap", "wrap"),
            Map.entry("wraps", "wrap"),
            Map.entry("wrapped", "wrap"),
            Map.entry("wrapping", "wrap"),
            Map.entry("container", "container"),
            Map.entry("containers", "container"));

    private static final Set<String> ONCE = Set.of("once", "single", "one", "1");
    private static final Set<String> TWICE = Set.of("twice", "double", "two", "2");

    /** Words beside a kind that make it no harder. */
    private static final Set<String> BESIDE =
            Set.of("in", "a", "an", "of", "and", "paper", "film", "sheet", "sealed", "layer", "layers");

    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}\\p{N}]+");

    /** Whether nothing is said about it. */
    static boolean isUnstated(String text) {
        return text.isBlank();
    }

    static Wrapping of(String text) {
        String key = ValidatedState.key(text);
        if (UNWRAPPED.contains(key)) {
            return new Wrapping("", 0);
        }
        Set<String> kinds = new HashSet<>();
        Set<Integer> layers = new HashSet<>();
        for (String word : BETWEEN_WORDS.split(key)) {
            if (KINDS.containsKey(word)) {
                kinds.add(KINDS.get(word));
            } else if (ONCE.contains(word)) {
                layers.add(1);
            } else if (TWICE.contains(word)) {
                layers.add(2);
            } else if (!BESIDE.contains(word)) {
                // 'three pouches', 'not double', 'Beutel': what the word means for steam nobody knows
                return new Wrapping(key, 1);
            }
        }
        return kinds.size() == 1 && layers.size() < 2
                ? new Wrapping(
                        kinds.iterator().next(), layers.isEmpty() ? 1 : layers.iterator().next())
                : new Wrapping(key, 1);
    }

    /** Whether steam gets through this one no harder than through the other. Kinds are not compared with each other. */
    boolean isNoHarderThan(Wrapping other) {
        return layers == 0 || (kind.equals(other.kind) && layers <= other.layers);
    }
}
