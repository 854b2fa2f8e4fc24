package org.steamwright.desk.office;

import java.io.IOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.due.Today;
import org.steamwright.visit.register.Register;

/**
 * The register and what is due in it, kept at hand until an entry of the journal changes one of its subjects, a report is
 * signed or withdrawn, or another day begins. A withdrawn report is evidence of nothing.
 */
public final class RegisterShelf {

    private static final Set<Kind> OF_THE_REGISTER = EnumSet.of(
            Kind.CLINIC,
            Kind.SITE,
            Kind.STERILIZER,
            Kind.TECHNICIAN,
            Kind.INSTRUMENT,
            Kind.LOT,
            Kind.PART,
            Kind.BATCH,
            Kind.ISSUE);
    private static final int ENTRIES_AT_ONCE = 500;

    /**
     * The register at one moment.
     *
     * @param register itself
     * @param due all that is due, the most pressing first
     * @param day for which that holds
     */
    public record Standing(Register register, List<Due> due, LocalDate day) {
        public Standing {
            due = List.copyOf(due);
        }
    }

    private final Office office;
    private final DueRules rules = DataFiles.dueRules();
    private @Nullable Standing kept;
    private long seen;

    /** @param office whose record holds the register */
    public RegisterShelf(Office office) {
        this.office = office;
    }

    /** The register as it stands now. */
    public synchronized Standing now() throws IOException, FilingException, RegisterException {
        Records records = office.records();
        LocalDate day = LocalDate.now(office.clock());
        long size = records.head().tree().size();
        Standing known = kept;
        if (known != null && known.day.equals(day) && !isTouched(records, size)) {
            seen = size;
            return known;
        }
        Register register = new RegisterFiling(records).register();
        Instant moment = office.clock().instant();
        List<Due> due;
        try {
            due = new DueInRecord(records)
                    .list(rules, true, Today.of(moment), office.clock().getZone(), Optional.empty());
        } catch (IllegalArgumentException unknownRules) {
            throw new FilingException(
                    "the register: " + unknownRules.getMessage(), "Correct 'rules' of that site in the register.");
        }
        Standing fresh = new Standing(register, due, day);
        kept = fresh;
        seen = size;
        return fresh;
    }

    private boolean isTouched(Records records, long size) {
        for (long from = seen; from < size; from += ENTRIES_AT_ONCE) {
            for (JournalEntry entry : records.entries(from, ENTRIES_AT_ONCE)) {
                if (OF_THE_REGISTER.contains(entry.kind())) {
                    return true;
                }
            }
        }
        return false;
    }
}
