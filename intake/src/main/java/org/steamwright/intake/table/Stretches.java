package org.steamwright.intake.table;

import java.util.Arrays;

/** A long list of numbers that seldom change from one to the next, kept as stretches of equal ones. */
final class Stretches {

    private long[] values = new long[8];
    private int[] starts = new int[8];
    private int stretches;
    private int size;

    void add(long value) {
        if (stretches == 0 || values[stretches - 1] != value) {
            if (stretches == values.length) {
                values = Arrays.copyOf(values, stretches * 2);
                starts = Arrays.copyOf(starts, stretches * 2);
            }
            values[stretches] = value;
            starts[stretches] = size;
            stretches++;
        }
        size++;
    }

    void dropLast() {
        size--;
        if (starts[stretches - 1] == size) {
            stretches--;
        }
    }

    int size() {
        return size;
    }

    long at(int index) {
        if (index < 0 || index >= size) {
            throw new IndexOutOfBoundsException(index);
        }
        return values[stretchOf(index)];
    }

    /** The first index behind the stretch in which an index lies. */
    int endOfStretch(int index) {
        int stretch = stretchOf(index);
        return stretch + 1 == stretches ? size : starts[stretch + 1];
    }

    private int stretchOf(int index) {
        int found = Arrays.binarySearch(starts, 0, stretches, index);
        return found >= 0 ? found : -found - 2;
    }
}
