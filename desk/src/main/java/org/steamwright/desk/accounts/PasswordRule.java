package org.steamwright.desk.accounts;

import com.nulabinc.zxcvbn.StandardDictionaries;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * What a password must be: long enough, and not one that is tried first. Letters, digits and signs may be mixed as one
 * likes; spaces and every script are allowed; nothing is cut off.
 *
 * @source OWASP ASVS 5.0, 6.2.1 (8 characters at least), 6.2.4 (not among the 3,000 commonest that fit the rule), 6.2.5 (no
 *     composition rules), 6.2.9 (64 characters allowed), 6.2.11 (words of the context); from memory. The list is that of the
 *     library zxcvbn: 11,611 of its passwords have 8 characters or more
 */
public final class PasswordRule {

    static final int SHORTEST = 8;
    static final int LONGEST = 1_000;

    private static final int SHORTEST_WORD = 4;
    private static final List<String> WORDS_OF_THE_PLACE =
            List.of("steamwright", "steriliser", "sterilizer", "autoclave", "validation", "password", "technician");

    private PasswordRule() {}

    /** What speaks against a password. */
    public enum Weakness {
        TOO_SHORT,
        TOO_LONG,
        COMMON,
        OWN_NAME;

        /** The word by which the texts of pages know it. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    private static final class Commonest {
        static final Set<String> ALL = read();

        private static Set<String> read() {
            try {
                return Set.copyOf(StandardDictionaries.PASSWORDS_LOADER.load().getFrequencies());
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    /**
     * What speaks against a password, if anything does.
     *
     * @param password as typed
     * @param name of its user
     */
    public static Optional<Weakness> weakness(String password, String name) {
        int length = password.codePointCount(0, password.length());
        if (length < SHORTEST) {
            return Optional.of(Weakness.TOO_SHORT);
        }
        if (length > LONGEST) {
            return Optional.of(Weakness.TOO_LONG);
        }
        String lower = password.toLowerCase(Locale.ROOT);
        String core = lower.replaceAll("^[\\d\\W_]+|[\\d\\W_]+$", "");
        if (Commonest.ALL.contains(lower)
                || WORDS_OF_THE_PLACE.contains(core)
                || lower.codePoints().distinct().count() == 1) {
            return Optional.of(Weakness.COMMON);
        }
        String letters = lower.replaceAll("[\\W_]", "");
        for (String word : name.toLowerCase(Locale.ROOT).split("[\\W_]+")) {
            if (word.length() >= SHORTEST_WORD
                    && letters.startsWith(word)
                    && letters.length() < word.length() + SHORTEST) {
                return Optional.of(Weakness.OWN_NAME);
            }
        }
        return Optional.empty();
    }
}
