package org.steamwright.command;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the word that a mistyped one was probably meant to be. */
final class Near {
    private Near() {}

    /** The nearest word, if fewer than half of its letters differ. */
    static Optional<String> to(String typed, Collection<String> words) {
        String best = "";
        int least = Integer.MAX_VALUE;
        for (String word : words) {
            int edits = edits(typed.toLowerCase(Locale.ROOT), word.toLowerCase(Locale.ROOT));
            if (edits < least) {
                least = edits;
                best = word;
            }
        }
        return 2 * least < Math.max(best.length(), 1) ? Optional.of(best) : Optional.empty();
    }

    /** Letters to insert, remove or exchange. */
    private static int edits(String from, String to) {
        int[] above = new int[to.length() + 1];
        for (int j = 0; j <= to.length(); j++) {
            above[j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            int[] row = new int[to.length() + 1];
            row[0] = i;
            for (int j = 1; j <= to.length(); j++) {
                int exchanged = above[j - 1] + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                row[j] = Math.min(exchanged, 1 + Math.min(above[j], row[j - 1]));
            }
            above = row;
        }
        return above[to.length()];
    }
}
