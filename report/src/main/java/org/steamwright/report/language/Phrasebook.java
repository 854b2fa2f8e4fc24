package org.steamwright.report.language;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
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

    private static final Pattern DAY = Pattern.compile(
            "\\d{1,2} (?:January|February|March|April|May|June|July|August|September|October|November|December) \\d{4}");

    private static final DateTimeFormatter ENGLISH_DAY = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);

    private static final Pattern QUOTED = Pattern.compile("‘([^‘’]*)’");

    private static final Pattern END_OF_SENTENCE = Pattern.compile("(?<=[.!?;]) (?=\\S)");

    /** Where a place has swallowed more than it should: the text behind begins anew. */
    private static final Pattern NEW_SENTENCE = Pattern.compile("[.!?;] \\S");

    private static final Pattern NEXT_OF_LIST = Pattern.compile(", | and | or |; ");

    /** Before each line of a list in a letter. */
    private static final String DASH = "– ";

    private static final Map<Language, Phrasebook> ALL = new EnumMap<>(Language.class);

    private final Language language;
    private final Map<String, String> whole = new HashMap<>();
    private final List<Phrase> withPlaces = new ArrayList<>();

    private Phrasebook(Language language) {
        this.language = language;
        for (String room : Catalogue.ROOMS) {
            Catalogue.of(room, language).forEach((english, said) -> {
                if (Phrase.hasPlaces(english)) {
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

    /** The text in this language, or as it is where no catalogue knows it. */
    public String say(String english) {
        return find(english).orElse(english);
    }

    /** The text in this language; empty if no catalogue knows all of it. */
    public Optional<String> find(String english) {
        return find(english, unknown -> {});
    }

    /**
     * The text in this language, as {@link #find(String)}.
     *
     * @param unknown is told what stood at the places of phrases and is in no catalogue: names, and what people wrote
     */
    Optional<String> find(String english, Consumer<String> unknown) {
        if (language == Language.ENGLISH || english.isBlank()) {
            return Optional.of(english);
        }
        if (english.startsWith(DASH)) {
            return find(english.substring(DASH.length()), unknown).map(said -> DASH + said);
        }
        Optional<String> known = closely(english, unknown);
        return known.isPresent() ? known : loosely(english, unknown);
    }

    /** A phrase whose places hold one thing each, or a row of such phrases. */
    private Optional<String> closely(String english, Consumer<String> unknown) {
        Optional<String> together = one(english, this::isOneThing, unknown);
        return together.isPresent() ? together : sentences(english, unknown);
    }

    /** A phrase whose places may hold whole sentences that somebody wrote. */
    private Optional<String> loosely(String english, Consumer<String> unknown) {
        return NEW_SENTENCE.matcher(english).find()
                ? phrase(english, Phrase::mayHoldSentences, part -> true, unknown)
                : Optional.empty();
    }

    private boolean isOneThing(String part) {
        return !NEW_SENTENCE.matcher(part).find()
                || closely(part, unknown -> {}).isPresent();
    }

    /** The longest run of sentences that a phrase knows, then on from its end; empty if one of them is not known. */
    private Optional<String> sentences(String english, Consumer<String> unknown) {
        List<String> sentences = List.of(END_OF_SENTENCE.split(english));
        List<String> said = new ArrayList<>();
        List<String> names = new ArrayList<>();
        int from = 0;
        while (from < sentences.size()) {
            int to = from == 0 ? sentences.size() - 1 : sentences.size();
            Optional<String> known = Optional.empty();
            while (to > from && known.isEmpty()) {
                List<String> inside = new ArrayList<>();
                known = one(String.join(" ", sentences.subList(from, to)), this::isOneThing, inside::add);
                if (known.isPresent()) {
                    names.addAll(inside);
                } else {
                    to--;
                }
            }
            if (known.isEmpty()) {
                return Optional.empty();
            }
            said.add(known.get());
            from = to;
        }
        names.forEach(unknown);
        return said.isEmpty() ? Optional.empty() : Optional.of(String.join(" ", said));
    }

    private Optional<String> one(String english, Predicate<String> isTaken, Consumer<String> unknown) {
        Optional<String> known = alone(english);
        if (known.isPresent()) {
            return known;
        }
        Optional<String> list = list(english, unknown);
        if (list.isPresent()) {
            return list;
        }
        return phrase(english, phrase -> true, isTaken, unknown);
    }

    private Optional<String> phrase(
            String english, Predicate<Phrase> isAsked, Predicate<String> isTaken, Consumer<String> unknown) {
        for (Phrase phrase : withPlaces) {
            Optional<String> said = isAsked.test(phrase)
                    ? phrase.say(english, isTaken, part -> part(part, unknown))
                    : Optional.empty();
            if (said.isPresent()) {
                return said;
            }
        }
        return Optional.empty();
    }

    /** What stands at a place: known, or as it is. */
    private String part(String english, Consumer<String> unknown) {
        Optional<String> known = find(english, unknown);
        if (known.isEmpty()) {
            unknown.accept(english);
        }
        return known.orElse(english);
    }

    /** A text without places, a figure, a day or a name in quotes. */
    private Optional<String> alone(String english) {
        String known = whole.get(english);
        if (known != null) {
            return Optional.of(known);
        }
        if (FIGURES.matcher(english).matches()) {
            return Optional.of(FIGURE.matcher(english)
                    .replaceAll(figure ->
                            Matcher.quoteReplacement(figure.group().replace('.', ','))));
        }
        if (DAY.matcher(english).matches()) {
            return day(english);
        }
        Matcher quoted = QUOTED.matcher(english);
        return quoted.matches() ? Optional.of(quoted(quoted.group(1))) : Optional.empty();
    }

    private Optional<String> day(String english) {
        try {
            String pattern = language == Language.GERMAN ? "d. MMMM uuuu" : "d MMMM uuuu";
            return Optional.of(DateTimeFormatter.ofPattern(pattern, language.locale())
                    .format(LocalDate.parse(english, ENGLISH_DAY)));
        } catch (DateTimeParseException noDay) {
            return Optional.empty();
        }
    }

    private String quoted(String name) {
        return language == Language.GERMAN ? "„" + name + "“" : "«\u00a0" + name + "\u00a0»";
    }

    /** 'a, b and c', 'a; b', if each of them is known or a number; what people wrote is not taken apart. */
    private Optional<String> list(String english, Consumer<String> unknown) {
        if (english.endsWith(".") || !NEXT_OF_LIST.matcher(english).find()) {
            return Optional.empty();
        }
        Matcher next = NEXT_OF_LIST.matcher(english);
        StringBuilder said = new StringBuilder();
        List<String> names = new ArrayList<>();
        int from = 0;
        while (from <= english.length()) {
            boolean hasNext = next.find();
            String one = english.substring(from, hasNext ? next.start() : english.length());
            Optional<String> known = isMark(one) ? Optional.of(one) : oneOfList(one, names::add);
            if (known.isEmpty()) {
                return Optional.empty();
            }
            said.append(known.get());
            if (!hasNext) {
                names.forEach(unknown);
                return Optional.of(said.toString());
            }
            said.append(word(next.group()));
            from = next.end();
        }
        return Optional.empty();
    }

    private Optional<String> oneOfList(String english, Consumer<String> unknown) {
        Optional<String> known = alone(english);
        return known.isPresent() ? known : phrase(english, phrase -> true, this::isOneThing, unknown);
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
