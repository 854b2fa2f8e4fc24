package org.steamwright.desk.shelf;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.AssessedVisit;

/** What follows from visits of the record. The last ones are kept at hand; a visit whose facts changed is assessed again. */
public final class AssessedVisits {

    private static final int MOST = 24;

    private record Kept(JsonText facts, AssessedVisit assessed) {}

    private final Filing filing;
    private final Map<SubjectId, Kept> kept = new LinkedHashMap<>(MOST, 0.75f, true);

    /** @param filing of the record */
    public AssessedVisits(Filing filing) {
        this.filing = filing;
    }

    /**
     * What follows from a visit as it stands.
     *
     * @throws VisitFolderException if its facts can't be read as a visit yet
     */
    public AssessedVisit of(Subject visit) throws IOException, FilingException, VisitFolderException {
        JsonText facts = visit.toJson();
        synchronized (kept) {
            Optional<Kept> known = Optional.ofNullable(kept.get(visit.id()));
            if (known.isPresent() && known.get().facts.equals(facts)) {
                return known.get().assessed;
            }
        }
        AssessedVisit assessed = filing.assess(visit);
        synchronized (kept) {
            kept.put(visit.id(), new Kept(facts, assessed));
            if (kept.size() > MOST) {
                kept.remove(kept.keySet().iterator().next());
            }
        }
        return assessed;
    }
}
