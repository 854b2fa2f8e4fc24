package org.steamwright.assessment.indicator;

import java.time.LocalDate;
import java.util.Comparator;
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

    /**
     * Kelvin by which an end point may come early.
     *
     * @source 1 K for type 6 by ISO 11140-1 (from memory), handbook section 5; taken for type 5 too
     */
    private static final double ALLOWED_KELVIN = 1.0;

    /** A stay shorter than stated by less than this share is binary noise of the sum. */
    private static final double ROUNDING = 1e-9;

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
     * <p>The end point is expected if the stated time was stayed for with every reading lowered by its expanded uncertainty
     * and each step at its colder end. It is not expected if, with every reading raised by it and by the kelvin that the
     * type allows, and each step at its hotter end, the stay is still shorter than the type allows. A thermometer sees no
     * dryness and no air, so a missed end point asks for the steam.
     *
     * @param channel in the same place
     */
    public Agreement agreement(CorrectedChannel channel) {
        double notReached = type.shareNotReached();
        if (statedValues.isEmpty() || Double.isNaN(notReached)) {
            return Agreement.NOT_COMPARED;
        }
        double doubt = channel.expanded().value();
        boolean isExpected = stay(channel.shifted(-doubt), false) >= 1 - ROUNDING;
        boolean isNotExpected = stay(channel.shifted(doubt + ALLOWED_KELVIN), true) < notReached - ROUNDING;
        if (result == Result.UNCLEAR || (!isExpected && !isNotExpected)) {
            return Agreement.CANNOT_TELL;
        }
        if (isExpected) {
            return result == Result.REACHED ? Agreement.AGREES : Agreement.END_POINT_MISSED;
        }
        return result == Result.REACHED ? Agreement.END_POINT_UNEXPECTED : Agreement.AGREES;
    }

    /**
     * Share of the stated time that was stayed for: the sum of each step's length over the time stated for its temperature.
     * Between two stated values the logarithm of the time runs straight over temperature; below the lowest nothing counts,
     * above the highest no step counts for more than there. A gap or a missing value counts as nothing.
     */
    double stay(CorrectedChannel channel, boolean isHotterEnd) {
        List<StatedValue> rising = statedValues.stream()
                .sorted(Comparator.comparingDouble(StatedValue::celsius))
                .toList();
        double sum = 0;
        for (int i = 1; i < channel.size(); i++) {
            double one = channel.at(i - 1);
            double other = channel.at(i);
            if (!Double.isNaN(one) && !Double.isNaN(other) && !channel.axis().isGapBefore(i)) {
                double step = channel.axis().at(i) - channel.axis().at(i - 1);
                sum += step / seconds(rising, isHotterEnd ? Math.max(one, other) : Math.min(one, other));
            }
        }
        return sum;
    }

    private static double seconds(List<StatedValue> rising, double celsius) {
        if (celsius < rising.get(0).celsius) {
            return Double.POSITIVE_INFINITY;
        }
        for (int i = 1; i < rising.size(); i++) {
            StatedValue below = rising.get(i - 1);
            StatedValue above = rising.get(i);
            if (celsius < above.celsius) {
                double share = (celsius - below.celsius) / (above.celsius - below.celsius);
                return below.seconds * StrictMath.pow(above.seconds / below.seconds, share);
            }
        }
        return rising.get(rising.size() - 1).seconds;
    }
}
