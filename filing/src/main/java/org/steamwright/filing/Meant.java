package org.steamwright.filing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.steamwright.filing.FoundBy.Machine;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.register.Clinic;

/**
 * Which clinic and which machines of the record somebody means: a machine by maker, model and serial number, a clinic by name
 * and address. What was not stated contradicts nothing. Where two fit, or only the number or the name is the same, nobody is
 * taken for another: that is a question.
 */
final class Meant {

    private final Records records;

    Meant(Records records) {
        this.records = records;
    }

    /**
     * Who is meant.
     *
     * @param subject of the record; empty if nobody is, or if that is not clear
     * @param question what is not clear; empty if it is
     */
    record Answer(Optional<Subject> subject, Optional<Question> question) {

        private static final Answer NOBODY = new Answer(Optional.empty(), Optional.empty());

        private static Answer one(Subject subject) {
            return new Answer(Optional.of(subject), Optional.empty());
        }

        private static Answer unclear(String text, String remedy) {
            return new Answer(Optional.empty(), Optional.of(new Question(text, remedy)));
        }
    }

    /**
     * Something that only a person can tell.
     *
     * @param text what was found
     * @param remedy how it is told
     */
    record Question(String text, String remedy) {}

    /**
     * Whom a visit is known to mean, because it was begun from the register or named them before.
     *
     * @param subjects clinic and machines
     * @param machines as the visit named them then
     * @param clinic as the visit named it then
     */
    record Ties(Set<SubjectId> subjects, List<Machine> machines, Optional<Clinic> clinic) {

        static final Ties NONE = new Ties(Set.of(), List.of(), Optional.empty());

        Ties {
            subjects = Set.copyOf(subjects);
            machines = List.copyOf(machines);
        }

        /** To a machine of the register, and to the clinic where it stands. */
        static Ties to(Subject machine, Optional<Subject> clinic) {
            return new Ties(
                    clinic.map(one -> Set.of(machine.id(), one.id())).orElse(Set.of(machine.id())),
                    List.of(),
                    Optional.empty());
        }

        /** Those that a visit has already. */
        static Ties of(Subject visit, DraftFacts named) {
            List<SubjectId> ids = new ArrayList<>();
            visit.fact("clinic").ifPresent(id -> ids.add(SubjectId.parse(id.plain())));
            visit.fact("sterilizer").ifPresent(all -> all.node().forEach(id -> ids.add(SubjectId.parse(id.asText()))));
            return new Ties(Set.copyOf(ids), named.machines(), named.clinic());
        }

        private boolean holds(Subject subject, boolean isNamedAsBefore, boolean isFitting) {
            return subjects.contains(subject.id()) && (isNamedAsBefore || isFitting);
        }
    }

    /** The machine. */
    Answer machine(Machine wanted, Ties ties) {
        List<Subject> sameSerial = records.exactly(Kind.STERILIZER, "serial", wanted.serial());
        Optional<Subject> tied = sameSerial.stream()
                .filter(one -> ties.holds(one, ties.machines.contains(wanted), fits(one, wanted)))
                .findFirst();
        if (tied.isPresent()) {
            return Answer.one(tied.get());
        }
        if (sameSerial.isEmpty()) {
            return Answer.NOBODY;
        }
        List<Subject> fitting = fitting(sameSerial, wanted);
        if (fitting.size() == 1) {
            return Answer.one(fitting.get(0));
        }
        String found = sameSerial.stream().map(Meant::words).collect(Collectors.joining("; "));
        return fitting.isEmpty()
                ? Answer.unclear(
                        "the visit names a steriliser %s, and the record knows that serial number as %s"
                                .formatted(words(wanted), found),
                        "If it is the same machine, correct maker and model in the visit or in the register. If it is"
                                + " another one with the same number, enter it in the register first.")
                : Answer.unclear(
                        "the serial number %s belongs to several sterilisers of the record: %s"
                                .formatted(wanted.serial(), found),
                        "State maker and model as the register has them.");
    }

    /** Those that fit; if some have the very same maker and model, these. */
    static List<Subject> fitting(List<Subject> machines, Machine wanted) {
        List<Subject> fitting =
                machines.stream().filter(one -> fits(one, wanted)).toList();
        List<Subject> same = fitting.stream().filter(one -> isSame(one, wanted)).toList();
        return same.isEmpty() ? fitting : same;
    }

    static boolean isSame(Subject machine, Machine wanted) {
        return folded(machine.text("maker")).equals(folded(wanted.maker()))
                && folded(machine.text("model")).equals(folded(wanted.model()));
    }

    private static boolean fits(Subject machine, Machine wanted) {
        return fits(machine.text("maker"), wanted.maker()) && fits(machine.text("model"), wanted.model());
    }

    private static boolean fits(String one, String other) {
        return one.isBlank() || other.isBlank() || folded(one).equals(folded(other));
    }

    /** Letters and digits alone, whatever their case. */
    static String folded(String text) {
        return String.join("", words(text));
    }

    private static List<String> words(String text) {
        return Arrays.stream(text.toLowerCase(Locale.ROOT).split("[^\\p{L}\\p{N}]+"))
                .filter(word -> !word.isEmpty())
                .toList();
    }

    static String words(Subject machine) {
        String id = machine.text("number");
        return words(new Machine(machine.text("maker"), machine.text("model"), machine.text("serial")))
                + (id.isBlank() ? "" : " (" + id + ")");
    }

    private static String words(Machine machine) {
        return List.of(machine.maker(), machine.model(), machine.serial()).stream()
                .filter(word -> !word.isBlank())
                .collect(Collectors.joining(" "));
    }

    /**
     * The clinic.
     *
     * @param machines of the visit that the record knows: where several clinics have the name, the one where they stand is meant
     */
    Answer clinic(Clinic wanted, Ties ties, List<Subject> machines) {
        List<Subject> sameName = records.exactly(Kind.CLINIC, "name", wanted.name());
        boolean isAsBefore = ties.clinic
                .filter(before ->
                        before.name().equals(wanted.name()) && before.address().equals(wanted.address()))
                .isPresent();
        Optional<Subject> tied = sameName.stream()
                .filter(one -> ties.holds(
                        one,
                        isAsBefore,
                        !addressesLike(one, wanted.address(), false).isEmpty()))
                .findFirst();
        if (tied.isPresent()) {
            return Answer.one(tied.get());
        }
        if (sameName.isEmpty()) {
            return Answer.NOBODY;
        }
        List<Subject> fitting = fitting(sameName, wanted.address());
        if (fitting.size() == 1) {
            return Answer.one(fitting.get(0));
        }
        List<Subject> ofMachines = (fitting.isEmpty() ? sameName : fitting)
                .stream()
                        .filter(clinic -> machines.stream().anyMatch(machine -> standsIn(machine, clinic)))
                        .toList();
        if (ofMachines.size() == 1) {
            return Answer.one(ofMachines.get(0));
        }
        String found = sameName.stream()
                .map(one -> addresses(one).isEmpty() ? "without an address" : String.join(" / ", addresses(one)))
                .collect(Collectors.joining("; "));
        return fitting.isEmpty()
                ? Answer.unclear(
                        "the visit names the clinic %s at %s, and the record knows one of that name at %s"
                                .formatted(wanted.name(), wanted.address(), found),
                        "If it is the same clinic, write the address as the record has it, or give the clinic in the"
                                + " register a site of this address. If it is another one, enter it in the register"
                                + " first.")
                : Answer.unclear(
                        "the record has several clinics called %s: %s".formatted(wanted.name(), found),
                        "State the address as the register has it.");
    }

    /** Those that may have that address; if some have the very same, these. */
    static List<Subject> fitting(List<Subject> clinics, String address) {
        List<Subject> fitting = clinics.stream()
                .filter(one -> !addressesLike(one, address, false).isEmpty())
                .toList();
        List<Subject> same = fitting.stream()
                .filter(one -> !addressesLike(one, address, true).isEmpty())
                .toList();
        return same.isEmpty() ? fitting : same;
    }

    /** Addresses of a clinic that are meant by an address; a blank stands for one that is not known. */
    private static List<String> addressesLike(Subject clinic, String address, boolean isExact) {
        List<String> addresses = addresses(clinic);
        if (isExact) {
            return addresses.stream()
                    .filter(one -> folded(one).equals(folded(address)))
                    .toList();
        }
        if (addresses.isEmpty() || address.isBlank()) {
            return List.of("");
        }
        return addresses.stream().filter(one -> isBeginning(one, address)).toList();
    }

    /** Whether one address only goes on where the other ends, such as with the town. */
    private static boolean isBeginning(String one, String other) {
        List<String> shorter = words(one).size() <= words(other).size() ? words(one) : words(other);
        List<String> longer = words(one).size() <= words(other).size() ? words(other) : words(one);
        return longer.subList(0, shorter.size()).equals(shorter);
    }

    private static List<String> addresses(Subject clinic) {
        List<String> addresses = new ArrayList<>();
        addresses.add(clinic.text("address"));
        clinic.fact("stated/sites")
                .ifPresent(sites -> sites.node()
                        .forEach(site -> addresses.add(site.path("address").asText())));
        addresses.removeIf(String::isBlank);
        return addresses;
    }

    private static boolean standsIn(Subject machine, Subject clinic) {
        String room = RegisterRooms.roomOf(machine);
        return machine.text("clinic").equals(clinic.id().toString())
                || (!room.isBlank() && RegisterRooms.roomsOf(clinic).containsKey(room));
    }

    /** A machine as a table or a register states it. */
    static Machine machine(Map<?, ?> entry) {
        return new Machine(text(entry, "maker"), text(entry, "model"), text(entry, "serial"));
    }

    private static String text(Map<?, ?> entry, String key) {
        return entry.get(key) instanceof String text ? text.strip() : "";
    }
}
