package org.steamwright.report.language;

import java.util.Arrays;
import java.util.List;

/**
 * An English sentence whose places are marked, so that another language can be put in its stead without guessing where the
 * sentence ends and what somebody wrote begins. The marks are control characters, which no page, picture or property shows.
 */
public final class Sentence {

    static final char OPEN = '\u0002';
    static final char CLOSE = '\u0003';
    static final String PLACE = "%s";

    private Sentence() {}

    /**
     * The sentence with something at each of its places.
     *
     * @param template English, with {@code %s} for each place; a catalogue holds it as it is
     * @param parts each a text, a figure, or a sentence of this kind
     * @throws IllegalArgumentException if there are not as many parts as places
     */
    public static String of(String template, Object... parts) {
        StringBuilder text = new StringBuilder(template.length() + 32);
        int from = 0;
        for (Object part : parts) {
            int place = template.indexOf(PLACE, from);
            if (place < 0) {
                throw new IllegalArgumentException("more parts than places in: " + template);
            }
            text.append(template, from, place).append(OPEN).append(part).append(CLOSE);
            from = place + PLACE.length();
        }
        if (template.indexOf(PLACE, from) >= 0) {
            throw new IllegalArgumentException("fewer parts than places in: " + template);
        }
        return text.append(template, from, template.length()).toString();
    }

    /** Those of the parts that say something, each for itself, with a separator between them. */
    public static String list(String separator, List<String> parts) {
        List<String> said = parts.stream().filter(part -> !part.isBlank()).toList();
        if (said.size() < 2) {
            return String.join("", said);
        }
        StringBuilder text = new StringBuilder();
        String between = "";
        for (String part : said) {
            text.append(between).append(OPEN).append(part).append(CLOSE);
            between = separator;
        }
        return text.toString();
    }

    /** The same for parts one by one. */
    public static String list(String separator, String... parts) {
        return list(separator, Arrays.asList(parts));
    }

    /** The sentence in English, without marks. */
    public static String plain(String text) {
        StringBuilder plain = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c != OPEN && c != CLOSE && c != Speaker.FOREIGN && c != Speaker.OWN) {
                plain.append(c);
            }
        }
        return plain.toString();
    }
}
