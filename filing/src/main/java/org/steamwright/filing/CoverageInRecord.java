package org.steamwright.filing;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.state.VisitState;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.ValidatedState;

/**
 * Whether a load is covered by what a record holds of a steriliser.
 *
 * <p>The last visit in force that tested the cycle answers. Visits that are open, replaced, withdrawn or broken off do not. A
 * failure that a later visit in force found, and what the register says since, speak against it.
 */
public final class CoverageInRecord {

    private final Records records;
    private final Filing filing;
    private final VisitStates states;

    /** @param records opened */
    public CoverageInRecord(Records records) {
        this.records = records;
        this.filing = new Filing(records);
        this.states = new VisitStates(records);
    }

    /**
     * The answer and on what it rests.
     *
     * @param visit that answers; empty if none is in force
     * @param state that it left; empty if none is in force
     * @param coverage the answer
     */
    public record Answer(Optional<StatedVisit> visit, Optional<ValidatedState> state, Coverage coverage) {}

    /**
     * The steriliser with that serial number, or that id in the register.
     *
     * @throws FilingException if the record knows none
     */
    public Subject sterilizer(String serialOrId) throws FilingException {
        String wanted = serialOrId.strip();
        Optional<Subject> machine = new RegisterFiling(records).machine(wanted);
        return machine.orElseThrow(() -> new FilingException(
                "the record knows no steriliser with the serial number or id '" + wanted + "'",
                "Look for it with 'find'."));
    }

    /**
     * Answers for one load.
     *
     * @param load with the serial number as the record has it
     * @throws VisitFolderException if this program can't read a visit any more
     * @throws RegisterException if it can't read the register any more
     */
    public Answer of(Subject machine, TodaysLoad load)
            throws IOException, FilingException, VisitFolderException, RegisterException {
        List<StatedVisit> all = states.ofSterilizer(machine.id());
        List<String> reasons = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        List<StatedVisit> out = all.stream().filter(one -> one.state().isOut()).toList();
        Optional<StatedVisit> answering = Optional.empty();
        Optional<ValidatedState> state = Optional.empty();
        for (StatedVisit visit : out) {
            AssessedVisit assessed = filing.assess(visit.visit());
            Optional<ValidatedState> left = ValidatedState.of(assessed).stream()
                    .filter(one -> one.serial().strip().equals(load.serial().strip()))
                    .findFirst();
            if (left.isPresent() && state.isEmpty()) {
                answering = Optional.of(visit);
                state = left;
            }
            if (left.isPresent() && isTested(assessed, left.get(), load.cycle())) {
                answering = Optional.of(visit);
                state = left;
                break;
            }
            left.ifPresent(one -> reasons.addAll(failures(assessed, one, visit)));
        }
        if (state.isEmpty()) {
            reasons.add(0, "No visit to steriliser %s in this record is signed and in force.".formatted(load.serial()));
            all.forEach(
                    one -> reasons.add("Visit %s is %s.".formatted(one.visit().text("number"), one.words())));
            return new Answer(
                    Optional.empty(), Optional.empty(), new Coverage(false, reasons, Optional.empty(), List.of()));
        }
        for (StatedVisit one : all) {
            if (one.state() == VisitState.OPEN && one.isCorrection()) {
                notes.add("A correction of %s is being worked on: %s"
                        .formatted(one.visit().text("number"), one.reason()));
            } else if (one.state() == VisitState.OPEN) {
                notes.add("Visit %s of %s is not signed, so it does not count."
                        .formatted(one.visit().text("number"), one.visit().text("date")));
            }
        }
        reasons.addAll(since(machine.id(), state.get().from().orElse(LocalDate.MIN), load.day()));
        Coverage coverage = Coverage.of(state.get(), load).and(reasons, notes);
        return new Answer(answering, state, coverage);
    }

    private static boolean isTested(AssessedVisit assessed, ValidatedState state, String cycle) {
        return state.findCycle(cycle).isPresent()
                && assessed.qualifications().stream()
                        .anyMatch(one -> one.kind() == Qualification.Kind.PERFORMANCE
                                && one.sterilizer().equals(state.sterilizer())
                                && one.cycle()
                                        .equals(state.findCycle(cycle)
                                                .orElseThrow()
                                                .name())
                                && one.standing() != Qualification.Standing.NOT_ASSESSED);
    }

    private static List<String> failures(AssessedVisit assessed, ValidatedState state, StatedVisit visit) {
        List<String> reasons = new ArrayList<>();
        for (Failure failure : FailurePath.of(assessed)) {
            if (failure.sterilizer().equals(state.sterilizer())
                    && failure.blame() != Failure.Blame.MEASUREMENT
                    && !failure.isClosed()) {
                reasons.add("The later visit %s found a failure that is open: %s."
                        .formatted(visit.visit().text("number"), failure.kind().words()));
            }
        }
        return reasons;
    }

    /** What the register says of the machine since the visit. */
    private List<String> since(SubjectId machine, LocalDate visit, LocalDate day)
            throws IOException, FilingException, RegisterException {
        List<String> reasons = new ArrayList<>();
        Register register = new RegisterFiling(records).register(List.of(records.subject(machine)));
        for (SterilizerRecord one : register.sterilizers()) {
            if (one.status() != SterilizerRecord.Status.IN_USE) {
                reasons.add("The register has it as %s.".formatted(one.status().word()));
            }
            for (SterilizerRecord.Movement movement : one.movements()) {
                if (movement.on().isAfter(visit) && !movement.on().isAfter(day)) {
                    reasons.add("On %s it was moved%s. That ended it."
                            .formatted(
                                    movement.on(), movement.reason().isBlank() ? "" : " (" + movement.reason() + ")"));
                }
            }
            for (SterilizerRecord.ChangeMade change : one.changes()) {
                if (change.on().isAfter(visit)
                        && !change.on().isAfter(day)
                        && change.settledOn()
                                .filter(settled -> !settled.isAfter(day))
                                .isEmpty()) {
                    reasons.add("On %s: %s. The tests that this asks for are not recorded as passed."
                            .formatted(change.on(), change.what().isBlank() ? change.reason() : change.what()));
                }
            }
        }
        return reasons;
    }
}
