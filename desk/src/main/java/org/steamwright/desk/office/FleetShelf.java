package org.steamwright.desk.office;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.fleet.FigureReading;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.state.VisitState;

/**
 * What the fleet's pages need of each visit: its figures, and a few answers. Kept for every visit until its facts change, so
 * that a visit is assessed once.
 */
public final class FleetShelf {

    /**
     * A visit in short.
     *
     * @param visit with its facts
     * @param readings worst figures; empty if it can't be assessed yet
     * @param hasAsFound whether anything was tested before the service
     * @param hasAsFoundFailure whether that failed
     * @param standing of the visit; empty if it can't be assessed yet
     * @param families of its sterilisers, by serial number: the model where the register says nothing
     */
    public record Excerpt(
            Subject visit,
            List<FigureReading> readings,
            boolean hasAsFound,
            boolean hasAsFoundFailure,
            Optional<Qualification.Standing> standing,
            Map<String, String> families) {
        public Excerpt {
            readings = List.copyOf(readings);
            families = Map.copyOf(families);
        }
    }

    private record Kept(JsonText facts, Excerpt answer) {}

    private final Office office;
    private final Map<SubjectId, Kept> kept = new HashMap<>();

    /** @param office whose record holds the visits */
    public FleetShelf(Office office) {
        this.office = office;
    }

    /** Every visit that was not broken off, replaced or withdrawn, earliest first. */
    public List<Excerpt> all() throws IOException {
        List<Subject> visits = new ArrayList<>();
        office.records().eachSubject(Kind.VISIT, visits::add);
        VisitStates states = new VisitStates(office.records());
        List<Excerpt> all = new ArrayList<>();
        for (Subject visit : visits) {
            StatedVisit stated = states.of(visit);
            if (stated.state() == VisitState.OPEN || stated.state().isOut()) {
                all.add(of(visit));
            }
        }
        all.sort(
                (one, other) -> one.visit().text("date").compareTo(other.visit().text("date")));
        return all;
    }

    private synchronized Excerpt of(Subject visit) throws IOException {
        JsonText facts = visit.toJson();
        Kept known = kept.get(visit.id());
        if (known != null && known.facts.equals(facts)) {
            return known.answer;
        }
        Excerpt answer = assess(visit);
        kept.put(visit.id(), new Kept(facts, answer));
        return answer;
    }

    private Excerpt assess(Subject visit) throws IOException {
        try {
            AssessedVisit assessed = office.visits().of(visit);
            boolean hasAsFound = false;
            boolean hasFailure = false;
            for (AssessedRun run : assessed.runs()) {
                if (run.run().stage().strip().equalsIgnoreCase("as found")) {
                    hasAsFound = true;
                    hasFailure |= run.isFail();
                }
            }
            Map<String, String> families = new HashMap<>();
            assessed.visit().sterilizers().forEach(sterilizer -> families.put(sterilizer.serial(), sterilizer.model()));
            return new Excerpt(
                    visit,
                    FigureReading.of(assessed),
                    hasAsFound,
                    hasFailure,
                    Optional.of(assessed.standing()),
                    families);
        } catch (FilingException | VisitFolderException incomplete) {
            return new Excerpt(visit, List.of(), false, false, Optional.empty(), Map.of());
        }
    }
}
