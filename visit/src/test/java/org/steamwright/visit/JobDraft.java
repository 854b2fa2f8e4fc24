package org.steamwright.visit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.visit.job.ChangesSince;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.job.IndicationReading;
import org.steamwright.visit.job.OtherCycles;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.plan.AfterChange;

/** A job sheet that a test fills where it matters. */
final class JobDraft {
    final List<OtherCycles> otherCycles = new ArrayList<>();
    final List<ChangesSince> changes = new ArrayList<>();
    final List<TaskRecord> tasks = new ArrayList<>();
    final List<IndicationReading> indications = new ArrayList<>();
    final List<PenetrationTest> penetration = new ArrayList<>();
    final List<LoadFrame> loads = new ArrayList<>();
    final List<PassCondition> conditions = new ArrayList<>();
    final List<String> earlierConditions = new ArrayList<>();
    final List<EarlierEvidence> earlier = new ArrayList<>();
    final List<FailureNote> failures = new ArrayList<>();
    final List<JobSheet.Event> events = new ArrayList<>();
    Optional<LocalDate> interimUntil = Optional.empty();
    OptionalInt cyclesUntilDue = OptionalInt.empty();
    Optional<AfterChange> afterChange = Optional.empty();
    Scope scope = Scope.EVERYTHING;
    Optional<LocalDate> validUntil = Optional.empty();

    JobSheet sheet() {
        return new JobSheet(
                otherCycles,
                changes,
                tasks,
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
                afterChange,
                scope,
                validUntil);
    }
}
