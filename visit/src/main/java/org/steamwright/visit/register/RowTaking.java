package org.steamwright.visit.register;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.visit.register.RegisterComparison.Answer;
import org.steamwright.visit.register.RegisterComparison.Field;

/** Takes row after row into a copy of a register. A row is taken whole or not at all. */
final class RowTaking {

    /** Evidence of what a table says, where a register asks for one. */
    private static final String BY_TABLE = "imported table";

    private final Map<String, ClinicRecord> clinics = new LinkedHashMap<>();
    private final Map<String, SterilizerRecord> machines = new LinkedHashMap<>();
    private final Map<String, List<String>> idsBySerial = new HashMap<>();
    private final Map<String, String> siteOfRoom = new HashMap<>();
    private final Map<String, String> clinicOfSite = new HashMap<>();
    private final Map<String, List<String>> clinicIdsByName = new HashMap<>();
    private final Set<String> taken = new HashSet<>();

    /** A row can't be taken. */
    private static final class Refused extends Exception {
        private static final long serialVersionUID = 1L;

        Refused(String reason) {
            super(reason);
        }
    }

    RowTaking(Register register) {
        for (ClinicRecord clinic : register.clinics()) {
            put(clinic);
        }
        for (SterilizerRecord machine : register.sterilizers()) {
            put(machine);
        }
    }

    private void put(ClinicRecord clinic) {
        if (clinics.put(clinic.id(), clinic) == null) {
            clinicIdsByName
                    .computeIfAbsent(Ids.folded(clinic.name()), name -> new ArrayList<>())
                    .add(clinic.id());
        }
        for (Site site : clinic.sites()) {
            clinicOfSite.put(site.id(), clinic.id());
            site.rooms().forEach(room -> siteOfRoom.put(room.id(), site.id()));
        }
    }

    private void put(SterilizerRecord machine) {
        if (machines.put(machine.id(), machine) == null) {
            idsBySerial
                    .computeIfAbsent(machine.identity().serial(), serial -> new ArrayList<>())
                    .add(machine.id());
        }
    }

    Map<String, ClinicRecord> clinics() {
        return clinics;
    }

    Map<String, SterilizerRecord> machines() {
        return machines;
    }

    RegisterComparison.Row take(MachineRow row) {
        String id = row.id();
        try {
            id = id(row);
            if (!taken.add(id)) {
                throw new Refused("the table has " + id + " in an earlier row already");
            }
            Optional<SterilizerRecord> before = Optional.ofNullable(machines.get(id));
            List<Field> fields = new ArrayList<>();
            Optional<ClinicRecord> clinic = clinic(row, fields);
            Optional<Site> site = clinic.isPresent() ? site(row, clinic.get(), fields) : Optional.empty();
            String room = site.isPresent() ? roomId(row, site.get()) : "";
            SterilizerRecord after =
                    before.isPresent() ? changed(before.get(), row, room, fields) : added(id, row, room);
            if (clinic.isPresent() && site.isPresent()) {
                put(with(clinic.get(), withRoom(site.get(), room, row, fields)));
            }
            put(after);
            Answer answer = before.isEmpty() ? Answer.ADDED : fields.isEmpty() ? Answer.SAME : Answer.CHANGED;
            return new RegisterComparison.Row(row.line(), id, answer, before.isEmpty() ? List.of() : fields, "");
        } catch (Refused | IllegalArgumentException refused) {
            return new RegisterComparison.Row(
                    row.line(), id, Answer.REFUSED, List.of(), String.valueOf(refused.getMessage()));
        }
    }

    /** By its id; without one by its serial number, which becomes the id of a new machine. */
    private String id(MachineRow row) throws Refused {
        List<String> known = idsBySerial.getOrDefault(row.serial(), List.of());
        if (row.id().isBlank()) {
            if (row.serial().isBlank()) {
                throw new Refused("neither an id nor a serial number");
            }
            if (known.size() > 1) {
                throw new Refused("the serial number " + row.serial() + " belongs to " + String.join(" and ", known)
                        + "; write the id");
            }
            return known.isEmpty() ? row.serial() : known.get(0);
        }
        SterilizerRecord machine = machines.get(row.id());
        if (machine != null
                && !row.serial().isBlank()
                && !machine.identity().serial().equals(row.serial())) {
            throw new Refused(row.id() + " has the serial number "
                    + machine.identity().serial() + " in the register, " + row.serial()
                    + " in the table; another machine needs another id");
        }
        if (machine == null && row.serial().isBlank()) {
            throw new Refused("a new machine needs its serial number");
        }
        if (machine == null
                && !known.isEmpty()
                && machines.get(known.get(0)) != null
                && isSameModel(row, known.get(0))) {
            throw new Refused("the serial number " + row.serial() + " of this model belongs to " + known.get(0)
                    + " already; an id never changes");
        }
        return row.id();
    }

    private boolean isSameModel(MachineRow row, String id) {
        SterilizerRecord machine = machines.get(id);
        return machine != null
                && (row.model().isBlank()
                        || row.model().equals(machine.identity().model()));
    }

    private Optional<ClinicRecord> clinic(MachineRow row, List<Field> fields) throws Refused {
        if (row.clinicId().isBlank() && row.clinic().isBlank()) {
            if (!row.siteId().isBlank() && clinicOfSite.containsKey(row.siteId())) {
                return Optional.ofNullable(clinics.get(clinicOfSite.get(row.siteId())));
            }
            if (row.siteId().isBlank()
                    && row.site().isBlank()
                    && row.roomId().isBlank()
                    && row.room().isBlank()) {
                return Optional.empty();
            }
            throw new Refused("a site or room without its clinic");
        }
        List<String> byName = clinicIdsByName.getOrDefault(Ids.folded(row.clinic()), List.of());
        if (row.clinicId().isBlank() && byName.size() > 1) {
            throw new Refused("the clinic " + row.clinic() + " is there as " + String.join(" and ", byName)
                    + "; write the clinic id");
        }
        String id =
                !row.clinicId().isBlank() ? row.clinicId() : byName.isEmpty() ? Ids.slug(row.clinic()) : byName.get(0);
        ClinicRecord known = clinics.get(id);
        if (known == null) {
            if (row.clinic().isBlank()) {
                throw new Refused("the clinic " + id + " is not known and has no name here");
            }
            return Optional.of(new ClinicRecord(id, row.clinic(), "", "", List.of()));
        }
        if (row.clinicId().isBlank()) {
            if (byName.isEmpty()) {
                throw new Refused("the clinic id " + id + " that follows from the name " + row.clinic() + " belongs to "
                        + known.name() + "; write a clinic id");
            }
            return Optional.of(known);
        }
        if (!row.clinic().isBlank() && !known.name().equals(row.clinic())) {
            fields.add(new Field("clinic", known.name(), row.clinic()));
            return Optional.of(new ClinicRecord(id, row.clinic(), known.reference(), known.contact(), known.sites()));
        }
        return Optional.of(known);
    }

    private Optional<Site> site(MachineRow row, ClinicRecord clinic, List<Field> fields) throws Refused {
        List<Site> named = clinic.sites().stream()
                .filter(site -> row.siteId().isBlank()
                        ? (row.site().isBlank() ? clinic.sites().size() == 1 : Ids.isSame(site.name(), row.site()))
                        : site.id().equals(row.siteId()))
                .toList();
        if (named.isEmpty()) {
            boolean isOpen = row.siteId().isBlank()
                    && row.site().isBlank()
                    && clinic.sites().size() > 1;
            if (isOpen) {
                throw new Refused("the clinic " + clinic.id() + " has several sites; write which");
            }
            String id = !row.siteId().isBlank()
                    ? row.siteId()
                    : clinic.id() + (row.site().isBlank() ? "-site" : "-" + Ids.slug(row.site()));
            String owner = clinicOfSite.get(id);
            if (owner != null) {
                throw new Refused("the site " + id + " belongs to the clinic " + owner);
            }
            if (row.zone().isEmpty()) {
                throw new Refused("the new site " + id + " needs its time zone");
            }
            return Optional.of(new Site(
                    id, row.site(), row.address(), row.zone().get(), Optional.empty(), "", Week.USUAL, List.of()));
        }
        Site known = named.get(0);
        String name = text("site", known.name(), row.site(), fields);
        String address = text("address", known.address(), row.address(), fields);
        if (row.zone().isPresent() && !row.zone().get().equals(known.zone())) {
            fields.add(new Field("zone", known.zone().getId(), row.zone().get().getId()));
        }
        return Optional.of(new Site(
                known.id(),
                name,
                address,
                row.zone().orElse(known.zone()),
                known.altitudeMetres(),
                known.rules(),
                known.week(),
                known.rooms()));
    }

    /** The room of that id or name at the site, or a new id; blank if the row says nothing of a room. */
    private String roomId(MachineRow row, Site site) throws Refused {
        if (row.roomId().isBlank() && row.room().isBlank()) {
            return "";
        }
        if (!row.roomId().isBlank()) {
            String owner = siteOfRoom.get(row.roomId());
            if (owner != null && !owner.equals(site.id())) {
                throw new Refused("the room " + row.roomId() + " belongs to the site " + owner);
            }
            return row.roomId();
        }
        List<String> byName = site.rooms().stream()
                .filter(room -> Ids.isSame(room.name(), row.room()))
                .map(Site.Room::id)
                .toList();
        if (byName.size() > 1) {
            throw new Refused(
                    "the room " + row.room() + " is there as " + String.join(" and ", byName) + "; write the room id");
        }
        if (!byName.isEmpty()) {
            return byName.get(0);
        }
        String id = site.id() + "-" + Ids.slug(row.room());
        if (siteOfRoom.containsKey(id)) {
            throw new Refused("the room id " + id + " that follows from the name is taken; write a room id");
        }
        return id;
    }

    private static Site withRoom(Site site, String room, MachineRow row, List<Field> fields) {
        if (room.isBlank()) {
            return site;
        }
        List<Site.Room> rooms = new ArrayList<>();
        boolean isThere = false;
        for (Site.Room one : site.rooms()) {
            if (one.id().equals(room)) {
                isThere = true;
                rooms.add(new Site.Room(room, text("name of the room", one.name(), row.room(), fields)));
            } else {
                rooms.add(one);
            }
        }
        if (!isThere) {
            rooms.add(new Site.Room(room, row.room()));
        }
        return new Site(
                site.id(),
                site.name(),
                site.address(),
                site.zone(),
                site.altitudeMetres(),
                site.rules(),
                site.week(),
                rooms);
    }

    private static ClinicRecord with(ClinicRecord clinic, Site site) {
        List<Site> sites = new ArrayList<>();
        boolean isThere = false;
        for (Site one : clinic.sites()) {
            isThere |= one.id().equals(site.id());
            sites.add(one.id().equals(site.id()) ? site : one);
        }
        if (!isThere) {
            sites.add(site);
        }
        return new ClinicRecord(clinic.id(), clinic.name(), clinic.reference(), clinic.contact(), sites);
    }

    private static SterilizerRecord added(String id, MachineRow row, String room) {
        SterilizerRecord bare = new SterilizerRecord(
                id,
                new SterilizerRecord.Identity(
                        row.maker(),
                        row.model(),
                        row.family(),
                        row.serial(),
                        row.year(),
                        row.litres(),
                        row.chamberSize(),
                        row.trayLevels()),
                row.status().orElse(SterilizerRecord.Status.IN_USE),
                false,
                room,
                List.of(),
                List.of(),
                Counter.UNREAD,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of());
        return withHistory(bare, row, List.of(), new ArrayList<>());
    }

    private static SterilizerRecord changed(SterilizerRecord old, MachineRow row, String room, List<Field> fields)
            throws Refused {
        SterilizerRecord.Identity was = old.identity();
        if (row.litres().isPresent() && !row.litres().equals(was.chamberLitres())) {
            fields.add(new Field(
                    "chamber",
                    was.chamberLitres().map(litres -> litres + " L").orElse(""),
                    row.litres().get() + " L"));
        }
        if (row.chamberSize().isPresent() && !row.chamberSize().equals(was.chamberSize())) {
            fields.add(new Field(
                    "chamber-size",
                    was.chamberSize().map(ChamberSize::text).orElse(""),
                    row.chamberSize().get().text()));
        }
        if (row.trayLevels().isPresent() && !row.trayLevels().equals(was.trayLevels())) {
            fields.add(new Field(
                    "tray-levels",
                    was.trayLevels().isPresent()
                            ? String.valueOf(was.trayLevels().getAsInt())
                            : "",
                    String.valueOf(row.trayLevels().getAsInt())));
        }
        if (row.status().isPresent() && row.status().get() != old.status()) {
            fields.add(
                    new Field("status", old.status().word(), row.status().get().word()));
        }
        SterilizerRecord.Identity identity = new SterilizerRecord.Identity(
                text("maker", was.maker(), row.maker(), fields),
                text("model", was.model(), row.model(), fields),
                text("family", was.family(), row.family(), fields),
                was.serial(),
                text("year", was.year(), row.year(), fields),
                row.litres().or(was::chamberLitres),
                row.chamberSize().or(was::chamberSize),
                row.trayLevels().isPresent() ? row.trayLevels() : was.trayLevels());
        List<SterilizerRecord.Movement> moves = new ArrayList<>();
        String home = old.home();
        if (!room.isBlank() && !room.equals(old.room())) {
            if (old.room().isBlank() && old.movements().isEmpty()) {
                home = room;
            } else if (row.movedOn().isPresent()) {
                moves.add(new SterilizerRecord.Movement(row.movedOn().get(), old.room(), room, BY_TABLE));
                checkOrder(old, row.movedOn().get());
            } else {
                throw new Refused("it stands in " + old.room() + " in the register, in " + room
                        + " in the table; a move is an event with a day: write moved on");
            }
            fields.add(new Field("room", old.room(), room));
        }
        SterilizerRecord next = new SterilizerRecord(
                old.id(),
                identity,
                row.status().orElse(old.status()),
                old.isLoaner(),
                home,
                old.cycles(),
                old.firmware(),
                old.counter(),
                old.movements(),
                old.papers(),
                old.intervals(),
                old.done(),
                old.changes(),
                old.conditions());
        return withHistory(next, row, moves, fields);
    }

    private static void checkOrder(SterilizerRecord old, LocalDate day) throws Refused {
        for (SterilizerRecord.Movement movement : old.movements()) {
            if (movement.on().isAfter(day)) {
                throw new Refused("it was moved on " + movement.on() + " after the day in the table, " + day);
            }
        }
    }

    /** What a row adds to the histories; what they hold already is not added again. */
    private static SterilizerRecord withHistory(
            SterilizerRecord old, MachineRow row, List<SterilizerRecord.Movement> moves, List<Field> fields) {
        List<Counter.Reading> readings = new ArrayList<>(old.counter().readings());
        if (row.reading().isPresent()) {
            Counter.Reading reading = row.reading().get();
            boolean isKnown =
                    readings.stream().anyMatch(one -> one.on().equals(reading.on()) && one.shown() == reading.shown());
            if (!isKnown) {
                readings.add(reading);
                fields.add(new Field("counter", "", reading.shown() + " on " + reading.on()));
            }
        }
        List<SterilizerRecord.Done> done = new ArrayList<>(old.done());
        new TreeMap<>(row.done()).forEach((duty, day) -> {
            boolean isKnown =
                    done.stream().anyMatch(one -> one.duty() == duty && one.on().equals(day));
            if (!isKnown) {
                done.add(new SterilizerRecord.Done(duty, day, BY_TABLE));
                fields.add(new Field(
                        duty.word(),
                        old.lastDone(duty).map(last -> last.on().toString()).orElse(""),
                        day.toString()));
            }
        });
        List<SterilizerRecord.PressurePaper> papers = new ArrayList<>(old.papers());
        if (row.paper().isPresent()) {
            SterilizerRecord.PressurePaper paper = row.paper().get();
            boolean isKnown = papers.stream()
                    .anyMatch(one -> one.document().equals(paper.document())
                            && one.examinedOn().equals(paper.examinedOn())
                            && one.nextBy().equals(paper.nextBy()));
            if (!isKnown) {
                papers.add(paper);
                fields.add(new Field("pressure paper", "", paper.document() + " of " + paper.examinedOn()));
            }
        }
        List<SterilizerRecord.Movement> movements = new ArrayList<>(old.movements());
        movements.addAll(moves);
        return new SterilizerRecord(
                old.id(),
                old.identity(),
                old.status(),
                old.isLoaner(),
                old.home(),
                cycles(old.cycles(), row.cycles(), fields),
                old.firmware(),
                new Counter(readings, old.counter().resets()),
                movements,
                papers,
                old.intervals(),
                done,
                old.changes(),
                old.conditions());
    }

    /** Known cycles keep what the table does not tell; none is ever removed. */
    private static List<SterilizerRecord.RegisteredCycle> cycles(
            List<SterilizerRecord.RegisteredCycle> old, List<MachineRow.Cycle> rows, List<Field> fields) {
        Map<String, SterilizerRecord.RegisteredCycle> byName = new LinkedHashMap<>();
        old.forEach(cycle -> byName.put(cycle.definition().name(), cycle));
        for (MachineRow.Cycle row : rows) {
            SterilizerRecord.RegisteredCycle known = byName.get(row.name());
            SterilizerRecord.RegisteredCycle next = cycle(known == null ? Optional.empty() : Optional.of(known), row);
            if (!next.equals(known)) {
                byName.put(row.name(), next);
                fields.add(new Field("cycle", known == null ? "" : words(known), words(next)));
            }
        }
        return List.copyOf(byName.values());
    }

    private static SterilizerRecord.RegisteredCycle cycle(
            Optional<SterilizerRecord.RegisteredCycle> known, MachineRow.Cycle row) {
        CycleDefinition definition = known.map(cycle -> new CycleDefinition(
                        row.name(),
                        row.type(),
                        Temperature.ofCelsius(row.celsius()),
                        cycle.definition().holdingTime(),
                        cycle.definition().airRemovalPulses(),
                        cycle.definition().pulseDepth(),
                        cycle.definition().dryingTime()))
                .orElseGet(() -> CycleDefinition.of(row.name(), row.type(), row.celsius()));
        return new SterilizerRecord.RegisteredCycle(definition, row.isInUse());
    }

    private static String words(SterilizerRecord.RegisteredCycle cycle) {
        return cycle.definition().name() + ", type " + cycle.definition().type() + ", "
                + cycle.definition().sterilizingTemperature().celsius() + " °C, "
                + (cycle.isInUse() ? "in use" : "not in use");
    }

    private static String text(String name, String before, String after, List<Field> fields) {
        if (after.isBlank() || after.equals(before)) {
            return before;
        }
        fields.add(new Field(name, before, after));
        return after;
    }
}
