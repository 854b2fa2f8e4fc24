package org.steamwright.filing;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** A place in a visit said as people say it: "run 2, channel T3". */
final class PlaceWords {

    /** Keys that hold lists, and what one entry is called. */
    private static final Map<String, String> ENTRIES = Map.ofEntries(
            Map.entry("sterilizers", "steriliser"),
            Map.entry("people", "person"),
            Map.entry("not-tested", "not tested, entry"),
            Map.entry("next-due", "next due, entry"),
            Map.entry("other-cycles", "other cycles, entry"),
            Map.entry("earlier-conditions", "earlier condition"),
            Map.entry("entries", "entry"),
            Map.entry("instrument-checks", "instrument check"),
            Map.entry("penetration", "steam penetration test"),
            Map.entry("evidence", "earlier evidence"),
            Map.entry("changes", "answer"));

    /** Keys whose own keys are names of the user's. */
    private static final Map<String, String> NAMED = Map.of("channels", "channel");

    private PlaceWords() {}

    static String of(FactPath path) {
        return String.join(", ", parts(path));
    }

    /** The same part by part. */
    static List<String> parts(FactPath path) {
        List<String> words = new ArrayList<>();
        List<String> steps = path.steps();
        for (int i = 0; i < steps.size(); i++) {
            String step = steps.get(i);
            boolean hasNext = i + 1 < steps.size();
            if (hasNext && FactPath.place(steps.get(i + 1)).isPresent()) {
                words.add(entry(step) + " " + steps.get(++i));
            } else if (hasNext && NAMED.containsKey(step)) {
                words.add(NAMED.get(step) + " " + steps.get(++i));
            } else {
                words.add(spelled(step));
            }
        }
        return words;
    }

    private static String entry(String key) {
        String own = ENTRIES.get(key);
        if (own != null) {
            return own;
        }
        return spelled(key.endsWith("s") ? key.substring(0, key.length() - 1) : key);
    }

    static String spelled(String key) {
        return key.replace('-', ' ').replace("sterilizer", "steriliser").replace("sterilizing", "sterilising");
    }
}
