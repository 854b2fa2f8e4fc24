package org.steamwright.report.language;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/** An English phrase with places for what differs, and how another language says it. */
final class Phrase {

    private static final String QUOTE = "\"";

    private static final Pattern PLACE = Pattern.compile("%(?:(\\d+)\\$)?([sdw])");

    /** What stands between the places, one more than there are places; the first and the last may be empty. */
    private final List<String> english;

    private final List<String> said;
    /** Which place of the English each place of the other language takes, from 0. */
    private final List<Integer> order;

    /** For each place of the English whether only a whole number stands there. */
    private final List<Boolean> isNumber;

    /** For each place of the English whether it stands in double quotes: a word of a file or of its user, in no language. */
    private final List<Boolean> isQuoted;

    /** For each place of the English whether what stands there stays as it is: quoted, or to be typed. */
    private final List<Boolean> isVerbatim;

    private final int letters;

    Phrase(String english, String said) {
        this.english = between(english);
        this.said = between(said);
        this.order = order(said);
        this.isNumber = PLACE.matcher(english)
                .results()
                .map(place -> place.group(2).equals("d"))
                .toList();
        this.isQuoted = IntStream.range(0, isNumber.size())
                .mapToObj(i -> this.english.get(i).endsWith(QUOTE)
                        && this.english.get(i + 1).startsWith(QUOTE))
                .toList();
        List<String> marks =
                PLACE.matcher(english).results().map(place -> place.group(2)).toList();
        this.isVerbatim = IntStream.range(0, marks.size())
                .mapToObj(i -> isQuoted.get(i) || marks.get(i).equals("w"))
                .toList();
        this.letters = this.english.stream().mapToInt(String::length).sum();
    }

    static boolean hasPlaces(String phrase) {
        return PLACE.matcher(phrase).find();
    }

    private static List<String> between(String phrase) {
        return List.of(PLACE.split(phrase, -1));
    }

    private static List<Integer> order(String phrase) {
        List<Integer> places = new ArrayList<>();
        Matcher place = PLACE.matcher(phrase);
        while (place.find()) {
            places.add(place.group(1) == null ? places.size() : Integer.parseInt(place.group(1)) - 1);
        }
        return List.copyOf(places);
    }

    /** How much of it is fixed: of two that fit, the one with more says better what is meant. */
    int letters() {
        return letters;
    }

    /**
     * Whether a place may hold sentences that somebody wrote. At the end of a phrase with its own full stop it would hold what
     * comes behind the phrase instead.
     */
    boolean mayHoldSentences() {
        return !english.get(english.size() - 1).equals(".");
    }

    /**
     * The phrase in the other language, with what stood at its places said by {@code part}, what stood in double quotes or at
     * a place {@code %w} as it is; empty if it does not fit.
     */
    Optional<String> say(String text, Predicate<String> isTaken, Function<String, String> part) {
        Optional<List<String>> found = parts(text)
                .filter(parts -> IntStream.range(0, parts.size())
                        .allMatch(i -> isQuoted.get(i) ? !parts.get(i).contains(QUOTE) : isTaken.test(parts.get(i))));
        return found.map(parts -> {
            StringBuilder out = new StringBuilder(said.get(0));
            for (int i = 0; i < order.size(); i++) {
                String one = parts.get(order.get(i));
                out.append(isVerbatim.get(order.get(i)) ? one : part.apply(one)).append(said.get(i + 1));
            }
            return out.toString();
        });
    }

    /**
     * What stands at the places of a text that fits; empty if it does not. Each place is as short as it can be, and none is
     * empty: a phrase with a tail that may be missing stands in the catalogue twice.
     */
    private Optional<List<String>> parts(String text) {
        int last = english.size() - 1;
        String end = english.get(last);
        if (!text.startsWith(english.get(0)) || !text.endsWith(end) || text.length() <= letters) {
            return Optional.empty();
        }
        List<String> parts = new ArrayList<>();
        int from = english.get(0).length();
        for (int i = 1; i < last; i++) {
            int to = text.indexOf(english.get(i), from + 1);
            if (to < 0) {
                return Optional.empty();
            }
            parts.add(text.substring(from, to));
            from = to + english.get(i).length();
        }
        int to = text.length() - end.length();
        if (to <= from) {
            return Optional.empty();
        }
        parts.add(text.substring(from, to));
        return areNumbers(parts) ? Optional.of(parts) : Optional.empty();
    }

    private boolean areNumbers(List<String> parts) {
        for (int i = 0; i < parts.size(); i++) {
            if (isNumber.get(i) && !parts.get(i).chars().allMatch(sign -> sign >= '0' && sign <= '9')) {
                return false;
            }
        }
        return true;
    }
}
