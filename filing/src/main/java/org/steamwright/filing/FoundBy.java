package org.steamwright.filing;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.Visit;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/**
 * What a visit is found by in a record.
 *
 * @param number of the report
 * @param purpose in words
 * @param date at the site
 * @param zone of the site
 * @param simulated whether its recordings are invented; empty while there are none
 * @param criteriaSet name and version
 * @param clinic name and address
 * @param machines the sterilizers
 * @param technicians in the order in which the visit names them
 * @param instruments ids, in order
 * @param lots numbers of indicator lots, in order
 */
record FoundBy(
        String number,
        String purpose,
        Optional<String> date,
        Optional<String> zone,
        Optional<Boolean> simulated,
        Optional<String> criteriaSet,
        Optional<Clinic> clinic,
        List<Machine> machines,
        List<Person> technicians,
        List<String> instruments,
        List<String> lots) {

    /** Every fact that this can give. */
    static final Set<String> PROPERTIES = Set.of(
            "number",
            "purpose",
            "date",
            "zone",
            "simulated",
            "criteria-set",
            "algorithm-version",
            "clinic",
            "clinic-name",
            "sterilizer",
            "serial",
            "technicians",
            "instruments",
            "lots");

    private static final String TECHNICIAN = "technician";

    /** A sterilizer as a name plate tells it. */
    record Machine(String maker, String model, String serial) {}

    /** Whether this role is the technician's. */
    static boolean isTechnician(String role) {
        return role.equalsIgnoreCase(TECHNICIAN);
    }

    static FoundBy of(Visit visit) {
        return new FoundBy(
                visit.reportNumber(),
                visit.purpose(),
                visit.date().map(Object::toString),
                Optional.of(visit.zone().getId()),
                Optional.of(visit.isSimulated()),
                Optional.of(
                        visit.criteriaSet().name() + " " + visit.criteriaSet().version()),
                visit.clinic(),
                visit.sterilizers().stream().map(FoundBy::machine).toList(),
                visit.people().stream()
                        .filter(person -> isTechnician(person.role()))
                        .toList(),
                visit.instruments().keySet().stream().sorted().toList(),
                visit.runs().stream()
                        .flatMap(run -> run.indicators().stream())
                        .map(IndicatorUse::lot)
                        .filter(lot -> !lot.isBlank())
                        .distinct()
                        .sorted()
                        .toList());
    }

    private static Machine machine(Sterilizer sterilizer) {
        return new Machine(sterilizer.maker(), sterilizer.model(), sterilizer.serial());
    }

    /**
     * Facts with the subjects that the visit names; those that the record does not know are added to the changes.
     *
     * @param ties those that it is known to mean
     * @throws FilingException if it is not clear whom it means
     */
    Map<String, Object> facts(Subjects subjects, Meant.Ties ties, List<Change> changes) throws FilingException {
        Map<String, Object> facts = plain();
        Map<Machine, Subject> known = new LinkedHashMap<>();
        for (Machine machine : machines) {
            known(subjects.meant().machine(machine, ties)).ifPresent(one -> known.put(machine, one));
        }
        Optional<SubjectId> ofClinic = Optional.empty();
        if (clinic.isPresent()) {
            Clinic one = clinic.get();
            ofClinic = known(subjects.meant().clinic(one, ties, List.copyOf(known.values())))
                    .map(Subject::id)
                    .or(() -> Optional.of(
                            subjects.make(Kind.CLINIC, "name", one.name(), changes, Map.of("address", one.address()))));
        }
        ofClinic.ifPresent(id -> facts.put("clinic", id.toString()));
        Map<Machine, String> sterilizers = new LinkedHashMap<>();
        for (Machine machine : machines) {
            Optional<Subject> one = Optional.ofNullable(known.get(machine));
            if (one.isEmpty() && !sterilizers.containsKey(machine)) {
                Map<String, String> more = new TreeMap<>();
                more.put("maker", machine.maker());
                more.put("model", machine.model());
                ofClinic.ifPresent(id -> more.put("clinic", id.toString()));
                sterilizers.put(
                        machine,
                        subjects.make(Kind.STERILIZER, "serial", machine.serial(), changes, more)
                                .toString());
            }
            one.ifPresent(subject -> sterilizers.put(machine, subject.id().toString()));
        }
        facts.put("sterilizer", machines.stream().map(sterilizers::get).toList());
        facts.put(
                "technicians",
                technicians.stream()
                        .map(person -> subjects.findOrMake(
                                        Kind.TECHNICIAN, "name", person.name(), changes, Map.of("role", person.role()))
                                .toString())
                        .toList());
        return facts;
    }

    private static Optional<Subject> known(Meant.Answer answer) throws FilingException {
        if (answer.question().isPresent()) {
            throw new FilingException(
                    answer.question().get().text(), answer.question().get().remedy());
        }
        return answer.subject();
    }

    /**
     * The same with those subjects only that the record knows: a name that is still being typed makes nobody, and where it is
     * not clear who is meant, nobody is.
     */
    Map<String, Object> known(Subjects subjects, Meant.Ties ties) {
        Map<String, Object> facts = plain();
        List<Subject> known = machines.stream()
                .flatMap(one -> subjects.meant().machine(one, ties).subject().stream())
                .toList();
        clinic.flatMap(one -> subjects.meant().clinic(one, ties, known).subject())
                .ifPresent(one -> facts.put("clinic", one.id().toString()));
        facts.put("sterilizer", known.stream().map(one -> one.id().toString()).toList());
        facts.put(
                "technicians",
                technicians.stream()
                        .flatMap(person -> subjects.find(Kind.TECHNICIAN, "name", person.name()).stream())
                        .map(SubjectId::toString)
                        .toList());
        return facts;
    }

    private Map<String, Object> plain() {
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("number", number);
        facts.put("purpose", purpose);
        date.ifPresent(day -> facts.put("date", day));
        zone.ifPresent(id -> facts.put("zone", id));
        simulated.ifPresent(is -> facts.put("simulated", is));
        criteriaSet.ifPresent(set -> facts.put("criteria-set", set));
        facts.put("algorithm-version", Results.ALGORITHM_VERSION);
        clinic.map(Clinic::name).ifPresent(name -> facts.put("clinic-name", name));
        facts.put("serial", machines.stream().map(Machine::serial).toList());
        facts.put("instruments", instruments);
        facts.put("lots", lots);
        return facts;
    }
}
