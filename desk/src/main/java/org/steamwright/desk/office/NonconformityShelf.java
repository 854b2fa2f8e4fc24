package org.steamwright.desk.office;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;

/**
 * One line of every non-conformity, kept at hand: read as a whole once, then only those that an entry of the journal has
 * touched since.
 */
final class NonconformityShelf {

    private static final int ENTRIES_AT_ONCE = 500;

    /**
     * A non-conformity as the list shows it.
     *
     * @param id of its subject
     * @param number by which people call it
     * @param what went wrong
     * @param owner who has to act
     * @param until day on which that has to be done; may be blank
     * @param closed day on which it was closed; blank while it is open
     */
    record Line(SubjectId id, String number, String what, String owner, String until, String closed) {

        static Line of(Subject subject) {
            return new Line(
                    subject.id(),
                    subject.text("number"),
                    subject.text("what"),
                    subject.text("owner"),
                    subject.text("until"),
                    subject.text("closed"));
        }

        boolean isClosed() {
            return !closed.isBlank();
        }
    }

    private final Records records;
    private final Map<SubjectId, Line> lines = new LinkedHashMap<>();
    private long seen = -1;

    NonconformityShelf(Records records) {
        this.records = records;
    }

    /** All lines as they stand now, in the order of their making. */
    synchronized List<Line> all() {
        long size = records.head().tree().size();
        if (seen < 0) {
            records.eachSubject(Kind.NONCONFORMITY, subject -> lines.put(subject.id(), Line.of(subject)));
        } else {
            records.subjects(List.copyOf(touched(size))).forEach(subject -> lines.put(subject.id(), Line.of(subject)));
        }
        seen = size;
        return new ArrayList<>(lines.values());
    }

    private Set<SubjectId> touched(long size) {
        Set<SubjectId> touched = new LinkedHashSet<>();
        for (long from = seen; from < size; from += ENTRIES_AT_ONCE) {
            for (JournalEntry entry : records.entries(from, (int) Math.min(ENTRIES_AT_ONCE, size - from))) {
                if (entry.kind() == Kind.NONCONFORMITY) {
                    touched.add(entry.subject());
                }
            }
        }
        return touched;
    }
}
