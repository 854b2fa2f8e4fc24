package org.steamwright.visit;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.quantity.LeakRate;

/**
 * The air leakage tests of one steriliser beside each other: without sensors, with them, after.
 *
 * @param sterilizer key
 * @param without the test that counts without sensors; empty if there was none
 * @param with the test that counts with sensors; empty if there was none
 * @param after the test that counts after they were taken out; empty if there was none
 * @param pattern they make together
 * @param sentence for people
 */
public record LeakTrio(
        String sterilizer,
        Optional<Stage> without,
        Optional<Stage> with,
        Optional<Stage> after,
        LeakPattern pattern,
        String sentence) {

    /**
     * One stage.
     *
     * @param run number of the test that counts
     * @param word its verdict
     * @param rate empty if the test could not be read
     * @param tests how many were made at this stage
     */
    public record Stage(int run, String word, Optional<LeakRate> rate, int tests) {}

    /** The trios of a visit, in the order of its sterilisers; none for one without a leak test. */
    public static List<LeakTrio> of(AssessedVisit assessed) {
        return assessed.visit().sterilizers().stream()
                .map(sterilizer -> new LeakStanding(sterilizer, assessed.runs()).trio())
                .flatMap(Optional::stream)
                .toList();
    }

    /** How much faster the pressure rose with the sensors than without them, in kPa/min; empty without both rates. */
    public Optional<Double> sensorShareKilopascalPerMinute() {
        Optional<LeakRate> one = without.flatMap(Stage::rate);
        Optional<LeakRate> other = with.flatMap(Stage::rate);
        return one.isPresent() && other.isPresent()
                ? Optional.of(other.get().kilopascalPerMinute() - one.get().kilopascalPerMinute())
                : Optional.empty();
    }
}
