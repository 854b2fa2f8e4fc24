package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The points of a calibration certificate as somebody copies them from paper: one a line, the reference first, then what the
 * instrument showed, then the uncertainty and its factor where the paper states them for each point.
 */
final class PointLines {

    private static final JsonNodeFactory MAKING = JsonNodeFactory.instance;
    private static final List<String> KEYS = List.of("reference", "indicated", "U", "k");
    private static final String NAMED = "[Uk]\\s*=?\\s*(?=[-+\\u2212\\u00b1]?\\d)";
    private static final Pattern NAME = Pattern.compile("^([Uk])\\s*=?\\s*(?=[-+\\u2212\\u00b1]?\\d)");

    /** A figure with its unit, if it has one; the name of the next figure is no unit. */
    private static final Pattern FIGURE = Pattern.compile("(?:" + NAMED
            + ")?[-+\\u2212\\u00b1]?\\d+(?:[.,]\\d+)*(?:\\s*(?!" + NAMED + ")[\\u00b0%\\p{L}][^\\d\\s;]*)?");

    private static final Pattern BARE = Pattern.compile("\\u00b1?[-+]?\\d+(?:\\.\\d+)?");

    private PointLines() {}

    /** Units that a figure without one is meant in: of a value, and of a difference of two. */
    record Units(String value, String difference) {

        static Units of(String measures) {
            return switch (measures) {
                case "temperature" -> new Units("°C", "K");
                case "pressure" -> new Units("kPa", "kPa");
                default -> new Units("", "");
            };
        }

        private String of(int place) {
            return place <= 1 ? value : place == 2 ? difference : "";
        }
    }

    /** Points as lines. */
    static String shown(JsonNode points) {
        List<String> lines = new ArrayList<>();
        points.forEach(point -> {
            List<String> figures = new ArrayList<>();
            if (point.isObject()) {
                for (String key : KEYS) {
                    if (point.has(key)) {
                        figures.add((key.length() == 1 ? key + " " : "")
                                + point.path(key).asText());
                    }
                }
            } else if (point.isArray()) {
                point.forEach(figure -> figures.add(figure.asText()));
            } else {
                figures.add(point.asText());
            }
            lines.add(String.join("; ", figures));
        });
        return String.join("\n", lines);
    }

    /**
     * Points from lines. What is no point stays as it was written, so that whoever reads the entry can say so.
     *
     * @param figure a figure as files have it
     */
    static ArrayNode read(List<String> lines, UnaryOperator<String> figure, Units units) {
        ArrayNode points = MAKING.arrayNode();
        lines.forEach(line -> points.add(point(line, figure, units)));
        return points;
    }

    private static JsonNode point(String line, UnaryOperator<String> figure, Units units) {
        List<String> parts = parts(line);
        ObjectNode point = MAKING.objectNode();
        int place = 0;
        for (String part : parts) {
            Matcher name = NAME.matcher(part);
            boolean isNamed = name.find();
            int at = isNamed ? KEYS.indexOf(name.group(1)) : place;
            if (at >= KEYS.size() || point.has(KEYS.get(at))) {
                return MAKING.textNode(line);
            }
            String plain = figure.apply(isNamed ? part.substring(name.end()) : part);
            boolean isBare = BARE.matcher(plain).matches();
            point.put(KEYS.get(at), isBare ? (plain + " " + units.of(at)).strip() : plain);
            place = at + 1;
        }
        boolean isPair = point.size() == 2 && point.has("reference") && point.has("indicated");
        return parts.isEmpty()
                ? MAKING.textNode(line)
                : isPair ? MAKING.arrayNode().add(point.path("reference")).add(point.path("indicated")) : point;
    }

    private static List<String> parts(String line) {
        if (line.indexOf(';') >= 0 || line.indexOf('\t') >= 0) {
            return Arrays.stream(line.split("[;\\t]"))
                    .map(String::strip)
                    .filter(part -> !part.isEmpty())
                    .toList();
        }
        List<String> parts = new ArrayList<>();
        Matcher figures = FIGURE.matcher(line);
        while (figures.find()) {
            parts.add(figures.group().strip());
        }
        String rest = figures.replaceAll("");
        return rest.matches("[\\s,/|]*") ? parts : List.of();
    }

    /** The lines of a text, without blank ones. */
    static Optional<List<String>> lines(String text) {
        List<String> lines =
                text.lines().map(String::strip).filter(line -> !line.isEmpty()).toList();
        return Optional.of(lines).filter(all -> !all.isEmpty());
    }
}
