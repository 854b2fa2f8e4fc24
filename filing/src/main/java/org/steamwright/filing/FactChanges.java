package org.steamwright.filing;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;

/** What has to be entered so that a subject states what a file states. */
final class FactChanges {

    private FactChanges() {}

    /**
     * One change for each fact that is new or another, and one for each that went.
     *
     * @param before the subject as the record has it; empty if it is new
     * @param facts as the file states them
     * @param isOfFile facts that only a file states: what it no longer states is taken away, its history stays
     * @param why reason of each change; may be blank
     */
    static List<Change> of(
            Kind kind,
            SubjectId id,
            Optional<Subject> before,
            Map<String, Object> facts,
            Predicate<String> isOfFile,
            String why) {
        List<Change> changes = new ArrayList<>();
        facts.forEach((property, fact) -> {
            JsonText value = JsonText.of(fact);
            if (!before.flatMap(subject -> subject.fact(property)).equals(Optional.of(value))) {
                changes.add(Change.set(kind, id, property, value).because(why));
            }
        });
        before.ifPresent(subject -> subject.facts().forEach((property, value) -> {
            if (isOfFile.test(property) && !value.isNull() && !facts.containsKey(property)) {
                changes.add(Change.set(kind, id, property, JsonText.NULL).because(why));
            }
        }));
        return changes;
    }
}
