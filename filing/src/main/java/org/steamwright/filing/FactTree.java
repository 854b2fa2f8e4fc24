package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.steamwright.records.json.JsonText;

/**
 * Stated facts as a tree of maps, lists and texts; never changed, only replaced. A key never stands without a value: one whose
 * last value is taken away goes with it. An entry of a list stays, even with nothing in it, because its place is its number.
 */
final class FactTree {

    static final FactTree EMPTY = new FactTree(new TreeMap<>());

    private final SortedMap<String, Object> root;

    private FactTree(SortedMap<String, Object> root) {
        this.root = Collections.unmodifiableSortedMap(root);
    }

    /**
     * The tree of facts as a record keeps them: first keys, and for a list its places.
     *
     * @param facts values by {@code key} or {@code key/place}
     */
    static FactTree ofFacts(Map<String, ?> facts) {
        Map<String, TreeMap<Integer, Object>> lists = new TreeMap<>();
        SortedMap<String, Object> root = new TreeMap<>();
        facts.forEach((property, fact) -> {
            int stroke = property.lastIndexOf('/');
            OptionalInt place = stroke < 0 ? OptionalInt.empty() : FactPath.place(property.substring(stroke + 1));
            if (place.isPresent()) {
                lists.computeIfAbsent(property.substring(0, stroke), key -> new TreeMap<>())
                        .put(place.getAsInt(), frozen(fact));
            } else {
                root.put(property, frozen(fact));
            }
        });
        lists.forEach((key, entries) -> root.put(key, List.copyOf(entries.values())));
        return new FactTree(root);
    }

    /** The tree with these first keys. */
    static FactTree of(Map<String, ?> keys) {
        SortedMap<String, Object> root = new TreeMap<>();
        keys.forEach((key, value) -> {
            Object frozen = frozen(value);
            if (!isNothing(frozen)) {
                root.put(key, frozen);
            }
        });
        return new FactTree(root);
    }

    /** A value of maps, lists and texts that nobody changes any more; what is no text is written as JSON writes it. */
    static Object frozen(@Nullable Object value) {
        if (value instanceof JsonText json) {
            return frozen(json.node());
        }
        if (value instanceof JsonNode node) {
            return frozen(node);
        }
        if (value instanceof Map<?, ?> map) {
            SortedMap<String, Object> copy = new TreeMap<>();
            map.forEach((key, one) -> copy.put(String.valueOf(key), frozen(one)));
            return Collections.unmodifiableSortedMap(copy);
        }
        if (value instanceof List<?> list) {
            List<Object> copy = new ArrayList<>();
            list.forEach(one -> copy.add(frozen(one)));
            return Collections.unmodifiableList(copy);
        }
        return value == null ? "" : String.valueOf(value);
    }

    private static Object frozen(JsonNode node) {
        if (node.isObject()) {
            SortedMap<String, Object> map = new TreeMap<>();
            node.properties().forEach(member -> map.put(member.getKey(), frozen(member.getValue())));
            return Collections.unmodifiableSortedMap(map);
        }
        if (node.isArray()) {
            List<Object> list = new ArrayList<>();
            node.forEach(one -> list.add(frozen(one)));
            return Collections.unmodifiableList(list);
        }
        return node.isNull() ? "" : node.asText();
    }

    /** The same without what is blank or empty. */
    private static Object pruned(Object value) {
        Object frozen = frozen(value);
        if (frozen instanceof Map<?, ?> map) {
            SortedMap<String, Object> copy = new TreeMap<>();
            map.forEach((key, one) -> {
                Object kept = pruned(one);
                if (!isNothing(kept)) {
                    copy.put(String.valueOf(key), kept);
                }
            });
            return Collections.unmodifiableSortedMap(copy);
        }
        if (frozen instanceof List<?> list) {
            return list.stream()
                    .map(FactTree::pruned)
                    .filter(one -> !isNothing(one))
                    .toList();
        }
        return frozen;
    }

    /** Whether nothing would be left of a value. */
    static boolean isBlank(Object value) {
        return isNothing(pruned(value));
    }

    private static boolean isNothing(Object value) {
        return (value instanceof String text && text.isBlank())
                || (value instanceof Map<?, ?> map && map.isEmpty())
                || (value instanceof List<?> list && list.isEmpty());
    }

    SortedMap<String, Object> root() {
        return root;
    }

    /** The facts as a record keeps them; the opposite of {@link #ofFacts}. */
    SortedMap<String, Object> facts() {
        SortedMap<String, Object> facts = new TreeMap<>();
        root.forEach((key, value) -> {
            if (value instanceof List<?> list) {
                for (int i = 0; i < list.size(); i++) {
                    facts.put(key + "/" + (i + 1), list.get(i));
                }
            } else {
                facts.put(key, value);
            }
        });
        return facts;
    }

    /** The value at a path. */
    Optional<Object> find(FactPath path) {
        @Nullable Object value = root;
        for (String step : path.steps()) {
            if (value instanceof Map<?, ?> map) {
                value = map.get(step);
            } else if (value instanceof List<?> list) {
                OptionalInt place = FactPath.place(step);
                value = place.isPresent() && place.getAsInt() <= list.size() ? list.get(place.getAsInt() - 1) : null;
            } else {
                value = null;
            }
        }
        return Optional.ofNullable(value);
    }

    /** A path leads to no place where a value could stand. */
    static final class NoPlaceException extends Exception {
        private static final long serialVersionUID = 1L;

        NoPlaceException(String text) {
            super(text);
        }
    }

    /**
     * The tree with that value at the path; nothing takes the value away. Maps on the way are made, lists are not: an entry of
     * a list is added.
     *
     * @throws NoPlaceException if the path leads through a text, or to an entry that the list does not have
     */
    FactTree with(FactPath path, Optional<Object> value) throws NoPlaceException {
        Optional<Object> wanted = value.map(FactTree::pruned).filter(one -> !isNothing(one));
        return new FactTree(asRoot(changed(root, path, 0, wanted)));
    }

    /** The tree with one more entry at the end of the list. */
    FactTree added(FactPath list, Object entry) throws NoPlaceException {
        List<Object> longer = new ArrayList<>();
        Optional<Object> there = find(list);
        if (there.isPresent()) {
            if (!(there.get() instanceof List<?> entries)) {
                throw new NoPlaceException(list + " is no list");
            }
            longer.addAll(entries);
        }
        longer.add(pruned(entry));
        return new FactTree(asRoot(changed(root, list, 0, Optional.of(longer))));
    }

    /** The tree without the value or list entry at the path; entries behind it move up. */
    FactTree without(FactPath path) throws NoPlaceException {
        if (find(path).isEmpty()) {
            throw new NoPlaceException(path + " is not there");
        }
        return new FactTree(asRoot(changed(root, path, 0, Optional.empty())));
    }

    /** Whether the keys below a key are names of the user's own, which may be numbers. */
    private static boolean hasOwnNames(String key) {
        return key.equals("channels") || key.equals("units");
    }

    private static SortedMap<String, Object> asRoot(@Nullable Object changed) {
        SortedMap<String, Object> root = new TreeMap<>();
        if (changed instanceof Map<?, ?> map) {
            map.forEach((key, value) -> root.put(String.valueOf(key), value));
        }
        return root;
    }

    private static @Nullable Object changed(@Nullable Object here, FactPath path, int depth, Optional<Object> value)
            throws NoPlaceException {
        if (depth == path.steps().size()) {
            return value.isPresent() ? frozen(value.get()) : null;
        }
        String step = path.steps().get(depth);
        if (here instanceof List<?> list) {
            OptionalInt place = FactPath.place(step);
            if (place.isEmpty() || place.getAsInt() > list.size()) {
                throw new NoPlaceException("%s: the list has %s entries".formatted(path, list.size()));
            }
            List<Object> copy = new ArrayList<>(list);
            int index = place.getAsInt() - 1;
            Object changed = changed(copy.get(index), path, depth + 1, value);
            if (changed != null) {
                copy.set(index, changed);
            } else if (depth + 1 == path.steps().size()) {
                copy.remove(index);
            } else {
                copy.set(index, Collections.emptySortedMap());
            }
            return copy.isEmpty() ? null : Collections.unmodifiableList(copy);
        }
        if (here != null && !(here instanceof Map<?, ?>)) {
            throw new NoPlaceException("%s: '%s' has a text before it, with nothing below".formatted(path, step));
        }
        if (here == null
                && depth > 0
                && FactPath.place(step).isPresent()
                && !hasOwnNames(path.steps().get(depth - 1))) {
            throw new NoPlaceException("%s: the list has no entries".formatted(path));
        }
        SortedMap<String, Object> copy = here == null ? new TreeMap<>() : asRoot(here);
        Object changed = changed(copy.get(step), path, depth + 1, value);
        if (changed == null) {
            copy.remove(step);
        } else {
            copy.put(step, changed);
        }
        return copy.isEmpty() ? null : Collections.unmodifiableSortedMap(copy);
    }

    /** Every value that stands in one tree and not in the other, or differs, as far down as both have the same shape. */
    static List<ChangedFact> differences(FactTree before, FactTree after) {
        List<ChangedFact> differences = new ArrayList<>();
        compare(List.of(), before.root, after.root, differences);
        return differences;
    }

    private static void compare(
            List<String> steps, @Nullable Object before, @Nullable Object after, List<ChangedFact> differences) {
        if (Objects.equals(before, after)) {
            return;
        }
        if (before instanceof Map<?, ?> one && after instanceof Map<?, ?> other) {
            SortedSet<String> keys = new TreeSet<>();
            one.keySet().forEach(key -> keys.add(String.valueOf(key)));
            other.keySet().forEach(key -> keys.add(String.valueOf(key)));
            keys.forEach(key -> compare(further(steps, key), one.get(key), other.get(key), differences));
        } else if (before instanceof List<?> one && after instanceof List<?> other) {
            for (int i = 0; i < Math.max(one.size(), other.size()); i++) {
                compare(
                        further(steps, String.valueOf(i + 1)),
                        i < one.size() ? one.get(i) : null,
                        i < other.size() ? other.get(i) : null,
                        differences);
            }
        } else {
            differences.add(
                    new ChangedFact(new FactPath(steps), Optional.ofNullable(before), Optional.ofNullable(after)));
        }
    }

    private static List<String> further(List<String> steps, String step) {
        List<String> longer = new ArrayList<>(steps);
        longer.add(step);
        return longer;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof FactTree tree && root.equals(tree.root);
    }

    @Override
    public int hashCode() {
        return root.hashCode();
    }

    @Override
    public String toString() {
        return root.toString();
    }
}
