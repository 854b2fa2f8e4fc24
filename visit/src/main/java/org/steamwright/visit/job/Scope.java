package org.steamwright.visit.job;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;

/**
 * What a visit was asked for. What was asked for and not assessed keeps the visit as a whole from a pass; what was left out
 * by the scope does not, and is printed as left out.
 *
 * @param parts asked for; empty for all of them
 * @param cycles asked for, by name; empty for all cycles of the sterilisers
 * @param because why it is less than everything; may be blank
 */
public record Scope(Set<Kind> parts, List<String> cycles, String because) {

    /** Every part of every cycle: what holds as long as nobody says otherwise. */
    public static final Scope EVERYTHING = new Scope(Set.of(), List.of(), "");

    public Scope {
        parts = Set.copyOf(parts);
        cycles = List.copyOf(cycles);
    }

    /** Whether less than everything was asked for. */
    public boolean isNarrowed() {
        return !(parts.isEmpty() || parts.size() == Kind.values().length) || !cycles.isEmpty();
    }

    /** Whether that qualification was asked for. A leak test belongs to the steriliser and not to a cycle. */
    public boolean asksFor(Qualification qualification) {
        boolean isPart = parts.isEmpty() || parts.contains(qualification.kind());
        return isPart
                && (qualification.kind() == Kind.LEAK
                        || cycles.isEmpty()
                        || cycles.stream().anyMatch(name -> key(name).equals(key(qualification.cycle()))));
    }

    /** Titles of the parts asked for, in their order. */
    public List<String> titles() {
        return List.of(Kind.values()).stream()
                .filter(kind -> parts.isEmpty() || parts.contains(kind))
                .map(Kind::title)
                .toList();
    }

    private static String key(String text) {
        return text.strip().replaceAll("[\\s-]+", " ").toLowerCase(Locale.ROOT);
    }
}
