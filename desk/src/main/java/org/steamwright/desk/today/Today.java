package org.steamwright.desk.today;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.ReadOut;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.visit.AssessedVisit;

/**
 * What the first page shows at once. What follows from each visit is assessed when the page asks for it.
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
     * @param readOuts of indicators that are still awaited
     */
    public record OpenVisit(String id, String number, String clinic, Optional<LocalDate> day, List<ReadOut> readOuts) {

        public OpenVisit {
            readOuts = List.copyOf(readOuts);
        }

        static OpenVisit of(Subject visit, List<ReadOut> readOuts) {
            return new OpenVisit(
                    visit.id().toString(),
                    visit.text("number"),
                    visit.text("clinic-name"),
                    Today.day(visit.text("date")),
                    readOuts);
        }
    }

    /**
     * What follows from a visit.
     *
     * @param sentence first of the summary; empty if the facts can't be assessed yet
     * @param open what is missing or awaited
     */
    public record Answer(String sentence, List<String> open) {

        public Answer {
            open = List.copyOf(open);
        }

        static Answer of(Office office, Subject visit) throws IOException {
            try {
                AssessedVisit assessed = office.visits().of(visit);
                return new Answer(
                        assessed.summary().isEmpty() ? "" : assessed.summary().get(0), assessed.openPoints());
            } catch (FilingException | VisitFolderException incomplete) {
                return new Answer("", List.of(String.valueOf(incomplete.getMessage())));
            }
        }
    }

    /** The day that a text says; empty if it says something else. */
    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    static Today of(Office office) {
        LocalDate today = LocalDate.now(office.clock());
        List<OpenVisit> visits = new ArrayList<>();
        for (Subject visit : office.records().newest(Kind.VISIT, SHOWN)) {
            if (!office.records().isSealed(visit.id())) {
                visits.add(OpenVisit.of(visit, ReadOut.of(office.drafts().of(visit.id()))));
            }
        }
        return new Today(today, visits);
    }
}
