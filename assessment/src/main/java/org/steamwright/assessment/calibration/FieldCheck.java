package org.steamwright.assessment.calibration;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * A check of an instrument in the field, before or after the work of a day: in melting ice, or against a reference.
 *
 * @param day at the site
 * @param moment whether it came before or after that day's runs
 * @param method in words, such as 'ice point'; may be empty
 * @param pairs what the reference and the instrument showed together; at least one
 * @param tolerance largest deviation of the corrected reading from the reference, itself good; in kelvin or kilopascal; empty if
 *     only the criteria set may state one
 * @param against which reference it was held, such as the id of a second instrument; may be blank
 * @param author who checked; may be blank
 */
public record FieldCheck(
        LocalDate day,
        Moment moment,
        String method,
        List<Pair> pairs,
        Optional<Double> tolerance,
        String against,
        String author) {

    /** Before or after the runs of a day. */
    public enum Moment {
        BEFORE("before"),
        AFTER("after");

        private final String word;

        Moment(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    /**
     * What was read together.
     *
     * @param reference in degree Celsius or kilopascal
     * @param indicated by the instrument, same unit
     */
    public record Pair(double reference, double indicated) {}

    /**
     * A pair with what is left after the correction.
     *
     * @param pair as read
     * @param deviation corrected reading minus reference, in kelvin or kilopascal
     */
    public record Deviation(Pair pair, double deviation) {}

    public FieldCheck {
        pairs = List.copyOf(pairs);
        if (pairs.isEmpty()) {
            throw new IllegalArgumentException("a check on %s without a reading".formatted(day));
        }
        if (tolerance.isPresent() && !(tolerance.get() >= 0)) {
            throw new IllegalArgumentException("a check on %s with a tolerance of %s".formatted(day, tolerance.get()));
        }
    }

    /** A check that states its tolerance and nothing of who made it. */
    public FieldCheck(LocalDate day, Moment moment, String method, List<Pair> pairs, double tolerance) {
        this(day, moment, method, pairs, Optional.of(tolerance), "", "");
    }

    /** What is allowed: the smaller one of its tolerance and of the limit of a criteria set; empty if neither is stated. */
    public Optional<Double> allowed(Optional<Double> limit) {
        return tolerance.isPresent() && limit.isPresent()
                ? Optional.of(Math.min(tolerance.get(), limit.get()))
                : tolerance.or(() -> limit);
    }

    /** The pair that deviates most from the reference once the certificate's correction is applied. */
    public Deviation worst(CalibrationCertificate certificate) {
        Correction correction = Correction.of(certificate);
        Deviation worst = deviation(pairs.get(0), correction);
        for (Pair pair : pairs) {
            Deviation deviation = deviation(pair, correction);
            if (Math.abs(deviation.deviation()) > Math.abs(worst.deviation())) {
                worst = deviation;
            }
        }
        return worst;
    }

    private static Deviation deviation(Pair pair, Correction correction) {
        return new Deviation(pair, correction.correct(pair.indicated()) - pair.reference());
    }
}
