package org.steamwright.visit.register;

import java.time.LocalDate;
import java.time.Period;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;

/**
 * A sterilizer as the office keeps it, through all visits and owners; {@link Sterilizer} is its face at one visit. Blank
 * texts were not stated.
 *
 * @param id stable, unique in the register
 * @param identity what the name plate says
 * @param status whether it is in use
 * @param isLoaner whether it is lent out by the office
 * @param home id of the room it was first registered in; blank for none. Movements lead on from there
 * @param cycles available, each in use or not
 * @param firmware versions, sorted here by day
 * @param counter readings and resets
 * @param movements sorted here by day
 * @param papers of the pressure vessel, sorted here by day of examination
 * @param intervals agreed for this machine, in place of the rules of its site
 * @param done duties done, sorted here by day
 * @param changes that may touch the validated state, sorted here by day
 * @param conditions that were attached to a pass
 */
public record SterilizerRecord(
        String id,
        Identity identity,
        Status status,
        boolean isLoaner,
        String home,
        List<RegisteredCycle> cycles,
        List<Firmware> firmware,
        Counter counter,
        List<Movement> movements,
        List<PressurePaper> papers,
        List<OwnInterval> intervals,
        List<Done> done,
        List<ChangeMade> changes,
        List<PassCondition> conditions) {

    /**
     * What the name plate says.
     *
     * @param maker as printed
     * @param model as printed
     * @param family model family for task lists, kits and competence; blank takes the model
     * @param serial as printed, never blank
     * @param year of manufacture
     * @param chamberLitres volume of the chamber
     * @param chamberSize its sides inside
     * @param trayLevels levels on which trays lie, one over the other
     */
    public record Identity(
            String maker,
            String model,
            String family,
            String serial,
            String year,
            Optional<Double> chamberLitres,
            Optional<ChamberSize> chamberSize,
            OptionalInt trayLevels) {
        public Identity {
            if (serial.isBlank()) {
                throw new IllegalArgumentException("a steriliser has a serial number");
            }
        }

        /** An identity without sides and tray levels. */
        public Identity(
                String maker, String model, String family, String serial, String year, Optional<Double> chamberLitres) {
            this(maker, model, family, serial, year, chamberLitres, Optional.empty(), OptionalInt.empty());
        }

        /** Family, or the model where none is stated. */
        public String familyOrModel() {
            return family.isBlank() ? model : family;
        }
    }

    /** Whether it is in use. */
    public enum Status {
        IN_USE("in-use"),
        OUT_OF_SERVICE("out-of-service"),
        STORED("stored"),
        DISPOSED("disposed");

        private final String word;

        Status(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }

        /** For people. */
        public String words() {
            return word.replace('-', ' ');
        }
    }

    /**
     * A cycle that the machine offers.
     *
     * @param definition name, type, temperature and what else is declared
     * @param isInUse whether the clinic runs it, be it twice a year
     */
    public record RegisteredCycle(CycleDefinition definition, boolean isInUse) {
        /** Whether air is drawn out by vacuum: type B always, others by declared pulses, or if nobody says that they do not. */
        public boolean drawsVacuum() {
            return definition.type() == CycleType.B
                    || (definition.airRemovalPulses().isPresent()
                            ? definition.airRemovalPulses().getAsInt() > 0
                            : definition.type() != CycleType.N);
        }
    }

    /**
     * A version of the control program.
     *
     * @param version as shown
     * @param since first day it was seen
     * @param note who loaded it and why; may be blank
     */
    public record Firmware(String version, LocalDate since, String note) {}

    /**
     * The machine went from one place to another.
     *
     * @param on day
     * @param from room id; blank for the workshop or an unknown place
     * @param to room id; blank for the workshop, the store or a buyer
     * @param reason in words, such as 'lent while SN-0417 is repaired'
     */
    public record Movement(LocalDate on, String from, String to, String reason) {}

    /**
     * An examination of the pressure vessel by a competent person.
     *
     * @param document number of the certificate
     * @param examinedOn day
     * @param nextBy last day by which the next is due; empty if the paper does not say
     * @param by examining body; may be blank
     */
    public record PressurePaper(String document, LocalDate examinedOn, Optional<LocalDate> nextBy, String by) {}

    /**
     * An interval agreed for this machine.
     *
     * @param duty what comes back
     * @param every time after which it does; empty if only cycles count
     * @param cycles after which it does; empty if only time counts
     * @param because contract, instructions for use or a validator's written reason; never blank
     */
    public record OwnInterval(Duty duty, Optional<Period> every, OptionalLong cycles, String because) {
        public OwnInterval {
            if (because.isBlank()) {
                throw new IllegalArgumentException("an own interval for " + duty.word() + " needs its reason");
            }
            if (every.isEmpty() && cycles.isEmpty()) {
                throw new IllegalArgumentException("an own interval for " + duty.word() + " needs a time or a count");
            }
        }
    }

    /**
     * A duty done.
     *
     * @param duty what
     * @param on day at the site
     * @param evidence report number; may be blank
     */
    public record Done(Duty duty, LocalDate on, String evidence) {}

    /**
     * Something was changed that may touch the validated state.
     *
     * @param on day
     * @param reason word of the after-change matrix
     * @param what in words
     * @param settledOn day on which the tests asked for had been passed; empty while they are open
     */
    public record ChangeMade(LocalDate on, String reason, String what, Optional<LocalDate> settledOn) {}

    /**
     * A condition that was attached to a pass. It lapses by itself.
     *
     * @param what has to be done
     * @param owner who does it; never blank
     * @param until last day
     * @param atCycles total of the counter at which it lapses sooner; empty if only the day counts
     * @param metOn day on which it was met; empty while it is open
     */
    public record PassCondition(
            String what, String owner, LocalDate until, OptionalLong atCycles, Optional<LocalDate> metOn) {
        public PassCondition {
            if (owner.isBlank()) {
                throw new IllegalArgumentException("the condition '" + what + "' has no owner");
            }
        }
    }

    public SterilizerRecord {
        Ids.check("steriliser", id);
        cycles = List.copyOf(cycles);
        Ids.unique("cycles of " + id, cycles, cycle -> cycle.definition().name());
        firmware =
                firmware.stream().sorted(Comparator.comparing(Firmware::since)).toList();
        movements =
                movements.stream().sorted(Comparator.comparing(Movement::on)).toList();
        papers = papers.stream()
                .sorted(Comparator.comparing(PressurePaper::examinedOn))
                .toList();
        intervals = List.copyOf(intervals);
        done = done.stream().sorted(Comparator.comparing(Done::on)).toList();
        changes = changes.stream().sorted(Comparator.comparing(ChangeMade::on)).toList();
        conditions = List.copyOf(conditions);
    }

    /** Id of the room it stands in now; blank for none. */
    public String room() {
        return movements.isEmpty() ? home : movements.get(movements.size() - 1).to();
    }

    /** Id of the room it stood in at the end of a day; blank for none. */
    public String roomOn(LocalDate day) {
        String room = movements.isEmpty() ? home : movements.get(0).from();
        for (Movement movement : movements) {
            if (!movement.on().isAfter(day)) {
                room = movement.to();
            }
        }
        return room;
    }

    /** The cycles that the clinic runs, however seldom. */
    public List<RegisteredCycle> cyclesInUse() {
        return cycles.stream().filter(RegisteredCycle::isInUse).toList();
    }

    /** The last time a duty was done. */
    public Optional<Done> lastDone(Duty duty) {
        return done.stream().filter(one -> one.duty() == duty).reduce((earlier, later) -> later);
    }

    /** Maker, model and serial number in one line. */
    public String title() {
        return (identity.maker() + " " + identity.model()).strip() + " " + identity.serial();
    }
}
