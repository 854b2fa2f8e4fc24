package org.steamwright.filing;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Predicate;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.InventedRecord;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.Subject;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.FitCycle;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.state.VisitState;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.RegisteredSince;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.ValidatedState;

/**
 * Whether a load is covered by what a record holds of a steriliser.
 *
 * <p>The last visit in force that tested the cycle answers. Visits that are open, replaced, withdrawn or broken off do not. What
 * a later visit found speaks against it, whether that visit is in force or was withdrawn without another in its place, and so
 * does what the register says since.
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

    /** What answers for a cycle, with the failures that later visits found, and those of which nobody knows what they found. */
    private record Found(
            Optional<StatedVisit> visit,
            Optional<ValidatedState> state,
            List<String> failures,
            List<StatedVisit> unread) {}

    /** Visits to a machine that count, the last day first. */
    public List<StatedVisit> visits(Subject machine) {
        return states.ofSterilizer(machine.id()).stream().filter(counted).toList();
    }

    /** What day it is at the site of a machine: where the register has it stand, else where its last visit was. */
    public LocalDate today(Subject machine) {
        Optional<ZoneId> registered = Optional.ofNullable(
                        new RegisterFiling(records).places(List.of(machine)).get(RegisterFiling.roomOf(machine)))
                .map(RegisterFiling.Standing::zone)
                .flatMap(CoverageInRecord::zone);
        return registered
                .map(zone -> LocalDate.ofInstant(records.clock().instant(), zone))
                .or(() -> visits(machine).stream()
                        .filter(visit -> visit.state() != VisitState.BROKEN_OFF)
                        .findFirst()
                        .map(visit -> SiteDay.today(visit.visit(), records)))
                .orElseGet(() -> LocalDate.now(records.clock()));
    }

    private static Optional<ZoneId> zone(String name) {
        try {
            return name.isBlank() ? Optional.empty() : Optional.of(ZoneId.of(name));
        } catch (DateTimeException unknown) {
            return Optional.empty();
        }
    }

    /** What follows from a visit; empty if it can't be read, such as for a file that is lost, or by a later program. */
    private Optional<AssessedVisit> assessed(StatedVisit visit) {
        try {
            return Optional.of(assessing.of(visit.visit()));
        } catch (VisitFolderException | FilingException | IOException | RecordsException unreadable) {
            return Optional.empty();
        }
    }

    /**
     * Visits in force that can't be read, as far back as something depends on them: nobody can say what they found, so nothing that
     * stood before them counts.
     */
    public List<StatedVisit> unread(Subject machine) {
        List<StatedVisit> unread = new ArrayList<>();
        for (StatedVisit visit : visits(machine)) {
            if (visit.state().isOut()) {
                if (assessed(visit).isPresent()) {
                    return unread;
                }
                unread.add(visit);
            }
        }
        return unread;
    }

    /**
     * How the cycles stand on a day that the last visit in force names, of those that can be read.
     *
     * @param count cycle number on that day; empty if nobody read it
     * @throws RegisterException if this program can't read the register any more
     */
    public List<CycleStanding> cycles(Subject machine, LocalDate day, OptionalInt count)
            throws IOException, FilingException, RegisterException {
        List<StatedVisit> every = states.ofSterilizer(machine.id());
        List<StatedVisit> all = every.stream().filter(counted).toList();
        List<String> names = all.stream()
                .filter(visit -> visit.state().isOut())
                .flatMap(visit -> assessed(visit).stream().map(assessed -> left(visit, assessed, machine)))
                .findFirst()
                .flatMap(left -> left)
                .map(ValidatedState::cycles)
                .orElse(List.of())
                .stream()
                .map(QualifiedCycle::name)
                .toList();
        List<CycleStanding> standings = new ArrayList<>();
        for (String name : names) {
            Found found = find(all, machine, name);
            if (found.state.isPresent() && found.state.get().findCycle(name).isPresent()) {
                ValidatedState state = found.state.get();
                List<String> against = new ArrayList<>(state.reasonsAgainst(name, day, count));
                against.addAll(found.failures);
                against.addAll(since(machine, every, state, name, day, count));
                otherSerial(machine, state).ifPresent(against::add);
                standings.add(new CycleStanding(
                        found.visit.orElseThrow(),
                        state,
                        state.findCycle(name).orElseThrow(),
                        against.stream().distinct().toList()));
            }
        }
        return standings;
    }

    /** The state that a visit left of a machine: the one that the visit is tied to, where two have the same serial number. */
    private Optional<ValidatedState> left(StatedVisit visit, AssessedVisit assessed, Subject machine) {
        TiedMachines tied = TiedMachines.of(visit.visit(), assessed.visit(), records);
        List<ValidatedState> all = ValidatedState.of(assessed);
        List<ValidatedState> ofMachine = all.stream()
                .filter(one -> tied.find(one.sterilizer())
                        .filter(known -> known.id().equals(machine.id()))
                        .isPresent())
                .toList();
        List<ValidatedState> ofSerial = all.stream()
                .filter(one -> tied.find(one.sterilizer()).isEmpty()
                        && otherSerial(machine, one).isEmpty())
                .toList();
        List<ValidatedState> left = ofMachine.isEmpty() ? ofSerial : ofMachine;
        if (left.size() != 1) {
            return Optional.empty();
        }
        ValidatedState state = isInvented ? left.get(0).amongInvented() : left.get(0);
        // an interim report ends by itself, with everything that stands in it
        return Optional.of(visit.interimUntil().map(state::endingBy).orElse(state));
    }

    /** A number that was corrected since is that of the same machine, and has to be looked at before anything is relied on. */
    private static Optional<String> otherSerial(Subject machine, ValidatedState state) {
        return state.serial().strip().equals(machine.text("serial").strip())
                ? Optional.empty()
                : Optional.of("This is steriliser %s; what was tested is steriliser %s."
                        .formatted(machine.text("serial").strip(), state.serial()));
    }

    private Found find(List<StatedVisit> all, Subject machine, String cycle) {
        List<String> failures = new ArrayList<>();
        List<StatedVisit> unread = new ArrayList<>();
        Optional<StatedVisit> answering = Optional.empty();
        Optional<ValidatedState> state = Optional.empty();
        for (StatedVisit visit : all) {
            if (visit.state() == VisitState.WITHDRAWN) {
                failures.add(
                        "The later report %s was withdrawn: %s. What stood before it is not relied on until another visit is signed."
                                .formatted(visit.visit().text("number"), visit.reason()));
            }
            if (!visit.state().isOut()) {
                continue;
            }
            Optional<AssessedVisit> read = assessed(visit);
            if (read.isEmpty()) {
                unread.add(visit);
                failures.add(
                        "Visit %s of %s can't be read, so nobody can say what it found. What depends on it is not relied on."
                                .formatted(
                                        visit.visit().text("number"),
                                        visit.visit().text("date")));
                continue;
            }
            AssessedVisit assessed = read.get();
            Optional<ValidatedState> left = left(visit, assessed, machine);
            if (left.isEmpty()) {
                failures.add("The later visit %s does not say which of its sterilisers this is."
                        .formatted(visit.visit().text("number")));
                continue;
            }
            if (state.isEmpty()) {
                answering = Optional.of(visit);
                state = left;
            }
            if (isTested(assessed, left.get(), cycle)) {
                return new Found(Optional.of(visit), left, failures, unread);
            }
            failures.addAll(failures(assessed, left.get(), visit));
            FitCycle.found(assessed, left.get().sterilizer(), cycle)
                    .forEach(found -> failures.add("The later visit %s speaks against it: %s"
                            .formatted(visit.visit().text("number"), found)));
            if (left.get().findCycle(cycle).isEmpty()) {
                failures.add("The later visit %s does not know the cycle ‘%s’ at this steriliser."
                        .formatted(visit.visit().text("number"), cycle.strip()));
            }
        }
        return new Found(answering, state, failures, unread);
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
     * @throws RegisterException if this program can't read the register any more
     */
    public Answer of(Subject machine, TodaysLoad load) throws IOException, FilingException, RegisterException {
        List<StatedVisit> every = states.ofSterilizer(machine.id());
        List<StatedVisit> all = every.stream().filter(counted).toList();
        Found found = find(all, machine, load.cycle());
        List<String> reasons = new ArrayList<>(found.failures);
        List<String> notes = new ArrayList<>();
        Optional<ValidatedState> state = found.state;
        if (state.isEmpty()) {
            if (found.unread.isEmpty()) {
                reasons.add(
                        0, "No visit to steriliser %s in this record is signed and in force.".formatted(load.serial()));
            }
            all.stream()
                    .filter(one -> !found.unread.contains(one))
                    .forEach(one ->
                            reasons.add("Visit %s is %s.".formatted(one.visit().text("number"), one.words())));
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
        reasons.addAll(since(machine, every, state.get(), load.cycle(), load.day(), load.count()));
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

    /** What the register says of the machine since the visit, and visits that were made for somebody else. */
    private List<String> since(
            Subject machine,
            List<StatedVisit> every,
            ValidatedState state,
            String cycle,
            LocalDate day,
            OptionalInt count)
            throws IOException, FilingException, RegisterException {
        List<String> reasons = new ArrayList<>();
        Register register = new RegisterFiling(records).register(List.of(records.subject(machine.id())));
        for (SterilizerRecord one : register.sterilizers()) {
            reasons.addAll(RegisteredSince.against(one, state, cycle, day, count));
        }
        String from = state.from().map(LocalDate::toString).orElse("");
        every.stream()
                .filter(visit -> visit.state().isOut() && !counted.test(visit))
                .map(visit -> visit.visit().text("date"))
                .filter(date -> date.compareTo(from) > 0 && date.compareTo(day.toString()) <= 0)
                .findFirst()
                .ifPresent(date -> reasons.add(
                        "On %s it was visited for somebody else. What was found there is not known here, so nothing from before is relied on."
                                .formatted(date)));
        return reasons;
    }
}
