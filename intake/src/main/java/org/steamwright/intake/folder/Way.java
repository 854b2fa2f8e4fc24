package org.steamwright.intake.folder;

import java.util.ArrayList;
import java.util.List;

/**
 * The way to a value of a file.
 *
 * @param steps keys, and places in lists counted from 1
 * @param written as messages have it, such as {@code runs[2].channels.T3}; empty for the file as a whole
 */
public record Way(List<String> steps, String written) {

    /** The file as a whole. */
    public static final Way WHOLE = new Way(List.of(), "");

    public Way {
        steps = List.copyOf(steps);
    }

    /** A single key, or what stands for one, such as an option of a command. */
    public static Way of(String key) {
        return key.isEmpty() ? WHOLE : WHOLE.key(key);
    }

    /** The way to the value of a key; a key of the user's own may hold any sign. */
    Way key(String key) {
        return new Way(longer(key), written.isEmpty() ? key : written + "." + key);
    }

    /** The way to an entry of a list. */
    Way entry(int place) {
        return new Way(longer(String.valueOf(place)), written + "[" + place + "]");
    }

    private List<String> longer(String step) {
        List<String> longer = new ArrayList<>(steps);
        longer.add(step);
        return longer;
    }

    @Override
    public String toString() {
        return written;
    }
}
