package org.steamwright.intake.certificate;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The values of one quantity of a certificate.
 *
 * @param unit as written
 * @param values in the unit of the file, as many as the table has rows
 * @param decimals with how many the values were written at least; tells how exactly two spellings can agree
 * @param expanded expanded uncertainty of each value, in the unit of the file; empty if none is stated
 * @param factor coverage factor of each; NaN where it is not stated
 * @param probability coverage probability of each; NaN where it is not stated
 * @param distribution of each, in the word of the file; blank where it is not stated
 */
record SiColumn(
        SiUnit unit,
        List<Double> values,
        int decimals,
        List<Double> expanded,
        List<Double> factor,
        List<Double> probability,
        List<String> distribution) {

    /** Digits kept beyond those of the file, so that a change of unit leaves no tail of binary noise. */
    private static final int SPARE_DIGITS = 6;

    private static final int MOST_DIGITS = 15;

    SiColumn {
        values = List.copyOf(values);
        expanded = List.copyOf(expanded);
        factor = List.copyOf(factor);
        probability = List.copyOf(probability);
        distribution = List.copyOf(distribution);
    }

    int size() {
        return values.size();
    }

    boolean hasUncertainty() {
        return !expanded.isEmpty();
    }

    /** The values in the unit inside. */
    List<Double> inside() {
        return values.stream().map(value -> clean(unit.inside(value))).toList();
    }

    /** The values taken as differences, in the unit inside. */
    List<Double> differences() {
        return values.stream().map(value -> clean(unit.difference(value))).toList();
    }

    /** The expanded uncertainties in the unit inside; empty if none is stated. */
    List<Double> expandedInside() {
        return expanded.stream().map(value -> clean(unit.difference(value))).toList();
    }

    /** Half a step of the last written digit, in the unit inside. */
    double halfStep() {
        return Math.abs(unit.difference(0.5 * StrictMath.pow(10, -decimals)));
    }

    /** The same values with the uncertainty of another spelling of them. */
    SiColumn withUncertaintyOf(SiColumn other) {
        List<Double> converted = new ArrayList<>();
        for (double value : other.expanded) {
            converted.add(other.unit.difference(value) / unit.difference(1));
        }
        return new SiColumn(unit, values, decimals, converted, other.factor, other.probability, other.distribution);
    }

    /** Whether another spelling says the same values, to the last written digit. */
    Optional<String> disagreement(SiColumn other) {
        if (other.size() != size()) {
            return Optional.of("one has " + size() + " values, the other " + other.size());
        }
        double allowed = (halfStep() + other.halfStep()) * 1.01;
        List<Double> own = inside();
        List<Double> others = other.inside();
        for (int i = 0; i < size(); i++) {
            double here = own.get(i);
            double there = others.get(i);
            if (Math.abs(here - there) > allowed) {
                return Optional.of("value " + (i + 1) + " is " + print(here) + " " + unit.symbol() + " in the one and "
                        + print(there) + " " + unit.symbol() + " in the other");
            }
        }
        return Optional.empty();
    }

    private double clean(double value) {
        return clean(value, decimals);
    }

    /** Without the noise of the last binary digits. */
    static double clean(double value, int decimals) {
        int digits = Math.min(MOST_DIGITS, decimals + SPARE_DIGITS);
        return BigDecimal.valueOf(value)
                .setScale(digits, RoundingMode.HALF_EVEN)
                .doubleValue();
    }

    /** A number without needless zeros. */
    static String print(double value) {
        BigDecimal plain =
                BigDecimal.valueOf(value).setScale(9, RoundingMode.HALF_EVEN).stripTrailingZeros();
        return plain.signum() == 0 ? "0" : plain.toPlainString();
    }
}
