package org.steamwright.report.language;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Says what a document or a picture says in English in the language of its reader: sentences with marked places by the
 * catalogue of the report, everything else by the phrasebook. Names stay as they are.
 */
public final class Speaker {

    /** English, which needs no catalogue. */
    public static final Speaker ENGLISH = new Speaker(Language.ENGLISH, Set.of(), text -> {});

    /** From here on the text is in English, up to {@link #OWN}. */
    public static final char FOREIGN = '\u000e';

    /** From here on the text is in the language of the reader again. */
    public static final char OWN = '\u000f';

    private static final int WORDS_OF_A_SENTENCE = 4;

    private static final Pattern WORD = Pattern.compile("\\p{L}+");

    private static final Pattern PLACE = Pattern.compile("%(?:(\\d)\\$)?s");

    private static final String UNITS =
            "(?<!\\p{L})(?:UTC|C|K|kPa|abs|mbar|mmHg|µS|cm|s|min|h|mg|g|kg|L|mm|m|V|A|mA|µA|Ω|E)(?!\\p{L})";

    /** Figures, moments and lengths of time with their units, and no word of any language. */
    private static final Pattern FIGURES = Pattern.compile("(?=[^\\d]*\\d)(?:[^\\p{L}]|" + UNITS + ")+");

    /** One point between digits, and not two, which is a version. */
    private static final Pattern DECIMAL = Pattern.compile("(?<![\\d.])(\\d+)\\.(\\d+)(?!\\.?\\d)");

    /** Words that English has and neither German nor French. */
    private static final Set<String> ENGLISH_WORDS = Set.of(
            "the", "is", "of", "were", "not", "and", "has", "are", "with", "that", "be", "which", "from", "been", "its",
            "by");

    private final Language language;
    private final Set<String> names;
    private final Consumer<String> unknown;
    private final Phrasebook phrasebook;

    private Speaker(Language language, Set<String> names, Consumer<String> unknown) {
        this.language = language;
        this.names = Set.copyOf(names);
        this.unknown = unknown;
        this.phrasebook = Phrasebook.in(language);
    }

    /**
     * A speaker of a language.
     *
     * @param names of things and people, which stay as they are even where a catalogue has such a word
     */
    public static Speaker of(Language language, Set<String> names) {
        return of(language, names, text -> {});
    }

    /**
     * A speaker who tells what he could not say.
     *
     * @param unknown is told each text that no catalogue has
     */
    public static Speaker of(Language language, Set<String> names, Consumer<String> unknown) {
        return language == Language.ENGLISH ? ENGLISH : new Speaker(language, names, unknown);
    }

    /** The language spoken. */
    public Language language() {
        return language;
    }

    /** The text in the language of the reader, without any mark; what no catalogue knows stays English. */
    public String say(String text) {
        return Sentence.plain(marked(text));
    }

    /** The same with {@link #FOREIGN} and {@link #OWN} around sentences that stay English. */
    public String marked(String text) {
        return language == Language.ENGLISH ? Sentence.plain(text) : spoken(text);
    }

    private String spoken(String text) {
        if (text.indexOf(Sentence.OPEN) < 0) {
            return leaf(Sentence.plain(text));
        }
        StringBuilder template = new StringBuilder(text.length());
        List<String> parts = new ArrayList<>();
        int depth = 0;
        int from = 0;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == Sentence.OPEN) {
                from = depth++ == 0 ? i + 1 : from;
            } else if (c == Sentence.CLOSE) {
                depth--;
                if (depth == 0) {
                    parts.add(text.substring(from, i));
                    template.append(Sentence.PLACE);
                }
            } else if (depth == 0) {
                template.append(c);
            }
            if (depth < 0) {
                return leaf(Sentence.plain(text));
            }
        }
        if (depth != 0) {
            return leaf(Sentence.plain(text));
        }
        return filled(template.toString(), parts.stream().map(this::spoken).toList());
    }

    private String filled(String template, List<String> parts) {
        String core = template.strip();
        Optional<String> known = phrasebook.ofDocuments(core);
        boolean isWords = WORD.matcher(core.replace(Sentence.PLACE, "")).find();
        if (known.isEmpty() && isWords) {
            unknown.accept(core);
        }
        StringBuilder said = new StringBuilder(template.length() + 64);
        Matcher place = PLACE.matcher(known.orElse(core));
        int next = 0;
        while (place.find()) {
            next++;
            int wanted = place.group(1) == null ? next : Integer.parseInt(place.group(1));
            place.appendReplacement(said, Matcher.quoteReplacement(parts.get(wanted - 1)));
        }
        place.appendTail(said);
        String inside =
                known.isEmpty() && isWords && isEnglish(core) ? FOREIGN + said.toString() + OWN : said.toString();
        return aroundIt(template, core, inside);
    }

    private String leaf(String text) {
        String core = text.strip();
        if (core.isEmpty() || names.contains(core)) {
            return text;
        }
        Optional<String> known = FIGURES.matcher(core).matches()
                ? Optional.of(DECIMAL.matcher(core).replaceAll("$1,$2"))
                : Days.say(core, language)
                        .or(() -> phrasebook.ofDocuments(core))
                        .or(() -> phrasebook.find(core));
        if (known.isPresent()) {
            return aroundIt(text, core, known.get());
        }
        if (!WORD.matcher(core).find()) {
            return text;
        }
        unknown.accept(core);
        return isEnglish(core) ? aroundIt(text, core, FOREIGN + core + OWN) : text;
    }

    private static String aroundIt(String text, String core, String said) {
        int at = text.indexOf(core);
        return text.substring(0, at) + said + text.substring(at + core.length());
    }

    /** Whether a text is a sentence in English, by the small words in it. */
    private static boolean isEnglish(String text) {
        int words = 0;
        boolean isSaid = false;
        Matcher word = WORD.matcher(text);
        while (word.find()) {
            words++;
            isSaid |= ENGLISH_WORDS.contains(word.group().toLowerCase(Locale.ROOT));
        }
        return words >= WORDS_OF_A_SENTENCE && isSaid;
    }
}
