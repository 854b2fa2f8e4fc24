package org.steamwright.filing;

import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueRule;
import org.steamwright.records.DueStart;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.due.Today;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;

/**
 * What is due by a record. Asked up to a day, only the machines that the index names are read; the list is the same as that of
 * the whole register. A duty whose evidence is a report that was withdrawn does not count as done.
 */
public final class DueInRecord {

    /** The rule with which a record of an office is opened. */
    public static final DueRule RULE = new OfficeDueRule();

    /** Machines read together. */
    private static final int PIECE = 200;

    private final Records records;
    private final RegisterFiling filing;

    /** @param records opened, with {@link #RULE} if the index is to be used */
    public DueInRecord(Records records) {
        this.records = records;
        this.filing = new RegisterFiling(records);
    }

    /**
     * What is due, the most pressing first.
     *
     * @param rules by which it is due
     * @param isIndexed whether these are the rules that come with the program, by which the index is made
     * @param today the day at each site
     * @param office zone of the office
     * @param until only what may fall due up to this day, and what has no day; all if empty
     * @throws RegisterException if this program can't read an entry any more
     * @throws IllegalArgumentException if a site names a set of rules that is not there
     */
    public List<Due> list(DueRules rules, boolean isIndexed, Today today, ZoneId office, Optional<LocalDate> until)
            throws IOException, RegisterException, FilingException {
        Map<SubjectId, Set<String>> withdrawn = withdrawn();
        List<Due> all = new ArrayList<>();
        boolean isByIndex = isIndexed && until.isPresent() && records.dueRule() == RULE;
        List<SubjectId> ids = isByIndex ? List.copyOf(named(until.get(), withdrawn.keySet())) : machines();
        for (int from = 0; from < ids.size(); from += PIECE) {
            List<Subject> piece = records.subjects(ids.subList(from, Math.min(ids.size(), from + PIECE)));
            add(piece, withdrawn, rules, today, office, all);
        }
        all.addAll(DueList.of(filing.withoutMachines(), rules, today, office));
        return all.stream()
                .filter(due -> until.isEmpty() || due.concerns(until.get()))
                .sorted(DueList.ORDER)
                .toList();
    }

    /**
     * What is due of some machines by the rules of the program, the most pressing first.
     *
     * @param machines of the record
     * @param withdrawn as {@link #withdrawn} gives it
     */
    public List<Due> of(
            List<Subject> machines, Map<SubjectId, Set<String>> withdrawn, DueRules rules, Today today, ZoneId office)
            throws RegisterException {
        List<Due> all = new ArrayList<>();
        for (int from = 0; from < machines.size(); from += PIECE) {
            add(machines.subList(from, Math.min(machines.size(), from + PIECE)), withdrawn, rules, today, office, all);
        }
        all.sort(DueList.ORDER);
        return all;
    }

    /**
     * A page of the due list.
     *
     * @param machines that the page is about, in the order of the index
     * @param due what is due of them by the page, the most pressing first
     * @param earlier where the page before it begins, if there is one
     * @param later where the page behind it begins, if there is one
     */
    public record Page(List<Subject> machines, List<Due> due, Optional<DueStart> earlier, Optional<DueStart> later) {}

    /**
     * A page of what is due of machines up to a day, read by the index: the pages follow each other by the day from which a thing
     * has to be looked at, and within a page the most pressing comes first. Machines with a withdrawn report stand on the
     * first page, with all that is due of them.
     *
     * @param start place in the index
     * @param length of the page in entries of the index
     * @throws IllegalStateException if the record was opened without {@link #RULE}
     */
    public Page page(
            LocalDate until,
            DueStart start,
            int length,
            Map<SubjectId, Set<String>> withdrawn,
            DueRules rules,
            Today today,
            ZoneId office)
            throws RegisterException {
        if (records.dueRule() != RULE) {
            throw new IllegalStateException("a record that was opened without the rule has no index of what is due");
        }
        Set<SubjectId> ids = new LinkedHashSet<>();
        Set<String> wanted = new HashSet<>();
        DueEntries entries = DueEntries.read(records, until, start, length);
        for (DueDate date : entries.entries()) {
            if (!withdrawn.containsKey(date.sterilizer())) {
                ids.add(date.sterilizer());
                wanted.add(date.sterilizer() + date.reason());
            }
        }
        if (start.isFirst()) {
            ids.addAll(withdrawn.keySet());
        }
        List<Subject> machines = records.subjects(List.copyOf(ids));
        Map<String, Subject> byNumber = new HashMap<>();
        machines.forEach(machine -> byNumber.put(machine.text("number"), machine));
        List<Due> due = of(machines, withdrawn, rules, today, office).stream()
                .filter(one -> one.concerns(until))
                .filter(one -> Optional.ofNullable(byNumber.get(one.subject().id()))
                        .filter(machine ->
                                withdrawn.containsKey(machine.id()) || wanted.contains(machine.id() + one.title()))
                        .isPresent())
                .toList();
        return new Page(machines, due, entries.earlier(), entries.later());
    }

    private List<SubjectId> machines() {
        List<SubjectId> machines = new ArrayList<>();
        records.eachSubject(Kind.STERILIZER, subject -> machines.add(subject.id()));
        return machines;
    }

    private Set<SubjectId> named(LocalDate until, Set<SubjectId> withdrawn) {
        Set<SubjectId> named = new TreeSet<>(Comparator.comparing(SubjectId::value));
        for (DueDate date : records.due(until, Integer.MAX_VALUE)) {
            named.add(date.sterilizer());
        }
        named.addAll(withdrawn);
        return named;
    }

    private void add(
            List<Subject> machines,
            Map<SubjectId, Set<String>> withdrawn,
            DueRules rules,
            Today today,
            ZoneId office,
            List<Due> all)
            throws RegisterException {
        if (machines.isEmpty()) {
            return;
        }
        Map<String, Set<String>> byId = new HashMap<>();
        for (Subject machine : machines) {
            Set<String> numbers = withdrawn.get(machine.id());
            if (numbers != null) {
                byId.put(machine.text("number"), numbers);
            }
        }
        Register register = filing.register(machines);
        List<SterilizerRecord> counted = register.sterilizers().stream()
                .map(machine -> byId.containsKey(machine.id())
                        ? VisitEvidence.without(byId.getOrDefault(machine.id(), Set.of()), machine)
                        : machine)
                .toList();
        all.addAll(DueList.of(
                new Register(register.clinics(), counted, List.of(), List.of(), List.of(), List.of()),
                rules,
                today,
                office));
    }

    /** Report numbers that were withdrawn and of which nothing is in force, by the sterilisers of their visits. */
    public Map<SubjectId, Set<String>> withdrawn() {
        Map<SubjectId, Set<String>> withdrawn = new TreeMap<>(Comparator.comparing(SubjectId::value));
        VisitStates states = new VisitStates(records);
        for (Subject withdrawal :
                records.usedBy(Use.STANDING, Issues.WITHDRAWAL, Optional.empty(), Integer.MAX_VALUE)) {
            Subject visit = records.subject(Issue.of(withdrawal).visit());
            String number = visit.text("number");
            if (VisitStates.inForce(states.ofNumber(number)).isEmpty()) {
                visit.fact("sterilizer")
                        .ifPresent(ids -> ids.node()
                                .forEach(id -> withdrawn
                                        .computeIfAbsent(SubjectId.parse(id.asText()), unseen -> new TreeSet<>())
                                        .add(number)));
            }
        }
        return withdrawn;
    }
}
