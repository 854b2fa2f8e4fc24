package org.steamwright.desk.path;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.TiedMachines;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Subject;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.state.VisitState;

/**
 * What is proposed for the visit after this one.
 *
 * @param day by which it should take place; empty if nothing that was qualified has a last day
 * @param number of a report that is free
 * @param serials of the sterilisers
 * @param technician of this visit; may be blank
 * @param planned visits to these sterilisers that are written down for a later day
 */
public record NextVisit(
        Optional<LocalDate> day, String number, List<String> serials, String technician, List<Planned> planned) {

    /**
     * A visit that is planned.
     *
     * @param id of the record
     * @param number of the report
     * @param day of the visit
     */
    public record Planned(String id, String number, String day) {}

    public NextVisit {
        serials = List.copyOf(serials);
        planned = List.copyOf(planned);
    }

    static NextVisit of(Draft draft, Optional<AssessedVisit> assessed, Office office) {
        List<String> serials = IntStream.rangeClosed(1, draft.count(FactPath.of("sterilizers")))
                .mapToObj(i -> draft.text(FactPath.of("sterilizers", i, "serial")))
                .filter(serial -> !serial.isBlank())
                .distinct()
                .toList();
        VisitStates states = new VisitStates(office.records());
        List<Planned> planned = new ArrayList<>();
        String today = LocalDate.now(office.clock()).toString();
        for (Subject machine : TiedMachines.of(draft, office.records()).byKey().values()) {
            for (StatedVisit one : states.ofSterilizer(machine.id())) {
                Subject visit = one.visit();
                boolean isLater = visit.text("date").compareTo(today) > 0
                        && visit.text("date").compareTo(draft.text(FactPath.of("date"))) > 0;
                if (one.state() == VisitState.OPEN && isLater && !visit.id().equals(draft.id())) {
                    planned.add(new Planned(visit.id().toString(), visit.text("number"), visit.text("date")));
                }
            }
        }
        return new NextVisit(
                assessed.flatMap(AssessedVisit::validUntil),
                VisitList.freeNumber(office),
                serials,
                IntStream.rangeClosed(1, draft.count(FactPath.of("people")))
                        .filter(i ->
                                draft.text(FactPath.of("people", i, "role")).equals("technician"))
                        .mapToObj(i -> draft.text(FactPath.of("people", i, "name")))
                        .findFirst()
                        .orElse(""),
                planned.stream().distinct().toList());
    }
}
