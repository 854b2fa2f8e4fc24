package org.steamwright.intake.folder;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.visit.validity.TodaysLoad.Thing;

/**
 * What somebody stated of a load that is to be run; anything may be missing.
 *
 * @param sterilizer key, serial number or id; blank if not stated
 * @param cycle name; blank if not stated
 * @param on day at the site
 * @param cycleNumber that it will be
 * @param things in it
 * @param kilogram total mass
 * @param dryingSeconds drying that is set
 * @param testsPassed whether the tests that are due on that day passed
 * @param trays how many it takes
 */
public record StatedLoad(
        String sterilizer,
        String cycle,
        Optional<LocalDate> on,
        OptionalInt cycleNumber,
        List<Thing> things,
        Optional<Double> kilogram,
        Optional<Double> dryingSeconds,
        Optional<Boolean> testsPassed,
        OptionalInt trays) {

    /** A load of which nobody said how many trays it takes. */
    public StatedLoad(
            String sterilizer,
            String cycle,
            Optional<LocalDate> on,
            OptionalInt cycleNumber,
            List<Thing> things,
            Optional<Double> kilogram,
            Optional<Double> dryingSeconds,
            Optional<Boolean> testsPassed) {
        this(sterilizer, cycle, on, cycleNumber, things, kilogram, dryingSeconds, testsPassed, OptionalInt.empty());
    }

    /** Nothing is stated. */
    public static final StatedLoad NONE = new StatedLoad(
            "",
            "",
            Optional.empty(),
            OptionalInt.empty(),
            List.of(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            OptionalInt.empty());

    public StatedLoad {
        things = List.copyOf(things);
    }

    /** This, and where it says nothing the other; the things of both. */
    public StatedLoad over(StatedLoad other) {
        List<Thing> both = new ArrayList<>(other.things);
        both.addAll(things);
        return new StatedLoad(
                sterilizer.isBlank() ? other.sterilizer : sterilizer,
                cycle.isBlank() ? other.cycle : cycle,
                on.or(other::on),
                cycleNumber.isPresent() ? cycleNumber : other.cycleNumber,
                both,
                kilogram.or(other::kilogram),
                dryingSeconds.or(other::dryingSeconds),
                testsPassed.or(other::testsPassed),
                trays.isPresent() ? trays : other.trays);
    }
}
