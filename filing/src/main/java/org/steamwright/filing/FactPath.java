package org.steamwright.filing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.steamwright.intake.folder.Way;

/**
 * The way to a stated fact, such as {@code runs/2/channels/T3/role}. Places in lists count from 1. A stroke inside of a name is
 * written {@code ~1}, a tilde {@code ~0}.
 *
 * @param steps names and places, at least one, none of them empty
 * @source RFC 6901 for the two ways of writing; places count from 0 there
 */
public record FactPath(List<String> steps) {

    private static final int DIGITS = 6;

    public FactPath {
        steps = List.copyOf(steps);
        if (steps.isEmpty() || steps.stream().anyMatch(String::isEmpty)) {
            throw new IllegalArgumentException("a path has at least one step and no empty one, not " + steps);
        }
    }

    /** A path of steps: texts and whole numbers. */
    public static FactPath of(Object... steps) {
        return new FactPath(Arrays.stream(steps).map(String::valueOf).toList());
    }

    /** The path of a way through the visit file; empty for the file as a whole. Nothing stands behind an empty key. */
    static Optional<FactPath> of(Way way) {
        List<String> steps =
                way.steps().stream().takeWhile(step -> !step.isEmpty()).toList();
        return steps.isEmpty() ? Optional.empty() : Optional.of(new FactPath(steps));
    }

    /**
     * A path as it is written.
     *
     * @throws IllegalArgumentException if it has an empty step
     */
    public static FactPath parse(String written) {
        return new FactPath(Arrays.stream(written.split("/", -1))
                .map(step -> step.replace("~1", "/").replace("~0", "~"))
                .toList());
    }

    /** The path one step further. */
    public FactPath then(Object step) {
        List<String> longer = new ArrayList<>(steps);
        longer.add(String.valueOf(step));
        return new FactPath(longer);
    }

    /** The place in words from the outside to the inside, such as "run 2" and "channel T3". */
    public List<String> words() {
        return PlaceWords.parts(this);
    }

    /** First step. */
    String first() {
        return steps.get(0);
    }

    /** Last step. */
    public String last() {
        return steps.get(steps.size() - 1);
    }

    /** A step as place in a list; empty if it is none. */
    public static OptionalInt place(String step) {
        boolean isPlace = step.length() <= DIGITS && step.matches("[1-9][0-9]*");
        return isPlace ? OptionalInt.of(Integer.parseInt(step)) : OptionalInt.empty();
    }

    /** As it is written. */
    @Override
    public String toString() {
        return steps.stream()
                .map(step -> step.replace("~", "~0").replace("/", "~1"))
                .collect(Collectors.joining("/"));
    }
}
