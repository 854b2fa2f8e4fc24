package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;

/** Entries that come several times in a visit: what the next one has in common with the one before. */
final class Again {

    private static final String INDICATORS = "indicators";
    private static final String CHEMICAL = "chemical-indicators";
    private static final String WEIGHINGS = "weighings";

    /** What one box of indicators has in common, and one incubator. */
    private static final Map<String, List<String>> COMMON = Map.of(
            INDICATORS,
            List.of(
                    "product",
                    "lot",
                    "expires",
                    "population",
                    "d-value",
                    "d-value-U",
                    "d-value-at",
                    "z",
                    "incubation",
                    "incubated-until"),
            CHEMICAL,
            List.of("type", "product", "lot", "expires", "stated-values"),
            WEIGHINGS,
            List.of());

    /** What the same entry of another run has in common beside that. */
    private static final Map<String, List<String>> OF_ANOTHER_RUN = Map.of(
            INDICATORS,
            List.of("control", "position"),
            CHEMICAL,
            List.of("position"),
            WEIGHINGS,
            List.of("item", "kind"));

    private static final Map<String, String> MARKS = Map.of(INDICATORS, "BI-", CHEMICAL, "CI-");

    private static final Pattern LIST = Pattern.compile("runs/([1-9][0-9]{0,3})/([a-z-]+)");

    private Again() {}

    /** Whether entries of a list of a run can come again in another one. */
    static boolean isList(FactPath path) {
        Matcher list = LIST.matcher(path.toString());
        return list.matches() && COMMON.containsKey(list.group(2));
    }

    private static String kind(FactPath list) {
        return list.steps().get(list.steps().size() - 1);
    }

    /** What a new entry begins with: what was asked for, a mark of its own, and what it has in common with the last one. */
    static Map<String, Object> begun(Draft draft, FactPath list, Map<String, String> asked) {
        Map<String, Object> entry = new LinkedHashMap<>();
        if (isList(list)) {
            last(draft, list).ifPresent(before -> take(before, COMMON.getOrDefault(kind(list), List.of()), entry));
            mark(draft, list, 0).ifPresent(mark -> entry.put("id", mark));
        }
        entry.putAll(asked);
        return entry;
    }

    /** The entries of another run as they come again in this one: with marks of their own, and nothing read yet. */
    static List<Map<String, Object>> of(Draft draft, FactPath from, FactPath to) {
        List<Map<String, Object>> entries = new ArrayList<>();
        for (int i = 1; i <= draft.count(from); i++) {
            Map<String, Object> entry = new LinkedHashMap<>();
            Map<?, ?> before = draft.find(from.then(i)).orElse(Map.of()) instanceof Map<?, ?> map ? map : Map.of();
            take(before, COMMON.getOrDefault(kind(from), List.of()), entry);
            take(before, OF_ANOTHER_RUN.getOrDefault(kind(from), List.of()), entry);
            mark(draft, to, i - 1).ifPresent(mark -> entry.put("id", mark));
            if (kind(from).equals(INDICATORS)) {
                entry.put("result", "awaited");
            }
            entries.add(entry);
        }
        return entries;
    }

    /** The run before this one that has entries in the same list; empty if none has, or this one has some itself. */
    static Optional<Integer> before(Draft draft, int run, String list) {
        if (draft.count(FactPath.of("runs", run, list)) > 0) {
            return Optional.empty();
        }
        for (int before = run - 1; before >= 1; before--) {
            if (draft.count(FactPath.of("runs", before, list)) > 0) {
                return Optional.of(before);
            }
        }
        return Optional.empty();
    }

    /** The last entry of the list, or of the same list of a run before. */
    private static Optional<Map<?, ?>> last(Draft draft, FactPath list) {
        for (int run = Integer.parseInt(list.steps().get(1)); run >= 1; run--) {
            FactPath there = FactPath.of("runs", run, kind(list));
            int entries = draft.count(there);
            if (entries > 0 && draft.find(there.then(entries)).orElse("") instanceof Map<?, ?> map) {
                return Optional.of(map);
            }
        }
        return Optional.empty();
    }

    private static void take(Map<?, ?> from, List<String> keys, Map<String, Object> into) {
        for (String key : keys) {
            Object value = from.get(key);
            if (value != null) {
                into.put(key, value);
            }
        }
    }

    /** The next mark that no indicator of the visit has; empty for what has none. */
    static Optional<String> mark(Draft draft, FactPath list, int ahead) {
        return Optional.ofNullable(MARKS.get(kind(list))).map(sign -> {
            int highest = 0;
            for (int run = 1; run <= draft.count(FactPath.of("runs")); run++) {
                FactPath there = FactPath.of("runs", run, kind(list));
                for (int i = 1; i <= draft.count(there); i++) {
                    String id = draft.text(there.then(i).then("id"));
                    if (id.matches(sign + "[0-9]{1,6}")) {
                        highest = Math.max(highest, Integer.parseInt(id.substring(sign.length())));
                    }
                }
            }
            return sign + (highest + 1 + ahead);
        });
    }
}
