package org.steamwright.desk.runs;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What was typed of an offset that is not yet complete: a note of the way, so that leaving the page loses nothing. */
final class ClockNote {

    private static final List<String> KEYS = List.of("offset", "half-width", "because");

    private ClockNote() {}

    static String name(RunFacts facts, String file) {
        return "clock-" + facts.number() + "-" + file;
    }

    /** The text of the note: one line for each key, in their order. */
    static String of(Map<String, Object> clock) {
        StringBuilder text = new StringBuilder();
        for (String key : KEYS) {
            text.append(clock.getOrDefault(key, "").toString().replaceAll("\\s+", " "))
                    .append('\n');
        }
        return text.toString();
    }

    /** What was typed; empty if there is no such note. */
    static Map<String, Object> read(RunFacts facts, String file) {
        String text = facts.draft().note(name(facts, file));
        Map<String, Object> clock = new LinkedHashMap<>();
        if (!text.isEmpty()) {
            String[] lines = text.split("\n", -1);
            for (int i = 0; i < KEYS.size(); i++) {
                clock.put(KEYS.get(i), i < lines.length ? lines[i] : "");
            }
        }
        return clock;
    }
}
