package org.steamwright.filing;

import java.io.IOException;
import java.lang.ref.SoftReference;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.proof.Hash;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visits;

/**
 * What reading and assessing a visit gives, once for all rooms. The last ones are kept as long as their files stay the same and
 * memory is not needed for something else. One visit is not assessed by two threads at once, and of those with large
 * recordings only one at all.
 */
final class AssessedOnce {

    private static final int MOST = 24;
    private static final int LOCKS = 16;
    private static final int ATTEMPTS = 3;
    private static final long LARGE_BYTES = 20_000_000;

    private final Records records;
    private final Map<SubjectId, Kept> kept = new LinkedHashMap<>(MOST, 0.75f, true);
    private final Object[] locks = new Object[LOCKS];

    /** What came of a visit: the assessment, what keeps it from being read, or both where only entries are not finished. */
    record Outcome(Optional<AssessedVisit> assessed, Optional<VisitFolderException> problems) {}

    private record Kept(NavigableMap<String, Hash> of, SoftReference<Outcome> outcome) {}

    AssessedOnce(Records records) {
        this.records = records;
        for (int i = 0; i < LOCKS; i++) {
            locks[i] = new Object();
        }
    }

    /** What comes of the visit as it stands. */
    Outcome of(Subject visit) throws IOException, FilingException {
        Optional<Outcome> known = peek(visit);
        if (known.isPresent()) {
            return known.get();
        }
        NavigableMap<String, Hash> files = VisitFiles.of(visit);
        boolean isLarge = VisitFiles.bytes(visit) > LARGE_BYTES;
        synchronized (locks[isLarge ? 0 : Math.floorMod(visit.id().hashCode(), LOCKS - 1) + 1]) {
            // somebody else may have been at it
            Optional<Outcome> meanwhile = peek(visit);
            if (meanwhile.isPresent()) {
                return meanwhile.get();
            }
            Outcome outcome = read(files);
            synchronized (kept) {
                kept.put(visit.id(), new Kept(files, new SoftReference<>(outcome)));
                if (kept.size() > MOST) {
                    kept.remove(kept.keySet().iterator().next());
                }
            }
            return outcome;
        }
    }

    private Outcome read(NavigableMap<String, Hash> files) throws IOException, FilingException {
        try (ScratchFolder scratch = new ScratchFolder(records.files(), files)) {
            try {
                return new Outcome(
                        Optional.of(Visits.assess(VisitFolder.read(scratch.folder(), new Presets()))),
                        Optional.empty());
            } catch (VisitFolderException unreadable) {
                return new Outcome(finished(scratch, files, unreadable), Optional.of(unreadable));
            }
        }
    }

    /** What follows from all that is finished, so that an entry which was only begun does not hide the rest. */
    private Optional<AssessedVisit> finished(
            ScratchFolder scratch, NavigableMap<String, Hash> files, VisitFolderException unreadable)
            throws IOException {
        Hash visitFile = files.get(Filing.VISIT_FILE);
        Optional<Unfinished> rest = visitFile == null
                ? Optional.empty()
                : Optional.of(Unfinished.nothing(records.files().get(visitFile)));
        List<Problem> problems = unreadable.problems();
        // what was left out may have been named elsewhere
        for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
            List<Problem> found = problems;
            rest = rest.flatMap(before -> before.without(found));
            if (rest.isEmpty()) {
                break;
            }
            rest.get().write(scratch.folder());
            try {
                return Optional.of(Visits.assess(rest.get().told(VisitFolder.read(scratch.folder(), new Presets()))));
            } catch (VisitFolderException more) {
                problems = more.problems();
            }
        }
        // the first problems tell more than those of what is left
        return Optional.empty();
    }

    /** What came of the visit as it stands, if that is at hand. */
    Optional<Outcome> peek(Subject visit) {
        NavigableMap<String, Hash> files = VisitFiles.of(visit);
        synchronized (kept) {
            return Optional.ofNullable(kept.get(visit.id()))
                    .filter(before -> before.of.equals(files))
                    .map(before -> before.outcome.get());
        }
    }
}
