package org.steamwright.filing;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;

/** Subjects of a record by the fact under which people know them. */
final class Subjects {

    private final Records records;
    private final Meant meant;

    Subjects(Records records) {
        this.records = records;
        this.meant = new Meant(records);
    }

    /** Which clinics and machines are meant. */
    Meant meant() {
        return meant;
    }

    /** The subject of that kind whose fact has exactly that text. */
    Optional<SubjectId> find(Kind kind, String property, String text) {
        return records.exactly(kind, property, text).stream().map(Subject::id).findFirst();
    }

    /** The same; made by the changes if there is none. */
    SubjectId findOrMake(Kind kind, String property, String text, List<Change> changes, Map<String, String> more) {
        Optional<SubjectId> known = find(kind, property, text);
        if (known.isPresent()) {
            return known.get();
        }
        for (Change change : changes) {
            if (change.kind() == kind
                    && change.property().equals(property)
                    && change.value().plain().equals(text)) {
                return change.subject();
            }
        }
        return make(kind, property, text, changes, more);
    }

    /** A subject that the changes make. */
    SubjectId make(Kind kind, String property, String text, List<Change> changes, Map<String, String> more) {
        SubjectId id = records.newSubject();
        changes.add(Change.set(kind, id, property, text));
        more.forEach((fact, value) -> {
            if (!value.isBlank()) {
                changes.add(Change.set(kind, id, fact, value));
            }
        });
        return id;
    }
}
