package org.steamwright.desk.shelf;

import java.io.IOException;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Subject;
import org.steamwright.visit.AssessedVisit;

/** What follows from visits of the record, signed or not; at hand together with what the drafts have read. */
public final class AssessedVisits {

    private final Drafts drafts;

    /** @param drafts of the record */
    public AssessedVisits(Drafts drafts) {
        this.drafts = drafts;
    }

    /**
     * What follows from a visit as it stands.
     *
     * @throws VisitFolderException if its facts can't be read as a visit yet
     */
    public AssessedVisit of(Subject visit) throws IOException, FilingException, VisitFolderException {
        return drafts.assess(visit);
    }
}
