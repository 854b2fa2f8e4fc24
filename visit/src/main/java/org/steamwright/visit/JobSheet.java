package org.steamwright.visit;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.visit.job.ChangesSince;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.job.IndicationReading;
import org.steamwright.visit.job.OtherCycles;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.plan.AfterChange;

/**
 * What was done, read and agreed on site beside the test runs.
 *
 * @param otherCycles cycles of the sterilisers that are no test run
 * @param changes moved, added, changed since last time, for each steriliser
 * @param tasks task lists as they were worked off: maintenance, safety, installation
 * @param indications what the sterilisers themselves showed
 * @param penetration steam penetration tests in the order in which they were made
 * @param loads what is known about the loads of each steriliser before this visit
 * @param conditions that have to be put right for a pass to last
 * @param earlierConditions texts of the conditions of the last visit
 * @param earlier good evidence from before this visit
 * @param failures what was done about failures
 * @param events that ended the validity after this visit
 * @param interimUntil last day of an interim report; empty if none was set
 * @param cyclesUntilDue cycles after this visit until it is due again, whatever the day; empty if no number ends it
 * @param afterChange matrix by which what failed is tested again; empty if none is at hand
 * @param scope what was asked for
 * @param validUntil last day that the visit itself names; empty if it leaves that to the criteria set
 */
public record JobSheet(
        List<OtherCycles> otherCycles,
        List<ChangesSince> changes,
        List<TaskRecord> tasks,
        List<IndicationReading> indications,
        List<PenetrationTest> penetration,
        List<LoadFrame> loads,
        List<PassCondition> conditions,
        List<String> earlierConditions,
        List<EarlierEvidence> earlier,
        List<FailureNote> failures,
        List<Event> events,
        Optional<LocalDate> interimUntil,
        OptionalInt cyclesUntilDue,
        Optional<AfterChange> afterChange,
        Scope scope,
        Optional<LocalDate> validUntil) {

    /** Nothing was stated. */
    public static final JobSheet NONE = new JobSheet(
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            Optional.empty(),
            OptionalInt.empty(),
            Optional.empty(),
            Scope.EVERYTHING,
            Optional.empty());

    /**
     * Something that happened after the visit and ends its validity.
     *
     * @param sterilizer key
     * @param kind of event
     * @param on day
     * @param note may be blank
     */
    public record Event(String sterilizer, EndingEvent kind, LocalDate on, String note) {}

    public JobSheet {
        otherCycles = List.copyOf(otherCycles);
        changes = List.copyOf(changes);
        tasks = List.copyOf(tasks);
        indications = List.copyOf(indications);
        penetration = List.copyOf(penetration);
        loads = List.copyOf(loads);
        conditions = List.copyOf(conditions);
        earlierConditions = List.copyOf(earlierConditions);
        earlier = List.copyOf(earlier);
        failures = List.copyOf(failures);
        events = List.copyOf(events);
    }

    /** Whether nothing at all was stated; a matrix alone states nothing. */
    public boolean isEmpty() {
        return with(Optional.empty()).equals(NONE);
    }

    /** The same with that matrix. */
    public JobSheet with(AfterChange matrix) {
        return with(Optional.of(matrix));
    }

    private JobSheet with(Optional<AfterChange> matrix) {
        return copy(tasks, matrix, scope, validUntil);
    }

    /** The same with those task lists. */
    public JobSheet withTasks(List<TaskRecord> done) {
        return copy(done, afterChange, scope, validUntil);
    }

    /** The same for a visit that was asked for that. */
    public JobSheet with(Scope asked) {
        return copy(tasks, afterChange, asked, validUntil);
    }

    /** The same with a last day that the visit itself names. */
    public JobSheet endingOn(LocalDate last) {
        return copy(tasks, afterChange, scope, Optional.of(last));
    }

    private JobSheet copy(List<TaskRecord> done, Optional<AfterChange> matrix, Scope asked, Optional<LocalDate> last) {
        return new JobSheet(
                otherCycles,
                changes,
                done,
                indications,
                penetration,
                loads,
                conditions,
                earlierConditions,
                earlier,
                failures,
                events,
                interimUntil,
                cyclesUntilDue,
                matrix,
                asked,
                last);
    }

    /** What is known about the loads of that steriliser; empty if nothing is. */
    public Optional<LoadFrame> findLoads(String sterilizer) {
        return loads.stream()
                .filter(frame -> frame.sterilizer().equals(sterilizer))
                .findFirst();
    }

    /** The answers of that steriliser to 'moved, added, changed'; empty if nobody was asked. */
    public Optional<ChangesSince> findChanges(String sterilizer) {
        return changes.stream()
                .filter(those -> those.sterilizer().equals(sterilizer))
                .findFirst();
    }
}
