package org.steamwright.desk.text;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.TreeMap;
import org.steamwright.report.language.Language;

/**
 * Words of the pages in one language, by key. Each room keeps its own file, {@code <room>_<language>.properties} in UTF-8,
 * and its keys begin with the room's name. What a language lacks is said in English.
 */
public final class Words {

    /** Files of words, one a room. */
    public static final List<String> ROOMS =
            List.of("web", "today", "tablet", "path", "accounts", "office", "clinic", "runs", "training");

    private static final Map<Language, Words> ALL = new EnumMap<>(Language.class);

    static {
        for (Language language : Language.values()) {
            ALL.put(language, new Words(language));
        }
    }

    private final Language language;
    private final Map<String, String> words = new HashMap<>();

    private Words(Language language) {
        this.language = language;
        for (String room : ROOMS) {
            words.putAll(file(room, Language.ENGLISH));
            words.putAll(file(room, language));
        }
    }

    /** Words of a language. */
    public static Words in(Language language) {
        return Optional.ofNullable(ALL.get(language)).orElseThrow();
    }

    /** What a file of words holds, by key; empty if there is no such file. */
    public static Map<String, String> file(String room, Language language) {
        try (InputStream in = Words.class.getResourceAsStream(room + "_" + language.code() + ".properties")) {
            Map<String, String> held = new TreeMap<>();
            if (in != null) {
                Properties properties = new Properties();
                properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
                properties.forEach((key, value) -> held.put((String) key, (String) value));
            }
            return held;
        } catch (IOException broken) {
            throw new UncheckedIOException(
                    "the words of " + room + " can't be read from the program's own jar", broken);
        }
    }

    /** The language of these words. */
    public Language language() {
        return language;
    }

    /** Words of a key that need not be there. */
    public Optional<String> find(String key) {
        return Optional.ofNullable(words.get(key));
    }

    /**
     * Words of a key.
     *
     * @param key known to the room's file
     * @param parts put where the words say {@code {0}}, {@code {1}} …
     * @throws IllegalArgumentException if no file knows the key
     */
    public String of(String key, Object... parts) {
        String text = Optional.ofNullable(words.get(key))
                .orElseThrow(() -> new IllegalArgumentException("no words are kept for '" + key + "'"));
        for (int i = 0; i < parts.length; i++) {
            text = text.replace("{" + i + "}", String.valueOf(parts[i]));
        }
        return text;
    }
}
