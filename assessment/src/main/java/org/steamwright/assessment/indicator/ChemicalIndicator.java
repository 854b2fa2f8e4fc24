package org.steamwright.assessment.indicator;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;

/**
 * A chemical indicator of a run and what it showed. Evidence beside the thermometry, in no case instead of it: nothing here
 * decides a verdict.
 *
 * @param id on the tag
 * @param type what it is made to show
 * @param product kind of indicator in neutral words; may be blank
 * @param lot lot number; may be blank
 * @param expires last day of use, itself good; empty if not stated
 * @param statedValues temperatures and times at which it reaches its end point, as its maker states them
 * @param position letter on the chamber plan; may be blank
 * @param result what was read
 */
public record ChemicalIndicator(
        String id,
        Type type,
        String product,
        String lot,
        Optional<LocalDate> expires,
        List<StatedValue> statedValues,
        String position,
        Result result) {

    /**
     * Types of chemical indicator.
     *
     * @source ISO 11140-1 (not seen; names from memory), handbook section 5
     */
    public enum Type {
        PROCESS(1, "process"),
        SPECIFIC_TEST(2, "for a specific test"),
        SINGLE_VARIABLE(3, "single variable"),
        MULTIVARIABLE(4, "multivariable"),
        INTEGRATING(5, "integrating"),
        EMULATING(6, "emulating");

        private final int number;
        private final String words;

        Type(int number, String words) {
            this.number = number;
            this.words = words;
        }

        public int number() {
            return number;
        }

        /** 'type 5, integrating'. */
        public String words() {
            return "type " + number + ", " + words;
        }

        /**
         * Share of a stated time at which the end point must not be reached; NaN if the handbook knows none.
         *
         * @source type 5: 10.5 min of 16.5 min, a secondary page to ISO 11140-1, check value 92; type 6: 6 % less, from memory
         */
        double shareNotReached() {
            return switch (this) {
                case INTEGRATING -> 10.5 / 16.5;
                case EMULATING -> 0.94;
                default -> Double.NaN;
            };
        }
    }

    /** What was read after the run. */
    public enum Result {
        REACHED("end point reached"),
        NOT_REACHED("end point not reached"),
        UNCLEAR("unclear");

        private final String words;

        Result(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    /**
     * A temperature and the time in steam at which the end point is reached.
     *
     * @param celsius in degree Celsius
     * @param seconds time, positive
     */
    public record StatedValue(double celsius, double seconds) {
        public StatedValue {
            if (!Double.isFinite(celsius) || !(seconds > 0) || !Double.isFinite(seconds)) {
                throw new IllegalArgumentException("a stated value of %s s at %s °C".formatted(seconds, celsius));
            }
        }
    }

    public ChemicalIndicator {
        statedValues = List.copyOf(statedValues);
    }

    /** Whether it was out of date on that day. */
    public boolean isExpiredOn(LocalDate day) {
        return expires.filter(day::isAfter).isPresent();
    }

    /** Whether the technician has to explain it before anybody signs: not reached, or unclear. */
    public boolean isQuestion() {
        return result != Result.REACHED;
    }

    /**
     * How the colour fits the temperature beside it, for the types that answer for time and temperature together.
     *
     * <p>Each stated value is held against the longest unbroken time at or above its temperature. The end point is expected
     * where one of them was stayed for in full, and not expected where all were missed by more than the type allows. A
     * thermometer sees no dryness, so an end point that was not reached in spite of it asks for the steam.
     *
     * @param channel in the same place
     */
    public Agreement agreement(CorrectedChannel channel) {
        double notReached = type.shareNotReached();
        if (statedValues.isEmpty() || Double.isNaN(notReached)) {
            return Agreement.NOT_COMPARED;
        }
        double most = 0;
        for (StatedValue stated : statedValues) {
            most = Math.max(most, longestSeconds(channel, stated.celsius) / stated.seconds);
        }
        if (result == Result.UNCLEAR || (most > notReached && most < 1)) {
            return Agreement.CANNOT_TELL;
        }
        if (most >= 1) {
            return result == Result.REACHED ? Agreement.AGREES : Agreement.END_POINT_MISSED;
        }
        return result == Result.REACHED ? Agreement.END_POINT_UNEXPECTED : Agreement.AGREES;
    }

    /** Longest unbroken time at or above a temperature between real samples, in seconds; a gap or a missing value breaks it. */
    static double longestSeconds(CorrectedChannel channel, double celsius) {
        double longest = 0;
        double from = Double.NaN;
        for (int i = 0; i < channel.size(); i++) {
            if (channel.axis().isGapBefore(i)) {
                from = Double.NaN;
            }
            if (!(channel.at(i) >= celsius)) {
                from = Double.NaN;
            } else if (Double.isNaN(from)) {
                from = channel.axis().at(i);
            } else {
                longest = Math.max(longest, channel.axis().at(i) - from);
            }
        }
        return longest;
    }
}
