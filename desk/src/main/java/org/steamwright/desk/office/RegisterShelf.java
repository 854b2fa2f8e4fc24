package org.steamwright.desk.office;

import java.io.IOException;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.DueStart;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.due.Today;
import org.steamwright.visit.register.Register;

/**
 * The register as pages ask for it. Machines and clinics may be very many and are read by the index, those that a page is about.
 * What the office owns itself, instruments, people, lots and parts, is kept at hand until an entry of the journal changes it or
 * another day begins; and so is which reports were withdrawn, for they are evidence of nothing.
 */
public final class RegisterShelf {

    private static final Set<Kind> OF_THE_OFFICE =
            EnumSet.of(Kind.TECHNICIAN, Kind.INSTRUMENT, Kind.LOT, Kind.PART, Kind.ISSUE);
    private static final int ENTRIES_AT_ONCE = 500;

    /**
     * What the office owns itself, at one moment.
     *
     * @param register without clinics and machines
     * @param due all that is due of it, the most pressing first
     * @param withdrawn numbers of withdrawn reports by the machine
     * @param day for which that holds
     */
    public record Standing(Register register, List<Due> due, Map<SubjectId, Set<String>> withdrawn, LocalDate day) {
        public Standing {
            due = List.copyOf(due);
            withdrawn = Map.copyOf(withdrawn);
        }
    }

    private final Office office;
    private final RegisterFiling filing;
    private final DueInRecord due;
    private final DueRules rules = DataFiles.dueRules();
    private @Nullable Standing kept;
    private long seen;

    /** @param office whose record holds the register */
    public RegisterShelf(Office office) {
        this.office = office;
        this.filing = new RegisterFiling(office.records());
        this.due = new DueInRecord(office.records());
    }

    /** What the office owns itself, as it stands now. */
    public synchronized Standing now() throws IOException, FilingException, RegisterException {
        Records records = office.records();
        LocalDate day = LocalDate.now(office.clock());
        long size = records.head().tree().size();
        Standing known = kept;
        if (known != null && known.day.equals(day) && !isTouched(records, size)) {
            seen = size;
            return known;
        }
        Register register = filing.withoutMachines();
        Standing fresh = new Standing(
                register, DueList.of(register, rules, today(), office.clock().getZone()), due.withdrawn(), day);
        kept = fresh;
        seen = size;
        return fresh;
    }

    private Today today() {
        return Today.of(office.clock().instant());
    }

    private boolean isTouched(Records records, long size) {
        for (long from = seen; from < size; from += ENTRIES_AT_ONCE) {
            for (JournalEntry entry : records.entries(from, ENTRIES_AT_ONCE)) {
                if (OF_THE_OFFICE.contains(entry.kind())) {
                    return true;
                }
            }
        }
        return false;
    }

    /** The register in the record. */
    public RegisterFiling filing() {
        return filing;
    }

    /** The machine of that identity in the record, else with that id in the register, else with that serial number alone. */
    Optional<Subject> machine(String named) {
        return filing.machine(named);
    }

    /** What is due of some machines, the most pressing first. */
    public List<Due> due(List<Subject> machines) throws IOException, FilingException, RegisterException {
        try {
            return due.of(
                    machines, now().withdrawn(), rules, today(), office.clock().getZone());
        } catch (IllegalArgumentException unknownRules) {
            throw unknown(unknownRules);
        }
    }

    /** A page of what is due of machines up to a day. */
    DueInRecord.Page page(LocalDate until, DueStart start, int length)
            throws IOException, FilingException, RegisterException {
        try {
            return due.page(
                    until,
                    start,
                    length,
                    now().withdrawn(),
                    rules,
                    today(),
                    office.clock().getZone());
        } catch (IllegalArgumentException unknownRules) {
            throw unknown(unknownRules);
        }
    }

    private static FilingException unknown(IllegalArgumentException unknownRules) {
        return new FilingException(
                "the register: " + unknownRules.getMessage(), "Correct 'rules' of that site in the register.");
    }

    /** How much is overdue today, without evidence included. */
    long countLate() throws IOException, FilingException, RegisterException {
        Standing now = now();
        List<Subject> withdrawn =
                office.records().subjects(List.copyOf(now.withdrawn().keySet()));
        return office.counts()
                        .of(List.of("late", now.day()), () -> office.records().countLate(now.day()))
                - office.records().countLate(now.day(), now.withdrawn().keySet())
                + Math.addExact(late(due(withdrawn)), late(now.due()));
    }

    private static long late(List<Due> all) {
        return all.stream()
                .filter(one -> one.urgency() == Due.Urgency.OVERDUE || one.urgency() == Due.Urgency.NO_EVIDENCE)
                .count();
    }
}
