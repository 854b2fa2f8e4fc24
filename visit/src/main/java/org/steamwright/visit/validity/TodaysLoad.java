package org.steamwright.visit.validity;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A load that somebody wants to run.
 *
 * @param serial number of the steriliser
 * @param cycle that is to be run
 * @param day at the site
 * @param count cycle number that it will be; empty if nobody read the counter
 * @param things in it, at least one
 * @param kilogram total mass; empty if not weighed
 * @param dryingSeconds drying that is set; empty if not known
 * @param testsPassed whether the tests that are due on that day passed; empty if nobody said
 * @param trays how many trays it takes; empty if nobody said
 */
public record TodaysLoad(
        String serial,
        String cycle,
        LocalDate day,
        OptionalInt count,
        List<Thing> things,
        Optional<Double> kilogram,
        Optional<Double> dryingSeconds,
        Optional<Boolean> testsPassed,
        OptionalInt trays) {

    /** A load of which nobody said how many trays it takes. */
    public TodaysLoad(
            String serial,
            String cycle,
            LocalDate day,
            OptionalInt count,
            List<Thing> things,
            Optional<Double> kilogram,
            Optional<Double> dryingSeconds,
            Optional<Boolean> testsPassed) {
        this(serial, cycle, day, count, things, kilogram, dryingSeconds, testsPassed, OptionalInt.empty());
    }

    /**
     * Things of one kind.
     *
     * @param name what they are
     * @param count at least one
     * @param family solid, hollow A, hollow B or porous
     * @param packaging of each; 'none' for unwrapped
     */
    public record Thing(String name, int count, String family, String packaging) {

        public Thing {
            if (count < 1 || name.isBlank()) {
                throw new IllegalArgumentException("things have a name, and there is at least one of them");
            }
        }
    }

    public TodaysLoad {
        things = List.copyOf(things);
        if (things.isEmpty()) {
            throw new IllegalArgumentException("a load holds at least one thing");
        }
    }
}
