package org.steamwright.visit.register;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

/** Names by which the entries of a register find each other. */
final class Ids {

    private Ids() {}

    static void check(String what, String id) {
        if (id.isBlank()) {
            throw new IllegalArgumentException("a " + what + " has an id");
        }
    }

    static <E> Set<String> unique(String what, List<E> entries, Function<E, String> id) {
        Set<String> ids = new HashSet<>();
        for (E entry : entries) {
            if (!ids.add(id.apply(entry))) {
                throw new IllegalArgumentException("two " + what + " have the id " + id.apply(entry));
            }
        }
        return ids;
    }
}
