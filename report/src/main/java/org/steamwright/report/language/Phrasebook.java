package org.steamwright.report.language;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Says in another language what the program says in English. A whole text is looked for first, then its sentences one by
 * one; what stands at the places of a phrase is looked for in the same way. A figure gets the language's decimal mark, a day
 * its month, a name in quotes the language's quotes. Names and what people wrote are in no catalogue and stay as they are.
 */
public final class Phrasebook {

    private static final Pattern FIGURE = Pattern.compile("\\d+\\.\\d+");

    private static final String UNIT =
            "(?:°C|K|kPa(?:/min|\\(abs\\)|\\(gauge\\)| absolute)?|Pa|mbar|bar|s|min|h|g|kg|mL|ml|L|mm|m|%)";

    private static final String NUMBER = "[−+±-]?\\d+(?:\\.\\d+)?";

    /** A figure with what may stand around it: a sign, a unit, a second figure as its doubt or its other end. */
    private static final Pattern FIGURES = Pattern.compile("(?:[≤≥±<>=] ?)*" + NUMBER + "(?:[\u00a0 ]?" + UNIT
            + ")?(?:[\u00a0 ]?(?:±|–|…)[\u00a0 ]?" + NUMBER + "(?:[\u00a0 ]?" + UNIT + ")?)?");

    private static final Pattern QUOTED = Pattern.compile("‘([^‘’]*)’");

    private static final Pattern END_OF_SENTENCE = Pattern.compile("(?<=[.!?;]) (?=\\S)");

    /** Where a place has swallowed more than it should: the text behind begins anew. */
    private static final Pattern NEW_SENTENCE = Pattern.compile("[.!?;] \\S");

    private static final Pattern NEXT_OF_LIST = Pattern.compile(", | and | or |; ");

    /** Before each line of a list in a letter. */
    private static final String DASH = "– ";

    /** Names at the places of a phrase are short; more may be what another phrase knows. */
    private static final int LETTERS_OF_NAMES = 24;

    /** Longer texts are what people wrote; nobody waits for a page because somebody wrote a lot. */
    private static final int LONGEST = 4_000;

    /** More sentences than any phrase holds, with what may stand at its places. */
    private static final int LONGEST_RUN = 16;

    /** What stands at a place may have places again, but no sentence goes on like that. */
    private static final int DEEPEST = 32;

    private static final Map<Language, Phrasebook> ALL = new EnumMap<>(Language.class);

    private final Language language;
    private final Map<String, String> whole = new HashMap<>();
    private final List<Phrase> withPlaces = new ArrayList<>();
    private final Map<String, Optional<Said>> recent = Collections.synchronizedMap(new Recent());
    private final Map<String, Optional<Said>> recentlyClose = Collections.synchronizedMap(new Recent());
    /** How many places the text that is looked for stands within, in each thread. */
    private final ThreadLocal<int[]> depth = ThreadLocal.withInitial(() -> new int[1]);
    /** What documents and pictures say themselves comes with its places marked; it is never looked for within a sentence. */
    private final Map<String, String> documents = new HashMap<>();

    private Phrasebook(Language language) {
        this.language = language;
        for (String room : Catalogue.ROOMS) {
            Catalogue.of(room, language).forEach((english, said) -> {
                if (room.equals(Catalogue.REPORT)) {
                    documents.put(english, said);
                } else if (Phrase.hasPlaces(english)) {
                    withPlaces.add(new Phrase(english, said));
                } else {
                    whole.put(english, said);
                }
            });
        }
        withPlaces.sort(Comparator.comparingInt(Phrase::letters).reversed());
    }

    /** The phrases of a language; read when they are first asked for. */
    public static Phrasebook in(Language language) {
        synchronized (ALL) {
            return ALL.computeIfAbsent(language, Phrasebook::new);
        }
    }

    /** The language that it speaks. */
    public Language language() {
        return language;
    }

    /** A text of the documents, with its places if it has any, as the catalogue has it; empty if it is not there. */
    Optional<String> ofDocuments(String english) {
        return Optional.ofNullable(documents.get(english));
    }

    /** The text in this language, or as it is where no catalogue knows it. */
    public String say(String english) {
        return find(english).orElse(english);
    }

    /** The text in this language; empty if no catalogue knows all of it. */
    public Optional<String> find(String english) {
        return language == Language.ENGLISH || english.isBlank()
                ? Optional.of(english)
                : said(english).map(Said::text);
    }

    /**
     * A text as far as it is known.
     *
     * @param text in this language
     * @param left how many letters of it stood at places and are in no catalogue: names, and what people wrote
     */
    private record Said(String text, int left) {

        static Said known(String text) {
            return new Said(text, 0);
        }

        Said framed(String before, String behind) {
            return new Said(before + text + behind, left);
        }
    }

    /** What was asked for last: the same words come back on every page, and within a sentence more than once. */
    private static final class Recent extends LinkedHashMap<String, Optional<Said>> {

        private static final long serialVersionUID = 1L;
        private static final int KEPT = 5_000;

        Recent() {
            super(16, 0.75f, true);
        }

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Optional<Said>> eldest) {
            return size() > KEPT;
        }
    }

    private Optional<Said> said(String english) {
        return kept(english, recent, this::sought);
    }

    /** What was found before, or is found now; what stands too deep is not looked for, and not remembered as unknown. */
    private Optional<Said> kept(
            String english, Map<String, Optional<Said>> before, Function<String, Optional<Said>> search) {
        Optional<Said> known = before.get(english);
        int[] levels = depth.get();
        if (known != null || levels[0] >= DEEPEST) {
            return known == null ? Optional.empty() : known;
        }
        levels[0]++;
        try {
            known = search.apply(english);
        } finally {
            levels[0]--;
        }
        before.put(english, known);
        return known;
    }

    private Optional<Said> sought(String english) {
        if (english.length() > LONGEST) {
            return Optional.empty();
        }
        if (english.startsWith(DASH)) {
            return said(english.substring(DASH.length())).map(said -> said.framed(DASH, ""));
        }
        Optional<Said> known = closely(english);
        return known.isPresent() ? known : loosely(english);
    }

    /** A phrase whose places hold one thing each, or a row of such phrases, whichever leaves less unsaid. */
    private Optional<Said> closely(String english) {
        return kept(english, recentlyClose, this::soughtClosely);
    }

    private Optional<Said> soughtClosely(String english) {
        Optional<Said> together = one(english);
        return together.isPresent() && together.get().left() <= LETTERS_OF_NAMES
                ? together
                : less(together, sentences(english));
    }

    private static Optional<Said> less(Optional<Said> one, Optional<Said> other) {
        return other.isEmpty()
                        || (one.isPresent() && one.get().left() <= other.get().left())
                ? one
                : other;
    }

    /** A phrase whose places may hold whole sentences that somebody wrote. */
    private Optional<Said> loosely(String english) {
        return NEW_SENTENCE.matcher(english).find()
                ? phrase(english, Phrase::mayHoldSentences, part -> true)
                : Optional.empty();
    }

    private boolean isOneThing(String part) {
        return !NEW_SENTENCE.matcher(part).find() || closely(part).isPresent();
    }

    /** The longest run of sentences that a phrase knows, then on from its end; empty if one of them is not known. */
    private Optional<Said> sentences(String english) {
        List<String> sentences = List.of(END_OF_SENTENCE.split(english));
        List<String> said = new ArrayList<>();
        int left = 0;
        int from = 0;
        while (from < sentences.size()) {
            int to = Math.min(from + LONGEST_RUN, from == 0 ? sentences.size() - 1 : sentences.size());
            Optional<Said> known = Optional.empty();
            while (to > from && known.isEmpty()) {
                known = run(String.join(" ", sentences.subList(from, to)));
                to = known.isEmpty() ? to - 1 : to;
            }
            if (known.isEmpty()) {
                return Optional.empty();
            }
            said.add(known.get().text());
            left += known.get().left();
            from = to;
        }
        return said.isEmpty() ? Optional.empty() : Optional.of(new Said(String.join(" ", said), left));
    }

    /** A run of sentences, the last of which may be one of a row that semicolons part. */
    private Optional<Said> run(String english) {
        Optional<Said> known = one(english);
        return known.isEmpty() && english.endsWith(";")
                ? one(english.substring(0, english.length() - 1)).map(said -> said.framed("", ";"))
                : known;
    }

    private Optional<Said> one(String english) {
        Optional<Said> known = alone(english).map(Said::known);
        if (known.isPresent()) {
            return known;
        }
        Optional<Said> list = list(english);
        return list.isPresent() ? list : phrase(english, phrase -> true, this::isOneThing);
    }

    /** Of the phrases that fit the one that leaves least unsaid; of equal ones that with more fixed letters. */
    private Optional<Said> phrase(String english, Predicate<Phrase> isAsked, Predicate<String> isTaken) {
        Optional<Said> best = Optional.empty();
        for (Phrase phrase : withPlaces) {
            int[] left = {0};
            Optional<Said> said = isAsked.test(phrase)
                    ? phrase.say(english, isTaken, part -> part(part, left)).map(text -> new Said(text, left[0]))
                    : Optional.empty();
            if (said.isPresent() && said.get().left() <= LETTERS_OF_NAMES) {
                return less(best, said);
            }
            best = less(best, said);
        }
        return best;
    }

    /** What stands at a place: known, or as it is. */
    private String part(String english, int[] left) {
        Optional<Said> known = english.isBlank() ? Optional.empty() : said(english);
        left[0] += known.map(Said::left).orElse(english.length());
        return known.map(Said::text).orElse(english);
    }

    /** A text without places, a figure, a day or a name in quotes. */
    private Optional<String> alone(String english) {
        String known = whole.get(english);
        if (known != null) {
            return Optional.of(known);
        }
        if (FIGURES.matcher(english).matches()) {
            return Optional.of(FIGURE.matcher(english)
                    .replaceAll(
                            figure -> Matcher.quoteReplacement(figure.group().replace('.', ','))));
        }
        Optional<String> day = Days.say(english, language);
        if (day.isPresent()) {
            return day;
        }
        Matcher quoted = QUOTED.matcher(english);
        return quoted.matches() ? Optional.of(quoted(quoted.group(1))) : Optional.empty();
    }

    private String quoted(String name) {
        return language == Language.GERMAN ? "„" + name + "“" : "«\u00a0" + name + "\u00a0»";
    }

    /** 'a, b and c', 'a; b', if each of them is known or a number; what people wrote is not taken apart. */
    private Optional<Said> list(String english) {
        Matcher next = NEXT_OF_LIST.matcher(english);
        if (english.endsWith(".") || !next.find()) {
            return Optional.empty();
        }
        StringBuilder said = new StringBuilder();
        int left = 0;
        int from = 0;
        boolean hasNext = true;
        while (true) {
            String part = english.substring(from, hasNext ? next.start() : english.length());
            Optional<Said> known = isMark(part) ? Optional.of(Said.known(part)) : oneOfList(part);
            if (known.isEmpty()) {
                return Optional.empty();
            }
            said.append(known.get().text());
            left += known.get().left();
            if (!hasNext) {
                return Optional.of(new Said(said.toString(), left));
            }
            said.append(word(next.group()));
            from = next.end();
            hasNext = next.find();
        }
    }

    private Optional<Said> oneOfList(String english) {
        Optional<Said> known = alone(english).map(Said::known);
        return known.isPresent() ? known : phrase(english, phrase -> true, this::isOneThing);
    }

    private String word(String between) {
        boolean isGerman = language == Language.GERMAN;
        return switch (between) {
            case " and " -> isGerman ? " und " : " et ";
            case " or " -> isGerman ? " oder " : " ou ";
            default -> between;
        };
    }

    /** Something like 'T3' or 'BI-2' that is no word of any language. */
    private static boolean isMark(String one) {
        return !one.isEmpty() && one.indexOf(' ') < 0 && one.chars().anyMatch(Character::isDigit);
    }
}
