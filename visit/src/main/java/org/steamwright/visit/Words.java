package org.steamwright.visit;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import org.steamwright.visit.register.Sterilizer;

/** Lists, dates and names as the sentences of a visit say them. */
final class Words {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);

    private static final Set<String> NOBODY = Set.of(
            "no",
            "none",
            "nobody",
            "noone",
            "notyet",
            "open",
            "pending",
            "na",
            "niemand",
            "keiner",
            "nein",
            "nochnicht",
            "offen",
            "personne",
            "aucun",
            "non",
            "pasencore");

    private Words() {}

    /** The month in letters, so that no reader takes it for the day. */
    static String day(LocalDate date) {
        return DAY.format(date);
    }

    /** 'run 4', 'runs 4 and 5', 'runs 4, 5 and 6'. */
    static String runs(List<Integer> numbers) {
        return (numbers.size() == 1 ? "run " : "runs ")
                + list(numbers.stream().map(String::valueOf).toList());
    }

    /** ' up to and including 24 November 2027 or cycle 5200, whichever comes first'; each part where it is known. */
    static String until(Optional<LocalDate> day, OptionalInt count) {
        String text = day.map(date -> " up to and including " + day(date)).orElse("");
        if (count.isPresent()) {
            text += (text.isEmpty() ? " up to and including cycle " : " or cycle ") + count.getAsInt();
            text += day.isPresent() ? ", whichever comes first" : "";
        }
        return text;
    }

    /** 'a', 'a and b', 'a, b and c'. */
    static String list(List<String> parts) {
        if (parts.size() < 2) {
            return parts.stream().collect(Collectors.joining());
        }
        return String.join(", ", parts.subList(0, parts.size() - 1)) + " and " + parts.get(parts.size() - 1);
    }

    static String capital(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    /** The text with exactly one full stop at its end. */
    static String sentence(String text) {
        String stripped = text.strip();
        return stripped.endsWith(".") || stripped.endsWith("!") || stripped.endsWith("?") ? stripped : stripped + ".";
    }

    static String quoted(String name) {
        return "‘" + name + "’";
    }

    /** As people read it: the serial number, which is on the name plate. */
    static String sterilizer(Sterilizer sterilizer) {
        return "steriliser " + sterilizer.serial();
    }

    /** For comparing what two people typed: case, blanks and hyphens between words do not matter. */
    static String key(String text) {
        return text.strip().replaceAll("[\\s-]+", " ").toLowerCase(Locale.ROOT);
    }

    /** A name without what two people, or one on two days, write in another way. */
    static String letters(String name) {
        return name.replaceAll("[^\\p{L}]+", "").toLowerCase(Locale.ROOT);
    }

    /** Whether a text can be somebody's name, and not a stroke or a word for nobody. */
    static boolean isName(String text) {
        String letters = letters(text);
        return letters.length() > 1 && !NOBODY.contains(letters);
    }
}
