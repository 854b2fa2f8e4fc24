package org.steamwright.intake.folder;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** A mapping of the file whose keys have been checked against its {@link KeyedShape}. */
public final class Fields {

    private final Entry entry;
    private final KeyedShape shape;
    private final Map<String, Entry> byKey;
    private final Set<String> asked = new HashSet<>();

    Fields(Entry entry, KeyedShape shape, Map<String, Entry> byKey) {
        this.entry = entry;
        this.shape = shape;
        this.byKey = new LinkedHashMap<>(byKey);
    }

    /** The mapping itself, as a place for messages. */
    public Entry entry() {
        return entry;
    }

    /** The value of a key. */
    public Optional<Entry> find(String key) {
        if (!shape.keys().contains(key)) {
            throw new IllegalArgumentException("shape " + shape + " has no key " + key);
        }
        asked.add(key);
        return Optional.ofNullable(byKey.get(key));
    }

    /** The value of a key; if it is missing, a problem that shows how to write it. */
    public Optional<Entry> need(String key, String example) {
        Optional<Entry> found = find(key);
        if (found.isEmpty()) {
            entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.missing("found no \"%s\", expected it here.", key)
                            .inFile("Add a line like: " + key + ": " + example));
        }
        return found;
    }

    /** The text of a key; blank if the key is missing. */
    public String text(String key) {
        return find(key).flatMap(Entry::text).orElse("");
    }

    public Optional<String> needText(String key, String example) {
        return need(key, example).flatMap(Entry::text);
    }

    public Optional<Double> quantity(String key, Measure measure) {
        return find(key).flatMap(value -> value.quantity(measure));
    }

    public OptionalInt count(String key) {
        Optional<Entry> found = find(key);
        return found.isPresent() ? found.get().count() : OptionalInt.empty();
    }

    public Optional<LocalDate> date(String key) {
        return find(key).flatMap(Entry::date);
    }

    /** The entries of a list; none if the key is missing. */
    public List<Entry> list(String key) {
        return find(key).map(Entry::list).orElse(List.of());
    }

    /** One text or a list of texts; none if the key is missing. */
    public List<String> texts(String key) {
        List<String> texts = new ArrayList<>();
        for (Entry one : find(key).map(Entry::listOrOne).orElse(List.of())) {
            one.text().ifPresent(texts::add);
        }
        return texts;
    }

    void checkAllAsked() {
        for (String key : byKey.keySet()) {
            if (!asked.contains(key)) {
                throw new IllegalStateException(
                        "key '" + key + "' of shape " + shape + " is accepted but nothing reads it");
            }
        }
    }
}
