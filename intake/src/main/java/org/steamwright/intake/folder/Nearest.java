package org.steamwright.intake.folder;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the known word that a mistyped one was probably meant to be. */
final class Nearest {

    /** Characters of a word that may be mistyped; to compare longer ones with every zone takes a second. */
    private static final int LONGEST_WORD = 80;

    private Nearest() {}

    /** The closest candidate, if it is close enough to be worth naming. */
    static Optional<String> to(String word, Collection<String> candidates) {
        if (word.length() > LONGEST_WORD) {
            return Optional.empty();
        }
        String lower = fold(word);
        String best = "";
        int bestDistance = Integer.MAX_VALUE;
        for (String candidate : candidates) {
            String other = fold(candidate);
            int distance = distance(lower, other);
            int allowed = Math.max(2, Math.max(lower.length(), other.length()) / 3);
            boolean isCut = lower.length() >= 3 && (other.startsWith(lower) || lower.startsWith(other));
            boolean isNear = distance <= allowed && distance < other.length();
            if ((isNear || isCut) && distance < bestDistance) {
                best = candidate;
                bestDistance = distance;
            }
        }
        return best.isEmpty() ? Optional.empty() : Optional.of(best);
    }

    /** A sentence to append to a message, with a leading blank; empty if nothing is close. */
    static String didYouMean(String word, Collection<String> candidates) {
        return to(word, candidates)
                .map(near -> " Did you mean \"" + near + "\"?")
                .orElse("");
    }

    private static String fold(String word) {
        return word.toLowerCase(Locale.ROOT).replace('_', '-').replace(' ', '-');
    }

    /** Edits from one word to the other, a swap of neighbours counted once. */
    private static int distance(String a, String b) {
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            for (int j = 0; j <= b.length(); j++) {
                if (i == 0 || j == 0) {
                    d[i][j] = i + j;
                    continue;
                }
                int same = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                d[i][j] = Math.min(Math.min(d[i - 1][j] + 1, d[i][j - 1] + 1), d[i - 1][j - 1] + same);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
