package org.steamwright.assessment.trace;

import java.util.Arrays;
import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;

/**
 * One column of a recording as it was read: what the file says, in the program's units, before anybody has said where
 * the sensor sat.
 */
public final class Column {

    private final String name;
    private final Quantity quantity;
    private final Optional<PressureReference> reference;
    private final String unitInFile;
    private final double[] values;
    private final double resolution;

    /**
     * @param name as in the file's header, or made from its number
     * @param quantity what it measures
     * @param reference absolute or gauge if the file says so; empty for temperatures and for silent files
     * @param unitInFile symbol of the unit that the file uses
     * @param values indicated values in {@link Quantity#unit()}, NaN where the file has no usable value
     * @param resolution smallest step between values as written, in {@link Quantity#unit()}; 0 if unknown
     */
    public Column(
            String name,
            Quantity quantity,
            Optional<PressureReference> reference,
            String unitInFile,
            double[] values,
            double resolution) {
        this(name, quantity, reference, unitInFile, values, values.length, resolution);
    }

    /**
     * A column of the first so many values; what stands behind them is room.
     *
     * @param size values that count, at most all
     */
    public Column(
            String name,
            Quantity quantity,
            Optional<PressureReference> reference,
            String unitInFile,
            double[] values,
            int size,
            double resolution) {
        if (size > values.length) {
            throw new IllegalArgumentException("%s values of %s".formatted(size, values.length));
        }
        this.name = name;
        this.quantity = quantity;
        this.reference = reference;
        this.unitInFile = unitInFile;
        this.values = Arrays.copyOf(values, size);
        this.resolution = resolution;
    }

    public String name() {
        return name;
    }

    public Quantity quantity() {
        return quantity;
    }

    public Optional<PressureReference> reference() {
        return reference;
    }

    public String unitInFile() {
        return unitInFile;
    }

    /** Number of values, equal to the samples of the recording's axis. */
    public int size() {
        return values.length;
    }

    /** Indicated value in {@link Quantity#unit()}; NaN where there is none. */
    public double at(int index) {
        return values[index];
    }

    public double resolution() {
        return resolution;
    }

    /** The values as a new array. */
    public double[] toArray() {
        return values.clone();
    }
}
