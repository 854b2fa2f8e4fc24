package org.steamwright.records;

import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;

/**
 * A clinic, sterilizer, visit or the like with its facts as they stand.
 *
 * @param id identity
 * @param kind what it is
 * @param facts values by property, in order of the property
 */
public record Subject(SubjectId id, Kind kind, SortedMap<String, JsonText> facts) {

    public Subject {
        facts = Collections.unmodifiableSortedMap(new TreeMap<>(facts));
    }

    /** A fact, if there is one. */
    public Optional<JsonText> fact(String property) {
        return Optional.ofNullable(facts.get(property));
    }

    /** A fact as text without quotation marks; empty text if there is none. */
    public String text(String property) {
        return fact(property).map(JsonText::plain).orElse("");
    }

    /** Hash over all facts: equal for the same facts only. */
    public Hash hash() {
        return Hash.ofContent(toJson().bytes());
    }

    /** Facts as one JSON object. */
    public JsonText toJson() {
        StringBuilder object = new StringBuilder("{");
        for (Map.Entry<String, JsonText> fact : facts.entrySet()) {
            if (object.length() > 1) {
                object.append(',');
            }
            object.append(JsonText.of(fact.getKey())).append(':').append(fact.getValue());
        }
        return JsonText.parse(object.append('}').toString());
    }
}
