package org.steamwright.criteriasets;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** Finds what somebody probably meant. */
final class NearestWord {

    private NearestWord() {}

    /** The words, nearest first; equally near ones keep their order. */
    static List<String> sorted(String wanted, Collection<String> words) {
        String lower = wanted.toLowerCase(Locale.ROOT);
        return words.stream()
                .sorted(Comparator.comparingInt(word -> distance(lower, word)))
                .toList();
    }

    /** The nearest word. */
    static String of(String wanted, Collection<String> words) {
        return sorted(wanted, words).get(0);
    }

    /** Number of letters to insert, delete or exchange. */
    static int distance(String one, String other) {
        int[] above = new int[other.length() + 1];
        for (int column = 0; column <= other.length(); column++) {
            above[column] = column;
        }
        for (int row = 1; row <= one.length(); row++) {
            int[] current = new int[other.length() + 1];
            current[0] = row;
            for (int column = 1; column <= other.length(); column++) {
                int exchange = above[column - 1] + (one.charAt(row - 1) == other.charAt(column - 1) ? 0 : 1);
                current[column] = Math.min(exchange, 1 + Math.min(above[column], current[column - 1]));
            }
            above = current;
        }
        return above[other.length()];
    }
}
