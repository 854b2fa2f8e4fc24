package org.steamwright.report.language;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A file of phrases of one room in one language: a line that begins with {@code >} holds the English phrase as the source
 * code has it, the line behind it what it is in that language. {@code %s} stands for what differs, {@code %d} for a whole
 * number and nothing else, {@code %w} for what has to be typed as it stands, {@code %2$s} where the order differs too. What stands in double quotes around a
 * place is somebody's own word and stays too. Empty lines and lines that begin with {@code #} are for the reader.
 */
final class Catalogue {

    /** One file each in every language but English. */
    static final List<String> ROOMS = List.of("findings", "visit", "reading", "records", "lists", "report");

    /** The room of what documents and pictures say themselves. */
    static final String REPORT = "report";

    private static final String ENGLISH = "> ";

    private Catalogue() {}

    /** The phrases of a room, in the order of the file; empty in English. */
    static Map<String, String> of(String room, Language language) {
        if (language == Language.ENGLISH) {
            return Map.of();
        }
        String name = room + "_" + language.code() + ".txt";
        try (InputStream in = Catalogue.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the phrases " + name + " are missing from the program's own jar");
            }
            return read(name, new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException broken) {
            throw new UncheckedIOException("the phrases " + name + " can't be read from the program's own jar", broken);
        }
    }

    static Map<String, String> read(String name, String text) {
        Map<String, String> phrases = new LinkedHashMap<>();
        String english = "";
        int number = 0;
        for (String line : text.lines().toList()) {
            number++;
            if (line.startsWith(ENGLISH)) {
                require(english.isEmpty(), name, number, "the phrase before has no translation");
                english = line.substring(ENGLISH.length());
            } else if (!line.isBlank() && !line.startsWith("#")) {
                require(!english.isEmpty(), name, number, "there is no English phrase before this line");
                require(phrases.put(english, line) == null, name, number, "the phrase is there twice");
                english = "";
            }
        }
        require(english.isEmpty(), name, number, "the last phrase has no translation");
        return phrases;
    }

    private static void require(boolean holds, String name, int line, String otherwise) {
        if (!holds) {
            throw new IllegalStateException(name + ", line " + line + ": " + otherwise);
        }
    }
}
