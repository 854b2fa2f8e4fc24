package org.steamwright.visit.validity;

import java.util.Set;

/**
 * Packaging as far as it can be compared: its kind and how many layers.
 *
 * <p>Read from the words that people write. What can't be told apart is compared by its words alone.
 *
 * @param kind pouch, wrap, container, or the words as written; blank for unwrapped
 * @param layers 0 for unwrapped
 */
record Wrapping(String kind, int layers) {

    private static final Set<String> UNWRAPPED = Set.of("none", "no", "unwrapped", "not wrapped", "without", "open");
    private static final Set<String> TWICE = Set.of("twice", "double", "two", "2");

    /** Whether nothing is said about it. */
    static boolean isUnstated(String text) {
        return text.isBlank();
    }

    static Wrapping of(String text) {
        String key = ValidatedState.key(text);
        if (UNWRAPPED.contains(key)) {
            return new Wrapping("", 0);
        }
        int layers = 1;
        for (String word : key.split(" ", -1)) {
            if (TWICE.contains(word)) {
                layers = 2;
            }
        }
        return new Wrapping(kind(key), layers);
    }

    private static String kind(String key) {
        boolean isPouch = key.contains("pouch") || key.contains("bag");
        boolean isWrap = key.contains("wrap");
        boolean isContainer = key.contains("container");
        int kinds = (isPouch ? 1 : 0) + (isWrap ? 1 : 0) + (isContainer ? 1 : 0);
        if (kinds != 1) {
            return key;
        }
        return isPouch ? "pouch" : isWrap ? "wrap" : "container";
    }

    /** Whether steam gets through this one no harder than through the other. Kinds are not compared with each other. */
    boolean isNoHarderThan(Wrapping other) {
        return layers == 0 || (kind.equals(other.kind) && layers <= other.layers);
    }
}
