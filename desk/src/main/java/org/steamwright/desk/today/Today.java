package org.steamwright.desk.today;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.visit.AssessedVisit;

/**
 * What the first page shows.
 *
 * @param day today, in the zone of the machine
 * @param visits that are not signed yet, the newest first
 */
public record Today(LocalDate day, List<OpenVisit> visits) {

    private static final int SHOWN = 12;

    public Today {
        visits = List.copyOf(visits);
    }

    /**
     * A visit that still wants something.
     *
     * @param id of the record
     * @param number of the report
     * @param clinic name
     * @param day of the visit, if it is known
     * @param answer first sentence of the summary; empty if the facts can't be assessed yet
     * @param open what is missing or awaited
     */
    public record OpenVisit(
            String id, String number, String clinic, Optional<LocalDate> day, String answer, List<String> open) {

        public OpenVisit {
            open = List.copyOf(open);
        }
    }

    static Today of(Office office) throws IOException {
        List<OpenVisit> visits = new ArrayList<>();
        for (Subject visit : office.records().subjects(Kind.VISIT, 1_000)) {
            if (!office.records().isSealed(visit.id())) {
                visits.add(0, open(office, visit));
            }
        }
        return new Today(LocalDate.now(office.clock()), visits.subList(0, Math.min(SHOWN, visits.size())));
    }

    private static OpenVisit open(Office office, Subject visit) throws IOException {
        String answer = "";
        List<String> open = List.of();
        try {
            AssessedVisit assessed = office.visits().of(visit);
            answer = assessed.summary().isEmpty() ? "" : assessed.summary().get(0);
            open = assessed.openPoints();
        } catch (FilingException | VisitFolderException incomplete) {
            open = List.of(String.valueOf(incomplete.getMessage()));
        }
        Optional<LocalDate> day =
                Optional.of(visit.text("date")).filter(text -> !text.isEmpty()).map(LocalDate::parse);
        return new OpenVisit(visit.id().toString(), visit.text("number"), visit.text("clinic-name"), day, answer, open);
    }
}
