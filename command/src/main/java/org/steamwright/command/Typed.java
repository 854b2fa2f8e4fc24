package org.steamwright.command;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What was typed after the word of a command, by option. */
final class Typed {
    private final Map<String, List<String>> values;
    private final List<String> arguments;

    /**
     * @param values of every option that was given, by its name; an option without a value has an empty list
     * @param arguments without a name, in their order
     */
    Typed(Map<String, List<String>> values, List<String> arguments) {
        this.values = Map.copyOf(values);
        this.arguments = List.copyOf(arguments);
    }

    boolean isSet(String option) {
        return values.containsKey(option);
    }

    /** The value of an option that takes one. */
    Optional<String> find(String option) {
        return values.getOrDefault(option, List.of()).stream().findFirst();
    }

    /** The values of an option that may be repeated, in their order. */
    List<String> all(String option) {
        return values.getOrDefault(option, List.of());
    }

    /** The argument without a name at that place, from 0. */
    Optional<String> findArgument(int place) {
        return place < arguments.size() ? Optional.of(arguments.get(place)) : Optional.empty();
    }

    /** Whether both say the same. */
    boolean isSameAs(Typed other) {
        return values.equals(other.values) && arguments.equals(other.arguments);
    }

    @Override
    public String toString() {
        return values + " " + arguments;
    }
}
