package org.steamwright.report.language;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** An English phrase with places for what differs, and how another language says it. */
final class Phrase {

    private static final Pattern PLACE = Pattern.compile("%(?:(\\d)\\$)?s");

    private final Pattern english;
    private final String beginning;
    private final int letters;
    private final String said;
    /** Which group of the pattern each place in English stands for, from 1; the same number may come twice. */
    private final List<Integer> order;

    Phrase(String english, String said) {
        StringBuilder pattern = new StringBuilder();
        List<Integer> places = new ArrayList<>();
        Matcher place = PLACE.matcher(english);
        int from = 0;
        String first = english;
        while (place.find()) {
            if (from == 0 && places.isEmpty()) {
                first = english.substring(0, place.start());
            }
            pattern.append(Pattern.quote(english.substring(from, place.start())))
                    .append("(.*?)");
            places.add(place.group(1) == null ? places.size() + 1 : Integer.parseInt(place.group(1)));
            from = place.end();
        }
        pattern.append(Pattern.quote(english.substring(from)));
        this.english = Pattern.compile(pattern.toString(), Pattern.DOTALL);
        this.beginning = first;
        this.letters = PLACE.matcher(english).replaceAll("").length();
        this.said = said;
        this.order = List.copyOf(places);
    }

    static boolean hasPlaces(String phrase) {
        return PLACE.matcher(phrase).find();
    }

    /** How much of it is fixed: of two that fit, the one with more says better what is meant. */
    int letters() {
        return letters;
    }

    /** The phrase in the other language, with what stood at its places said by {@code part}; empty if it does not fit. */
    Optional<String> say(String text, UnaryOperator<String> part) {
        if (!text.startsWith(beginning)) {
            return Optional.empty();
        }
        Matcher fits = english.matcher(text);
        if (!fits.matches()) {
            return Optional.empty();
        }
        StringBuilder out = new StringBuilder();
        Matcher place = PLACE.matcher(said);
        int from = 0;
        int next = 0;
        while (place.find()) {
            next++;
            int wanted = place.group(1) == null ? next : Integer.parseInt(place.group(1));
            out.append(said, from, place.start()).append(part.apply(fits.group(order.indexOf(wanted) + 1)));
            from = place.end();
        }
        return Optional.of(out.append(said.substring(from)).toString());
    }
}
