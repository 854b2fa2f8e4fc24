package org.steamwright.desk.clinic;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.CoverageInRecord;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.visit.state.VisitState;

/** The clinic that a page is about, its sterilisers, and what the record answers for it. */
final class Premises {

    private final Office office;
    private final RegisterShelf shelf;

    Premises(Office office) {
        this.office = office;
        this.shelf = new RegisterShelf(office);
    }

    Office office() {
        return office;
    }

    RegisterShelf shelf() {
        return shelf;
    }

    static Reply unknown(Ask ask) {
        return new Reply.Refusal(
                404, ask.frame().say("clinic.unknown"), ask.frame().say("clinic.unknown-remedy"));
    }

    /** The clinic of the path, if this person may see it. A clinic of somebody else is not there, rather than forbidden. */
    Optional<Subject> asked(Ask ask) {
        try {
            SubjectId id = SubjectId.parse(ask.part("clinic"));
            boolean isStaff = ask.frame().may(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
            return isStaff || ask.person().clinic().equals(Optional.of(id))
                    ? office.records().find(id).filter(subject -> subject.kind() == Kind.CLINIC)
                    : Optional.empty();
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /**
     * A steriliser on the premises.
     *
     * @param machine of the record
     * @param isRegistered whether the register says where it stands
     * @param zone in which its days begin and end
     */
    record Here(Subject machine, boolean isRegistered, ZoneId zone) {

        String id() {
            return machine.id().toString();
        }
    }

    /** What machines here are called: by their serial numbers, and with the maker where two have the same. */
    static String called(Subject machine, Collection<Here> here) {
        String serial = machine.text("serial");
        boolean isTwice = here.stream()
                .map(Here::machine)
                .anyMatch(one ->
                        !one.id().equals(machine.id()) && one.text("serial").equals(serial));
        return isTwice ? "%s (%s %s)".formatted(serial, machine.text("maker"), machine.text("model")) : serial;
    }

    /** The machine here that an address names, by its id or, as addresses did that somebody kept, by its serial number. */
    static Optional<Here> named(Map<String, Here> here, String named) {
        List<Here> ofSerial = here.values().stream()
                .filter(one -> one.machine().text("serial").equals(named))
                .toList();
        return Optional.ofNullable(here.get(named))
                .or(() -> ofSerial.stream().filter(one -> ofSerial.size() == 1).findFirst());
    }

    /**
     * Sterilisers on the premises by their ids: those that the register has here, and of those that it places
     * nowhere the ones whose last visit was made for this clinic.
     */
    Map<String, Here> here(Subject clinic) {
        Map<SubjectId, Subject> all = new LinkedHashMap<>();
        machines(clinic).forEach(machine -> all.put(machine.id(), machine));
        // a machine that changed hands is known as the first clinic's; its visits tell of the others
        Set<SubjectId> visited = new LinkedHashSet<>();
        for (Subject visit : office.records()
                .usersOf(Use.CLINIC, Kind.VISIT, Set.of(clinic.id().toString()))) {
            visit.fact("sterilizer")
                    .ifPresent(ids -> ids.node().forEach(id -> visited.add(SubjectId.parse(id.asText()))));
        }
        office.records().subjects(List.copyOf(visited)).forEach(machine -> all.putIfAbsent(machine.id(), machine));
        Map<String, RegisterFiling.Standing> places = shelf.filing().places(List.copyOf(all.values()));
        Map<String, Here> here = new LinkedHashMap<>();
        for (Subject machine : all.values()) {
            Optional<RegisterFiling.Standing> place = Optional.ofNullable(places.get(RegisterFiling.roomOf(machine)));
            Optional<Subject> last = new VisitStates(office.records())
                    .ofSterilizer(machine.id()).stream()
                            .filter(visit -> visit.state() != VisitState.BROKEN_OFF)
                            .map(StatedVisit::visit)
                            .findFirst();
            boolean isHere = place.map(RegisterFiling.Standing::clinic)
                    .map(standing -> standing.id().equals(clinic.id()))
                    .orElse(last.filter(visit -> isOf(clinic, visit)).isPresent());
            if (isHere) {
                ZoneId zone = place.map(RegisterFiling.Standing::zone)
                        .flatMap(Premises::zone)
                        .or(() -> last.flatMap(visit -> zone(visit.text("zone"))))
                        .orElse(office.clock().getZone());
                here.put(machine.id().toString(), new Here(machine, place.isPresent(), zone));
            }
        }
        return here;
    }

    private static Optional<ZoneId> zone(String name) {
        try {
            return name.isBlank() ? Optional.empty() : Optional.of(ZoneId.of(name));
        } catch (DateTimeException unknown) {
            return Optional.empty();
        }
    }

    /** The day at the site, wherever the office is. */
    LocalDate today(Here one) {
        return LocalDate.ofInstant(office.clock().instant(), one.zone());
    }

    private List<Subject> machines(Subject clinic) {
        return shelf.filing().machinesAt(List.of(clinic));
    }

    /** What the record answers for this clinic: visits that were made for somebody else do not count. */
    CoverageInRecord coverage(Subject clinic) {
        return new CoverageInRecord(office.records(), office.visits()::of, visit -> isOf(clinic, visit.visit()));
    }

    static boolean isOf(Subject clinic, Subject visit) {
        return visit.text("clinic").equals(clinic.id().toString());
    }
}
