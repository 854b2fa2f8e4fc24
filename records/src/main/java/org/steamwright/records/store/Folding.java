package org.steamwright.records.store;

import java.text.Normalizer;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Text as it is compared when somebody searches: without case, accents and punctuation. */
public final class Folding {

    private static final Pattern MARKS = Pattern.compile("\\p{M}+");
    private static final Pattern PUNCTUATION = Pattern.compile("[^\\p{L}\\p{N}]+");
    private static final int LONGEST = 100;

    /** Letters that no decomposition leads to their plain neighbour. */
    private static final Map<Character, String> PLAIN =
            Map.of('ø', "o", 'ł', "l", 'đ', "d", 'ð', "d", 'þ', "th", 'æ', "ae", 'œ', "oe", 'ı', "i", 'ħ', "h");

    private Folding() {}

    /** The whole text as one word. */
    public static String whole(String text) {
        return cut(PUNCTUATION.matcher(plain(text)).replaceAll(""));
    }

    /** The words of the text, in order. */
    public static List<String> words(String text) {
        return Arrays.stream(PUNCTUATION.split(plain(text), -1))
                .filter(word -> !word.isEmpty())
                .map(Folding::cut)
                .toList();
    }

    private static String cut(String word) {
        return word.length() <= LONGEST ? word : word.substring(0, word.offsetByCodePoints(0, LONGEST / 2));
    }

    private static String plain(String text) {
        String decomposed = Normalizer.normalize(text, Normalizer.Form.NFKD);
        // upper case first: the sharp s has two letters there
        String lower = MARKS.matcher(decomposed)
                .replaceAll("")
                .toUpperCase(Locale.ROOT)
                .toLowerCase(Locale.ROOT);
        if (lower.chars().allMatch(sign -> sign < 128)) {
            return lower;
        }
        return lower.chars()
                .mapToObj(sign -> PLAIN.getOrDefault((char) sign, Character.toString(sign)))
                .collect(Collectors.joining());
    }
}
