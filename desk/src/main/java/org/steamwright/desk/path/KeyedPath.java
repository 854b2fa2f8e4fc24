package org.steamwright.desk.path;

import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.FactPath;

/**
 * A path in which an entry of a list may be named by some of its own keys instead of its place: {@code
 * job-sheet/changes/?sterilizer=A/moved}. Such an entry comes to be with its first value and goes with its last one.
 */
final class KeyedPath {

    private static final String MARK = "?";

    private final FactPath written;

    private KeyedPath(FactPath written) {
        this.written = written;
    }

    /**
     * A path as a page sends it.
     *
     * @throws IllegalArgumentException if it is no path
     */
    static KeyedPath parse(String text) {
        KeyedPath path = new KeyedPath(FactPath.parse(text));
        path.written.steps().stream().filter(step -> step.startsWith(MARK)).forEach(KeyedPath::keys);
        return path;
    }

    /** The step that names an entry by keys and values. */
    static String entry(String... keysAndValues) {
        StringBuilder step = new StringBuilder(MARK);
        for (int i = 0; i < keysAndValues.length; i += 2) {
            step.append(i == 0 ? "" : "&")
                    .append(keysAndValues[i])
                    .append('=')
                    .append(URLEncoder.encode(keysAndValues[i + 1], StandardCharsets.UTF_8));
        }
        return step.toString();
    }

    private static Map<String, String> keys(String step) {
        return Arrays.stream(step.substring(MARK.length()).split("&", -1))
                .map(pair -> pair.split("=", 2))
                .filter(pair -> pair.length == 2)
                .collect(Collectors.toMap(
                        pair -> pair[0],
                        pair -> URLDecoder.decode(pair[1], StandardCharsets.UTF_8),
                        (one, other) -> other,
                        TreeMap::new));
    }

    /** Where an entry was found, or not. */
    private record Way(FactPath found, List<String> missing, List<FactPath> entries, List<Map<String, String>> keys) {}

    private Way way(Draft draft) {
        List<String> done = new ArrayList<>();
        List<FactPath> entries = new ArrayList<>();
        List<Map<String, String>> keysOfEntries = new ArrayList<>();
        List<String> steps = written.steps();
        for (int i = 0; i < steps.size(); i++) {
            String step = steps.get(i);
            if (!step.startsWith(MARK) || done.isEmpty()) {
                done.add(step);
                continue;
            }
            Map<String, String> keys = keys(step);
            int place = place(draft.find(new FactPath(done)), keys);
            if (place == 0) {
                return new Way(new FactPath(done), steps.subList(i, steps.size()), entries, keysOfEntries);
            }
            done.add(String.valueOf(place));
            entries.add(new FactPath(done));
            keysOfEntries.add(keys);
        }
        return new Way(new FactPath(done), List.of(), entries, keysOfEntries);
    }

    private static int place(Optional<Object> list, Map<String, String> keys) {
        if (list.isPresent() && list.get() instanceof List<?> entries) {
            for (int i = 0; i < entries.size(); i++) {
                if (entries.get(i) instanceof Map<?, ?> map
                        && keys.entrySet().stream()
                                .allMatch(key -> key.getValue().equals(map.get(key.getKey())))) {
                    return i + 1;
                }
            }
        }
        return 0;
    }

    /** The path without keys, if all of its entries are there. */
    Optional<FactPath> find(Draft draft) {
        Way way = way(draft);
        return way.missing.isEmpty() ? Optional.of(way.found) : Optional.empty();
    }

    /** Where the fact stands, or will stand once it is set. */
    FactPath target(Draft draft) {
        Way way = way(draft);
        FactPath target = way.found;
        boolean isFirst = true;
        for (String step : way.missing) {
            if (step.startsWith(MARK)) {
                target = target.then(isFirst ? draft.count(way.found) + 1 : 1);
                isFirst = false;
            } else {
                target = target.then(step);
            }
        }
        return target;
    }

    /** The text that stands there; empty text if none does. */
    String text(Draft draft) {
        return find(draft).map(draft::text).orElse("");
    }

    /** The text that stands there, or the answer to a task. */
    String answerOrText(Draft draft) {
        return TaskAnswer.isOne(written.toString()) ? TaskAnswer.text(draft, written.toString()) : text(draft);
    }

    /** Adds what has to be done for that value to stand there. */
    void set(Draft draft, DraftChange change, String value, String seen) {
        Way way = way(draft);
        if (!way.missing.isEmpty()) {
            if (!value.isBlank()) {
                change.expect(way.found, draft.find(way.found));
                change.add(way.found, value(way.missing, 0, value));
            }
            return;
        }
        if (value.isBlank() && draft.find(way.found).isEmpty()) {
            return;
        }
        if (value.isBlank() && !way.entries.isEmpty()) {
            change.expect(way.found, seen.isBlank() ? Optional.empty() : Optional.of(seen));
            change.remove(emptied(draft, way));
            return;
        }
        change.set(way.found, Optional.of(value), seen.isBlank() ? Optional.empty() : Optional.of(seen));
    }

    /**
     * Adds what has to be done for an entry, which this path names by its keys, to hold these facts; blank ones go, and the entry
     * with its last one. What else it holds stays.
     */
    void put(Draft draft, DraftChange change, Map<String, String> facts) {
        Way way = way(draft);
        Map<String, Object> stated = new TreeMap<>(facts);
        stated.values().removeIf(""::equals);
        if (!way.missing.isEmpty()) {
            if (!stated.isEmpty()) {
                change.expect(way.found, draft.find(way.found));
                change.add(way.found, value(way.missing, 0, stated));
            }
            return;
        }
        String first = facts.keySet().iterator().next();
        FactPath going = emptied(draft, way, way.found.then(first), facts.keySet());
        if (stated.isEmpty() && going.steps().size() <= way.found.steps().size()) {
            change.expect(way.found, draft.find(way.found));
            change.remove(going);
            return;
        }
        facts.keySet().forEach(key -> {
            Optional<Object> value = Optional.ofNullable(stated.get(key));
            if (value.isPresent() || draft.find(way.found.then(key)).isPresent()) {
                change.set(way.found.then(key), value, draft.find(way.found.then(key)));
            }
        });
    }

    private static FactPath emptied(Draft draft, Way way) {
        return emptied(draft, way, way.found, Set.of());
    }

    /**
     * The outermost entry that would hold nothing but its own keys; else the fact itself.
     *
     * @param also facts that go with it
     */
    private static FactPath emptied(Draft draft, Way way, FactPath fact, Set<String> also) {
        FactPath going = fact;
        for (int i = way.entries.size() - 1; i >= 0; i--) {
            FactPath entry = way.entries.get(i);
            Object value = draft.find(entry).orElse(Map.of());
            boolean isAlone = going.steps().size() == entry.steps().size() + 1 || isOnlyEntry(draft, going, entry);
            String leaf = going.steps().get(entry.steps().size());
            Set<String> names = way.keys.get(i).keySet();
            if (!isAlone
                    || !(value instanceof Map<?, ?> map)
                    || map.keySet().stream()
                            .anyMatch(key -> !names.contains(key) && !leaf.equals(key) && !also.contains(key))) {
                return going;
            }
            going = entry;
        }
        return going;
    }

    /** Whether what goes is the only entry of a list right below an entry. */
    private static boolean isOnlyEntry(Draft draft, FactPath going, FactPath entry) {
        int depth = entry.steps().size();
        return going.steps().size() == depth + 2
                && draft.count(new FactPath(going.steps().subList(0, depth + 1))) == 1;
    }

    private static Object value(List<String> steps, int from, Object value) {
        String step = steps.get(from);
        boolean isLast = from + 1 == steps.size();
        if (!step.startsWith(MARK)) {
            return Map.of(step, isLast ? value : value(steps, from + 1, value));
        }
        Map<String, Object> entry = new TreeMap<>(keys(step));
        if (!isLast) {
            String next = steps.get(from + 1);
            Object inner;
            if (from + 2 == steps.size()) {
                inner = value;
            } else if (steps.get(from + 2).startsWith(MARK)) {
                inner = List.of(value(steps, from + 2, value));
            } else {
                inner = value(steps, from + 2, value);
            }
            entry.put(next, inner);
        } else if (value instanceof Map<?, ?> facts) {
            facts.forEach((key, fact) -> entry.put(String.valueOf(key), fact));
        }
        return entry;
    }

    @Override
    public String toString() {
        return written.toString();
    }
}
