package org.steamwright.report.language;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Says in another language what the program says in English. A whole text is looked for first, then its sentences one by
 * one; what stands at the places of a phrase is looked for in the same way, and a figure gets the language's decimal mark.
 * Names and what people wrote are in no catalogue and stay as they are.
 */
public final class Phrasebook {

    private static final Pattern FIGURE = Pattern.compile("[−+±-]?\\d+\\.\\d+");
    /** A figure with what may stand around it: a sign, a unit, a second figure as its doubt. */
    private static final Pattern FIGURES = Pattern.compile(
            "(?:[≤≥±<>=] ?)*[−+±-]?\\d+(?:\\.\\d+)?(?:[  ]?(?:±|to|–|[°%\\p{L}²³/·]+|[−+±-]?\\d+(?:\\.\\d+)?))*");

    private static final Pattern END_OF_SENTENCE = Pattern.compile("(?<=[.!?;]) (?=\\S)");

    private static final Map<Language, Phrasebook> ALL = new EnumMap<>(Language.class);

    private final Language language;
    private final Map<String, String> whole = new HashMap<>();
    private final List<Phrase> withPlaces = new ArrayList<>();
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
        return language == Language.ENGLISH ? english : find(english).orElse(english);
    }

    /** The text in this language; empty if no catalogue knows all of it. */
    public Optional<String> find(String english) {
        if (language == Language.ENGLISH) {
            return Optional.of(english);
        }
        Optional<String> together = one(english);
        if (together.isPresent()) {
            return together;
        }
        String[] sentences = END_OF_SENTENCE.split(english);
        if (sentences.length < 2) {
            return Optional.empty();
        }
        // the longest run of sentences that a phrase knows, then on from its end
        List<String> said = new ArrayList<>();
        int from = 0;
        while (from < sentences.length) {
            int to = sentences.length;
            Optional<String> known = Optional.empty();
            while (to > from && known.isEmpty()) {
                known = one(String.join(" ", List.of(sentences).subList(from, to)));
                to = known.isEmpty() ? to - 1 : to;
            }
            if (known.isEmpty()) {
                return Optional.empty();
            }
            said.add(known.get());
            from = to;
        }
        return Optional.of(String.join(" ", said));
    }

    private Optional<String> one(String english) {
        String known = whole.get(english);
        if (known != null) {
            return Optional.of(known);
        }
        if (FIGURES.matcher(english).matches()) {
            return Optional.of(figures(english));
        }
        for (Phrase phrase : withPlaces) {
            Optional<String> said = phrase.say(english, this::say);
            if (said.isPresent()) {
                return said;
            }
        }
        return Optional.empty();
    }

    private static String figures(String english) {
        return FIGURE.matcher(english)
                .replaceAll(figure -> Matcher.quoteReplacement(figure.group().replace('.', ',')));
    }
}
