package org.steamwright.intake.table;

/**
 * Fills words and numbers into a sentence, the same under every locale: {@code %s} and {@code %d} both stand for the next part
 * as {@link String#valueOf(Object)} writes it, {@code %%} for a per cent sign.
 *
 * <p>Numbers of {@code String.formatted} come out in Arabic digits on some laptops, and it costs a short command a tenth
 * of its time.
 */
public final class Sentence {

    private static final int LONGEST_SHOWN = 60;

    private Sentence() {}

    /** The sentence with its parts filled in. */
    public static String of(String pattern, Object... parts) {
        StringBuilder said = new StringBuilder(pattern.length() + 16 * parts.length);
        int next = 0;
        int i = 0;
        while (i < pattern.length()) {
            char c = pattern.charAt(i++);
            if (c != '%') {
                said.append(c);
            } else if (pattern.charAt(i++) == '%') {
                said.append('%');
            } else {
                said.append(parts[next++]);
            }
        }
        if (next != parts.length) {
            throw new IllegalArgumentException("a sentence with too many parts: " + pattern);
        }
        return said.toString();
    }

    /** The beginning of a line that is shown as it stands in a file. */
    static String cut(String line) {
        return line.length() > LONGEST_SHOWN ? line.substring(0, LONGEST_SHOWN) + "…" : line;
    }
}
