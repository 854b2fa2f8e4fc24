package org.steamwright.filing;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Predicate;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.InventedRecord;
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
import org.steamwright.visit.validity.QualifiedCycle;
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
    private final KeptResults.Assessing assessing;
    private final VisitStates states;
    private final Predicate<StatedVisit> counted;
    private final boolean isInvented;

    /** @param records opened */
    public CoverageInRecord(Records records) {
        this(records, new Filing(records)::assess, visit -> true);
    }

    /**
     * @param records opened
     * @param assessing how a visit is assessed, such as out of what is at hand
     * @param counted visits that count, such as those that were made for one clinic
     */
    public CoverageInRecord(Records records, KeptResults.Assessing assessing, Predicate<StatedVisit> counted) {
        this.records = records;
        this.assessing = assessing;
        this.states = new VisitStates(records);
        this.counted = counted;
        this.isInvented = InventedRecord.isIn(records);
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
     * How a cycle of a steriliser stands.
     *
     * @param visit the last one in force that tested it, else the last one in force
     * @param state that it left
     * @param cycle with its loads
     * @param against everything that keeps it from being run on that day; empty if it may be run with a load that is covered
     */
    public record CycleStanding(StatedVisit visit, ValidatedState state, QualifiedCycle cycle, List<String> against) {
        public CycleStanding {
            against = List.copyOf(against);
        }
    }

    /** What answers for a cycle, with the failures that later visits found. */
    private record Found(Optional<StatedVisit> visit, Optional<ValidatedState> state, List<String> failures) {}

    /** Visits to a machine that count, the last day first. */
    public List<StatedVisit> visits(Subject machine) {
        return states.ofSterilizer(machine.id()).stream().filter(counted).toList();
    }

    /**
     * How the cycles that the last visit in force names stand on a day.
     *
     * @param count cycle number on that day; empty if nobody read it
     * @throws VisitFolderException if this program can't read a visit any more
     * @throws RegisterException if it can't read the register any more
     */
    public List<CycleStanding> cycles(Subject machine, LocalDate day, OptionalInt count)
            throws IOException, FilingException, VisitFolderException, RegisterException {
        List<StatedVisit> all = visits(machine);
        String serial = machine.text("serial");
        Optional<StatedVisit> newest = VisitStates.inForce(all);
        Optional<ValidatedState> now =
                newest.isPresent() ? left(assessing.of(newest.get().visit()), serial) : Optional.empty();
        List<String> names = now.map(ValidatedState::cycles).orElse(List.of()).stream()
                .map(QualifiedCycle::name)
                .toList();
        List<CycleStanding> standings = new ArrayList<>();
        for (String name : names) {
            Found found = find(all, serial, name);
            if (found.state.isPresent() && found.state.get().findCycle(name).isPresent()) {
                ValidatedState state = found.state.get();
                List<String> against = new ArrayList<>(state.reasonsAgainst(name, day, count));
                against.addAll(found.failures);
                against.addAll(since(machine.id(), state.from().orElse(LocalDate.MIN), day));
                standings.add(new CycleStanding(
                        found.visit.orElseThrow(),
                        state,
                        state.findCycle(name).orElseThrow(),
                        against.stream().distinct().toList()));
            }
        }
        return standings;
    }

    private Optional<ValidatedState> left(AssessedVisit assessed, String serial) {
        return ValidatedState.of(assessed).stream()
                .filter(one -> one.serial().strip().equals(serial.strip()))
                .findFirst()
                .map(one -> isInvented ? one.amongInvented() : one);
    }

    private Found find(List<StatedVisit> all, String serial, String cycle)
            throws IOException, FilingException, VisitFolderException {
        List<String> failures = new ArrayList<>();
        Optional<StatedVisit> answering = Optional.empty();
        Optional<ValidatedState> state = Optional.empty();
        for (StatedVisit visit : all) {
            if (!visit.state().isOut()) {
                continue;
            }
            AssessedVisit assessed = assessing.of(visit.visit());
            Optional<ValidatedState> left = left(assessed, serial);
            if (left.isPresent() && state.isEmpty()) {
                answering = Optional.of(visit);
                state = left;
            }
            if (left.isPresent() && isTested(assessed, left.get(), cycle)) {
                return new Found(Optional.of(visit), left, failures);
            }
            left.ifPresent(one -> failures.addAll(failures(assessed, one, visit)));
        }
        return new Found(answering, state, failures);
    }

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
        List<StatedVisit> all = visits(machine);
        Found found = find(all, load.serial(), load.cycle());
        List<String> reasons = new ArrayList<>(found.failures);
        List<String> notes = new ArrayList<>();
        Optional<ValidatedState> state = found.state;
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
        if (isInvented) {
            notes.add("The recordings behind it are simulated; they say nothing about a real steriliser.");
        }
        reasons.addAll(since(machine.id(), state.get().from().orElse(LocalDate.MIN), load.day()));
        Coverage coverage = Coverage.of(state.get(), load).and(reasons, notes);
        return new Answer(found.visit, state, coverage);
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
