package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.register.Register;

/**
 * Takes the register of an office into the record and gives it back. Each entry becomes one subject, each of its keys one
 * fact. What a visit made known already (a machine by its serial number, a person by the name) is the same subject.
 */
public final class RegisterFiling {

    private final Records records;
    private final RegisterReading reading;

    /** @param records opened */
    public RegisterFiling(Records records) {
        this.records = records;
        this.reading = new RegisterReading(records);
    }

    /**
     * What a register brought.
     *
     * @param entries in the file
     * @param added entries that the record did not know
     * @param changed facts that changed by this, the new ones among them
     */
    public record Taken(int entries, int added, int changed) {}

    /**
     * Takes a register in, or what has changed in it. An entry that is no longer in the file stays in the record: nothing goes
     * by itself.
     *
     * @param fileOrFolder register file, or the folder with it
     * @param author who takes it in
     * @param why reason for a change; may be blank
     * @throws RegisterException if the register can't be read
     * @throws VisitFolderException if the file of the instruments is no YAML within the limits
     * @throws FilingException if a file is too large, or an instrument names a file outside of the folder
     * @throws IOException if the disk fails
     */
    public Taken take(Path fileOrFolder, Author author, String why)
            throws IOException, RegisterException, VisitFolderException, FilingException {
        return new RegisterTaking(records).take(fileOrFolder, author, why);
    }

    /**
     * The register as the record has it.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public Register register() throws IOException, RegisterException, FilingException {
        List<Subject> machines = new ArrayList<>();
        records.eachSubject(Kind.STERILIZER, machines::add);
        return VisitEvidence.in(contents().register(), machines);
    }

    /**
     * The register as the record has it, with the name of the file of its instruments.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public RegisterFile.Contents contents() throws IOException, RegisterException, FilingException {
        return contents(Map.of());
    }

    /**
     * The register as it would be with other facts of some subjects. Clinics and machines are read some at a time: together
     * they may be more than one file holds.
     */
    RegisterFile.Contents contents(Map<SubjectId, Map<String, JsonText>> others)
            throws IOException, RegisterException, FilingException {
        return reading.contents(others);
    }

    /**
     * The register as far as it concerns some machines: they and the clinics in whose rooms they stand or stood, without
     * instruments, people and lots. What only a visit made known is left out.
     *
     * @param machines of the record
     * @throws RegisterException if this program can't read them any more
     */
    public Register register(List<Subject> machines) throws RegisterException {
        return RegisterReading.register(machines, reading.clinicsOf(machines));
    }

    /**
     * The machine that has that identity in the record, else that id in the register, else that serial number; none if several
     * have the number.
     */
    public Optional<Subject> machine(String idOrSerial) {
        String wanted = idOrSerial.strip();
        List<Subject> machines = machines(wanted);
        return machines.stream()
                .filter(one -> one.text("number").equals(wanted))
                .findFirst()
                .or(() -> machines.size() == 1 ? Optional.of(machines.get(0)) : Optional.empty());
    }

    /** The one that has that identity in the record, else all that have that id in the register or that serial number. */
    public List<Subject> machines(String idOrSerial) {
        String wanted = idOrSerial.strip();
        if (wanted.isEmpty()) {
            return List.of();
        }
        try {
            Optional<Subject> one =
                    records.find(SubjectId.parse(wanted)).filter(subject -> subject.kind() == Kind.STERILIZER);
            if (one.isPresent()) {
                return List.of(one.get());
            }
        } catch (IllegalArgumentException noIdentity) {
            // an id of the register, or a serial number
        }
        return Stream.concat(
                        records.exactly(Kind.STERILIZER, "number", wanted).stream(),
                        records.exactly(Kind.STERILIZER, Shelf.STERILIZERS.known(), wanted).stream())
                .distinct()
                .toList();
    }

    /** The clinic where a machine stands by the register; empty in the workshop. */
    Optional<Subject> clinic(Subject machine) {
        return Optional.ofNullable(places(List.of(machine)).get(roomOf(machine)))
                .map(Standing::clinic);
    }

    /** Machines that stand in the rooms of these clinics by the register, in the order of their making. */
    public List<Subject> machinesAt(List<Subject> clinics) {
        Set<String> rooms = new TreeSet<>();
        clinics.forEach(clinic -> rooms.addAll(roomsOf(clinic).keySet()));
        return records.usersOf(Use.ROOM, Kind.STERILIZER, rooms).stream()
                .filter(machine -> rooms.contains(roomOf(machine)))
                .toList();
    }

    /** Clinic, site and room by the register of each room in which one of these machines stands. */
    public Map<String, Standing> places(List<Subject> machines) {
        Set<String> rooms = new TreeSet<>();
        machines.forEach(machine -> rooms.add(roomOf(machine)));
        rooms.remove("");
        Map<String, Standing> places = new HashMap<>();
        for (Subject clinic : records.usersOf(Use.ROOM, Kind.CLINIC, rooms)) {
            RegisterRooms.standingsOf(clinic).forEach(places::putIfAbsent);
        }
        return places;
    }

    /**
     * Where a machine stands.
     *
     * @param clinic of the record
     * @param words clinic, site and room in one line
     * @param zone of the site, as stated; blank if it states none
     */
    public record Standing(Subject clinic, String words, String zone) {}

    /** Rooms of a clinic with what they are called. */
    public static Map<String, String> roomsOf(Subject clinic) {
        return RegisterRooms.roomsOf(clinic);
    }

    /** Id of the room in which a machine stands: where it was moved to last, else where it was first; blank for none. */
    public static String roomOf(Subject machine) {
        return RegisterRooms.roomOf(machine);
    }

    /**
     * The register without its machines and clinics: people, instruments, lots and parts.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public Register withoutMachines() throws IOException, RegisterException, FilingException {
        try (ScratchFolder scratch =
                new ScratchFolder(reading.files(Map.of(), shelf -> !Shelf.OF_PLACES.contains(shelf)))) {
            return RegisterFile.read(scratch.folder()).register();
        }
    }

    /**
     * The register as far as a visit to a machine needs it: the machine, its clinic, and everything that belongs to the office.
     *
     * @throws RegisterException if this program can't read it any more
     */
    public Register around(Subject machine) throws IOException, RegisterException, FilingException {
        Register own = register(List.of(machine));
        Register office = withoutMachines();
        return new Register(
                own.clinics(),
                own.sterilizers(),
                office.technicians(),
                office.instruments(),
                office.lots(),
                office.parts(),
                office.testers());
    }

    /** The file of the instruments and those that it names, by name; empty if there are none. */
    public NavigableMap<String, byte[]> instrumentFiles() {
        NavigableMap<String, byte[]> files = reading.files(Map.of(), shelf -> false);
        files.remove(RegisterFile.FILE_NAME);
        return files;
    }

    /** The files of the register as the record has it, by name. */
    public NavigableMap<String, byte[]> files() {
        return reading.files(Map.of(), shelf -> true);
    }
}
