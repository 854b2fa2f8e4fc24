package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.validity.Shown;

/**
 * What signed visits show, beside what the register states: duties done and readings of the counter. It is entered with the
 * machine when a visit is signed, so that a due list needs the machine alone; the register as it was stated stays as it was.
 */
final class VisitEvidence {

    /** Before the number of a report, in the facts of a machine. */
    static final String PREFIX = "shown/";

    /** Who enters what nobody was there to enter. */
    private static final Author PROGRAM = new Author("Steamwright", "program");

    private final Records records;

    VisitEvidence(Records records) {
        this.records = records;
    }

    /**
     * What is entered with each machine of a visit when it is signed, in the same transaction. What an earlier issue of the report
     * showed is replaced, and taken away from machines that are not in it any more.
     *
     * @param visit that is signed
     * @param assessed what follows from it
     */
    List<Change> changes(Subject visit, AssessedVisit assessed) {
        String number = assessed.visit().reportNumber();
        Optional<LocalDate> day = assessed.visit().date();
        if (number.isBlank() || day.isEmpty()) {
            return List.of();
        }
        TiedMachines tied = TiedMachines.of(visit, assessed.visit(), records);
        Map<SubjectId, JsonText> shown = new LinkedHashMap<>();
        for (Sterilizer one : assessed.visit().sterilizers()) {
            tied.find(one.key()).ifPresent(machine -> shown.put(machine.id(), text(assessed, one, day.get())));
        }
        for (Subject issue : records.exactly(Kind.VISIT, "number", number)) {
            machines(issue).forEach(machine -> shown.putIfAbsent(machine.id(), JsonText.NULL));
        }
        List<Change> changes = new ArrayList<>();
        shown.forEach((machine, value) -> {
            Optional<JsonText> before = records.subject(machine).fact(PREFIX + number);
            if (!before.orElse(JsonText.NULL).equals(value)) {
                changes.add(Change.set(Kind.STERILIZER, machine, PREFIX + number, value)
                        .because(value.isNull() ? "not in the later issue of report " + number : "report " + number));
            }
        });
        return changes;
    }

    /**
     * Makes up what a visit that is out shows and the machines do not have yet: a visit that was signed by an earlier program, or
     * under rules that have changed since.
     *
     * @param stated the visit; nothing happens if it is not out
     * @param assessed what follows from it
     */
    void makeUp(StatedVisit stated, AssessedVisit assessed) {
        if (!stated.state().isOut()) {
            return;
        }
        List<Change> changes = changes(stated.visit(), assessed);
        if (!changes.isEmpty()) {
            records.append(new Submission(records.newSubmission(), PROGRAM, changes, Optional.empty()));
        }
    }

    /** Whether every machine of a visit has what the visit shows, as far as the visit is out. */
    boolean isEntered(StatedVisit stated) {
        String number = stated.visit().text("number");
        return !stated.state().isOut()
                || machines(stated.visit()).stream()
                        .allMatch(machine -> machine.fact(PREFIX + number).isPresent());
    }

    private List<Subject> machines(Subject visit) {
        List<Subject> machines = new ArrayList<>();
        visit.fact("sterilizer")
                .ifPresent(ids -> ids.node()
                        .forEach(
                                id -> records.find(SubjectId.parse(id.asText())).ifPresent(machines::add)));
        return machines;
    }

    private static JsonText text(AssessedVisit assessed, Sterilizer one, LocalDate day) {
        Map<String, Object> shown = new LinkedHashMap<>();
        shown.put("on", day.toString());
        shown.put(
                "done",
                Shown.of(assessed, one.key()).stream().map(Duty::word).sorted().toList());
        List<Integer> counters = new ArrayList<>();
        for (OptionalInt counter : List.of(one.counterAtArrival(), one.counterAtDeparture())) {
            counter.ifPresent(counters::add);
        }
        shown.put("counter", counters);
        return JsonText.of(shown);
    }

    /** The register with what signed visits showed of its machines. */
    static Register in(Register register, List<Subject> machines) {
        Map<String, Subject> byId = new HashMap<>();
        for (Subject machine : machines) {
            if (machine.facts().keySet().stream().anyMatch(fact -> fact.startsWith(PREFIX))) {
                byId.put(RegisterMatching.statedId(machine), machine);
            }
        }
        return byId.isEmpty()
                ? register
                : new Register(
                        register.clinics(),
                        register.sterilizers().stream()
                                .map(one -> Optional.ofNullable(byId.get(one.id()))
                                        .map(machine -> with(one, machine))
                                        .orElse(one))
                                .toList(),
                        register.technicians(),
                        register.instruments(),
                        register.lots(),
                        register.parts(),
                        register.testers());
    }

    /** The machine of the register with what visits showed beside. */
    static SterilizerRecord with(SterilizerRecord machine, Subject subject) {
        List<SterilizerRecord.Done> done = new ArrayList<>(machine.done());
        List<Counter.Reading> readings = new ArrayList<>();
        subject.facts().forEach((property, value) -> {
            if (property.startsWith(PREFIX) && !value.isNull()) {
                String number = property.substring(PREFIX.length());
                JsonNode shown = value.node();
                LocalDate day = LocalDate.parse(shown.path("on").asText());
                shown.path("done")
                        .forEach(word -> Duty.find(word.asText())
                                .filter(duty -> machine.done().stream()
                                        .noneMatch(one ->
                                                one.duty() == duty && one.on().equals(day)))
                                .ifPresent(duty -> done.add(new SterilizerRecord.Done(duty, day, number))));
                shown.path("counter").forEach(count -> readings.add(new Counter.Reading(day, count.asLong(), number)));
            }
        });
        return done.size() == machine.done().size() && readings.isEmpty()
                ? machine
                : copy(machine, counter(machine.counter(), readings), done);
    }

    /** A reading that can't be, such as one below an earlier one without a reset between them, is left to the visit. */
    private static Counter counter(Counter stated, List<Counter.Reading> shown) {
        Counter counter = stated;
        List<Counter.Reading> inOrder = shown.stream()
                .sorted(Comparator.comparing(Counter.Reading::on).thenComparing(Counter.Reading::shown))
                .toList();
        for (Counter.Reading reading : inOrder) {
            List<Counter.Reading> all = new ArrayList<>(counter.readings());
            if (all.stream().noneMatch(one -> one.on().equals(reading.on()) && one.shown() == reading.shown())) {
                all.add(reading);
            }
            try {
                counter = new Counter(all, counter.resets());
            } catch (IllegalArgumentException contradicts) {
                // the register may not know of a reset yet; the due list stays readable without this reading
            }
        }
        return counter;
    }

    /** The machine without what these reports show. */
    static SterilizerRecord without(Set<String> reports, SterilizerRecord machine) {
        Counter counter = new Counter(
                machine.counter().readings().stream()
                        .filter(reading -> !reports.contains(reading.evidence()))
                        .toList(),
                machine.counter().resets());
        return copy(
                machine,
                counter,
                machine.done().stream()
                        .filter(done -> !reports.contains(done.evidence()))
                        .toList());
    }

    private static SterilizerRecord copy(SterilizerRecord machine, Counter counter, List<SterilizerRecord.Done> done) {
        return new SterilizerRecord(
                machine.id(),
                machine.identity(),
                machine.status(),
                machine.isLoaner(),
                machine.home(),
                machine.cycles(),
                machine.firmware(),
                counter,
                machine.movements(),
                machine.papers(),
                machine.intervals(),
                done,
                machine.changes(),
                machine.conditions());
    }
}
