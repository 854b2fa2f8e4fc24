package org.steamwright.visit.register;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
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

    /** A name as it is compared: without outer blanks, whatever its case. */
    static String folded(String text) {
        return text.strip().toLowerCase(Locale.ROOT);
    }

    static boolean isSame(String one, String other) {
        return folded(one).equals(folded(other));
    }

    /** An id of letters, digits and hyphens that follows from a name alone, so that the same name gives the same id. */
    static String slug(String name) {
        StringBuilder slug = new StringBuilder();
        for (char sign : folded(name).toCharArray()) {
            if (Character.isLetterOrDigit(sign)) {
                slug.append(sign);
            } else if (slug.length() > 0 && slug.charAt(slug.length() - 1) != '-') {
                slug.append('-');
            }
        }
        int end = slug.length();
        while (end > 0 && slug.charAt(end - 1) == '-') {
            end--;
        }
        return end == 0 ? "x" : slug.substring(0, end);
    }
}
