package org.steamwright.desk.shelf;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;

/** Places in a chamber, in the words that the plan of the chamber understands. */
public final class ChamberPlaces {

    private static final String TRAY = "tray ";
    private static final int MOST_TRAYS = 12;

    private ChamberPlaces() {}

    /**
     * What can be said of a place by touch: one of each group.
     *
     * @param trayLevels that are stated; 0 if none are
     */
    public static List<List<String>> steps(int trayLevels) {
        List<List<String>> groups = new ArrayList<>(List.of(
                List.of("front", "middle", "back"),
                List.of("left", "centre", "right"),
                List.of("top", "half way", "bottom")));
        if (trayLevels > 0) {
            groups.add(IntStream.rangeClosed(1, Math.min(trayLevels, MOST_TRAYS))
                    .mapToObj(number -> TRAY + number)
                    .toList());
        }
        return groups;
    }

    /** A step in the words of the reader, who is told by keys of the room of runs. */
    public static String said(String step, UnaryOperator<String> word, UnaryOperator<String> tray) {
        return step.startsWith(TRAY)
                ? tray.apply(step.substring(TRAY.length()))
                : word.apply("runs.step." + step.replace(' ', '-'));
    }

    /** A place as it is kept in the words of the reader: steps that are known, and the rest as it was typed. */
    public static String saidAll(String place, UnaryOperator<String> word, UnaryOperator<String> tray) {
        List<String> known = steps(MOST_TRAYS).stream().flatMap(List::stream).toList();
        return Pattern.compile(",")
                .splitAsStream(place)
                .map(String::strip)
                .map(part -> known.contains(part.toLowerCase(Locale.ROOT))
                        ? said(part.toLowerCase(Locale.ROOT), word, tray)
                        : part)
                .collect(Collectors.joining(", "));
    }

    /** Places of a chamber that a pack can lie at: how deep, and at which height or on which tray. */
    public static List<List<String>> places(int trayLevels) {
        List<List<String>> steps = steps(trayLevels);
        List<List<String>> places = new ArrayList<>();
        for (String depth : steps.get(0)) {
            for (String level : steps.get(steps.size() - 1)) {
                places.add(List.of(depth, level));
            }
        }
        return places;
    }

    /** Letters of the sensors of a run, each with its place in words; the place is blank if nobody stated it. */
    public static Map<String, String> sensors(Draft draft, int run) {
        Map<String, String> sensors = new LinkedHashMap<>();
        if (draft.find(FactPath.of("runs", run, "channels")).orElse(Map.of()) instanceof Map<?, ?> channels) {
            for (Object said : channels.values()) {
                if (said instanceof Map<?, ?> map && map.get("position") instanceof String letter) {
                    sensors.put(letter, map.get("place") instanceof String place ? place : "");
                }
            }
        }
        return sensors;
    }
}
