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
            int allowed = Math.max(2, Math.max(lower.length(), other.length()) / 3);
            boolean isCut = lower.length() >= 3 && (other.startsWith(lower) || lower.startsWith(other));
            int most = Math.min(bestDistance - 1, isCut ? Integer.MAX_VALUE : Math.min(allowed, other.length() - 1));
            int distance = distance(lower, other, most);
            if (distance <= most) {
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

    /** Edits from one word to the other, a swap of neighbours counted once; something larger than {@code most} if more. */
    private static int distance(String a, String b, int most) {
        if (Math.abs(a.length() - b.length()) > most) {
            return Integer.MAX_VALUE;
        }
        int[] before = new int[b.length() + 1];
        int[] above = new int[b.length() + 1];
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int[] free = before;
            before = above;
            above = row;
            row = free;
            row[0] = i;
            int least = i;
            for (int j = 1; j <= b.length(); j++) {
                int same = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                int edits = Math.min(Math.min(above[j], row[j - 1]) + 1, above[j - 1] + same);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    edits = Math.min(edits, before[j - 2] + 1);
                }
                row[j] = edits;
                least = Math.min(least, edits);
            }
            if (least > most + 1) {
                return Integer.MAX_VALUE;
            }
        }
        return row[b.length()];
    }
}
