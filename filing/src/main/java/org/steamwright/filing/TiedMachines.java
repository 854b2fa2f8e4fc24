package org.steamwright.filing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.steamwright.filing.FoundBy.Machine;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.Visit;

/**
 * Which machine of the record each steriliser of a visit is: by the ties of the visit, never by the serial number alone.
 *
 * @param byKey machines by the key of the steriliser in the visit; those that the record does not know are not in it
 */
public record TiedMachines(Map<String, Subject> byKey) {

    private static final FactPath STERILIZERS = FactPath.of("sterilizers");

    public TiedMachines {
        byKey = Map.copyOf(byKey);
    }

    private record Named(String key, Machine machine) {}

    /** The machines of a visit that was read. */
    public static TiedMachines of(Subject subject, Visit visit, Records records) {
        return of(
                subject,
                visit.sterilizers().stream()
                        .map(one -> new Named(one.key(), new Machine(one.maker(), one.model(), one.serial())))
                        .toList(),
                records);
    }

    /** The machines of a visit as far as it is stated by now. */
    public static TiedMachines of(Draft draft, Records records) {
        return of(
                draft.subject(),
                IntStream.rangeClosed(1, draft.count(STERILIZERS))
                        .mapToObj(STERILIZERS::then)
                        .map(one -> new Named(
                                draft.text(one.then("key")),
                                new Machine(
                                        draft.text(one.then("maker")),
                                        draft.text(one.then("model")),
                                        draft.text(one.then("serial")))))
                        .filter(one -> !one.machine.serial().isBlank())
                        .toList(),
                records);
    }

    private static TiedMachines of(Subject visit, List<Named> named, Records records) {
        List<Subject> tied = records.subjects(ids(visit));
        Map<String, Subject> byKey = new LinkedHashMap<>();
        for (int i = 0; i < named.size(); i++) {
            Machine wanted = named.get(i).machine;
            // a visit that knows all its machines names them in their order, also one whose number was corrected since
            Optional<Subject> one = tied.size() == named.size()
                    ? Optional.of(tied.get(i))
                    : Meant.fitting(
                                    tied.stream()
                                            .filter(subject ->
                                                    subject.text("serial").equals(wanted.serial()))
                                            .toList(),
                                    wanted)
                            .stream()
                            .findFirst();
            String key = named.get(i).key;
            one.ifPresent(subject -> byKey.putIfAbsent(key, subject));
        }
        return new TiedMachines(byKey);
    }

    private static List<SubjectId> ids(Subject visit) {
        List<SubjectId> ids = new ArrayList<>();
        visit.fact("sterilizer").ifPresent(all -> all.node().forEach(id -> ids.add(SubjectId.parse(id.asText()))));
        return ids;
    }

    /** The ties of a visit as one word; another word may mean other machines. */
    static String word(Subject visit) {
        return ids(visit).stream().map(SubjectId::toString).collect(Collectors.joining(" "));
    }

    /** The machine that a steriliser is, if the record knows it. */
    public Optional<Subject> find(String key) {
        return Optional.ofNullable(byKey.get(key));
    }

    /** The key that a machine has in the visit. */
    public Optional<String> key(SubjectId machine) {
        return byKey.entrySet().stream()
                .filter(one -> one.getValue().id().equals(machine))
                .map(Map.Entry::getKey)
                .findFirst();
    }
}
