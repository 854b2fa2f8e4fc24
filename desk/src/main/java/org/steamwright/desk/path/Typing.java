package org.steamwright.desk.path;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.text.Figures;
import org.steamwright.desk.text.TypedDay;
import org.steamwright.desk.web.Frame;

/** How a fact stands in a field, and what is kept of it: figures and days as the reader's language writes them. */
final class Typing {

    private static final Set<String> FIGURES = Set.of(
            "altitude",
            "at",
            "barometer",
            "chamber",
            "chamber-size",
            "d-value",
            "d-value-at",
            "drying-time",
            "holding-time",
            "last-digit",
            "mass",
            "maximum",
            "population",
            "pressure",
            "pulse-depth",
            "reading",
            "room-humidity",
            "room-temperature",
            "sterilizing-temperature",
            "supply-voltage",
            "temperature",
            "tolerance",
            "water-conductivity",
            "z");

    /** Readings with words about them. */
    private static final Set<String> READINGS = Set.of("before", "after", "as-found");

    /** Figures of a check of an instrument. */
    private static final Set<String> CHECKED = Set.of("reference", "indicated");

    private static final Set<String> DAYS =
            Set.of("date", "expires", "on", "closed-on", "until", "met-on", "interim-until", "valid-until");
    /** A day and the time of it. */
    private static final Set<String> MOMENTS = Set.of("read-on", "incubated-until");

    private static final Pattern MOMENT =
            Pattern.compile("(.+?)(?:,? (?:um |at |\\u00e0 )?|T)(\\d{1,2}) ?[:.h] ?(\\d{2})(?: ?(?:Uhr|h))?");

    /** Facts that say whether a pressure counts from the vacuum or from the air of the day. */
    private static final Set<String> PRESSURES = Set.of("pulse-depth", "pressure");

    private static final Pattern ABSOLUTE =
            Pattern.compile("\\(?\\b(?:absolut(?:e[rs]?)?|absolue?|abs)\\b\\.?\\)?", Pattern.CASE_INSENSITIVE);
    private static final Pattern GAUGE = Pattern.compile(
            "\\(?\\b(?:gauge|(?:manometrischer )?\\u00fcberdruck|relativ|relatif|relative|manom\\u00e9trique)\\b\\)?",
            Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE | Pattern.UNICODE_CHARACTER_CLASS);
    private static final Pattern KEPT_SIDE = Pattern.compile("\\b(absolute|gauge)\\b");

    private static final String READ_AT = Saving.NOTES + "read-at/";

    /** One figure within a text, with everything that could belong to it. */
    private static final Pattern FIGURE = Pattern.compile(
            "\\d{1,3}(?:[ \\u00a0\\u202f]\\d{3})+(?![\\d])(?:[.,]\\d+)*|\\d+(?:[.,]\\d+)*(?:[.,](?=\\s|$))?");

    private static final Pattern POINTED = Pattern.compile("\\d+\\.\\d+");

    private Typing() {}

    /**
     * What was typed, as it is kept.
     *
     * @param kept empty if it could not be understood
     * @param complaint why; empty if it could
     */
    record Typed(Optional<String> kept, Optional<Complaint> complaint) {

        private static Typed kept(String text) {
            return new Typed(Optional.of(text), Optional.empty());
        }

        private static Typed unclear(Frame frame, String what, String remedy) {
            return new Typed(Optional.empty(), Optional.of(Complaint.said(what, frame.say(remedy))));
        }
    }

    private static String last(String path) {
        return path.substring(path.lastIndexOf('/') + 1);
    }

    /** Whether the fact is a quantity. */
    static boolean isFigure(String path) {
        boolean isReading = READINGS.contains(last(path))
                && (path.startsWith("job-sheet/tasks/") || path.startsWith("checklists/"));
        boolean isWeighed = path.startsWith("runs/") && path.contains("/weighings/") && READINGS.contains(last(path));
        boolean isChecked = CheckFacts.isOne(path) && path.contains("/checks/") && CHECKED.contains(last(path));
        return !path.startsWith(Saving.NOTES) && (FIGURES.contains(last(path)) || isReading || isWeighed || isChecked);
    }

    /** Whether the fact is a day. */
    static boolean isDay(String path) {
        return path.startsWith(READ_AT) || (!path.startsWith(Saving.NOTES) && DAYS.contains(last(path)));
    }

    /** What stands, as the reader's language writes it. */
    static String shown(String path, String kept, Frame frame) {
        String shown = shown(path, kept, frame.figures());
        return isPressure(path)
                ? KEPT_SIDE
                        .matcher(shown)
                        .replaceAll(side -> Matcher.quoteReplacement(frame.say("path.side." + side.group())))
                : shown;
    }

    private static boolean isPressure(String path) {
        return !path.startsWith(Saving.NOTES) && PRESSURES.contains(last(path));
    }

    /** The same without words for the side from which a pressure counts. */
    static String shown(String path, String kept, Figures figures) {
        return isFigure(path)
                ? FIGURE.matcher(kept).replaceAll(figure -> Matcher.quoteReplacement(shown(figure.group(), figures)))
                : kept;
    }

    private static String shown(String figure, Figures figures) {
        return POINTED.matcher(figure).matches() ? figures.of(figure) : figure;
    }

    /** What an entry is, as the reader's language writes it. */
    static String shownAll(Map<String, String> entry, Figures figures) {
        return entry.entrySet().stream()
                .map(fact -> shown("/" + fact.getKey(), fact.getValue(), figures))
                .collect(Collectors.joining(", "));
    }

    /** What was typed, as it is kept. */
    static Typed read(String path, String typed, Frame frame) {
        if (typed.isBlank()) {
            return Typed.kept(typed);
        }
        if (isDay(path)) {
            return TypedDay.of(typed, frame.words().language())
                    .map(day -> Typed.kept(day.toString()))
                    .orElseGet(() -> Typed.unclear(frame, frame.say("path.no-day", typed), "path.no-day-remedy"));
        }
        if (path.startsWith(Saving.NOTES + Running.LENGTH) || path.startsWith(Saving.NOTES + Running.PLATEAU)) {
            return Running.length(typed)
                    .map(length -> Typed.kept(length.toMinutes() + " min"))
                    .orElseGet(() -> Typed.unclear(frame, frame.say("path.no-length", typed), "path.no-length-remedy"));
        }
        if (!path.startsWith(Saving.NOTES) && MOMENTS.contains(last(path))) {
            return Typed.kept(moment(typed, frame));
        }
        String said = isPressure(path)
                ? GAUGE.matcher(ABSOLUTE.matcher(typed).replaceAll("absolute")).replaceAll("gauge")
                : typed;
        return isFigure(path) ? figures(said, frame) : Typed.kept(typed);
    }

    /** A day as the language writes it, with the time of it or without; anything else is left to the reader of the visit. */
    private static String moment(String typed, Frame frame) {
        String calm = typed.strip().replaceAll("[\\s\\u00a0\\u202f]+", " ");
        Matcher parts = MOMENT.matcher(calm);
        boolean isTimed = parts.matches();
        return TypedDay.of(isTimed ? parts.group(1) : calm, frame.words().language())
                .map(day -> isTimed
                        ? day + " " + (parts.group(2).length() == 1 ? "0" : "") + parts.group(2) + ":" + parts.group(3)
                        : day.toString())
                .orElse(typed);
    }

    private static Typed figures(String typed, Frame frame) {
        Matcher figure = FIGURE.matcher(typed.replace('\u2212', '-'));
        StringBuilder kept = new StringBuilder();
        while (figure.find()) {
            Optional<String> one = frame.figures().typed(figure.group());
            if (one.isEmpty()) {
                return Typed.unclear(frame, frame.say("path.no-figure", figure.group()), "path.no-figure-remedy");
            }
            figure.appendReplacement(kept, Matcher.quoteReplacement(one.get()));
        }
        return Typed.kept(figure.appendTail(kept).toString());
    }
}
