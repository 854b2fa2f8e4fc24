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
 * @param leftOut parts that were not asked for; empty if all were
 * @param cycles asked for, by name; empty for all cycles of the sterilisers
 * @param because why it is less than everything; may be blank
 */
public record Scope(Set<Kind> leftOut, List<String> cycles, String because) {

    /** Every part of every cycle: what holds as long as nobody says otherwise. */
    public static final Scope EVERYTHING = new Scope(Set.of(), List.of(), "");

    public Scope {
        leftOut = Set.copyOf(leftOut);
        cycles = List.copyOf(cycles);
    }

    /** Whether less than everything was asked for. */
    public boolean isNarrowed() {
        return !leftOut.isEmpty() || !cycles.isEmpty();
    }

    /** Whether that qualification was asked for. A leak test belongs to the steriliser and not to a cycle. */
    public boolean asksFor(Qualification qualification) {
        return !leftOut.contains(qualification.kind())
                && (qualification.kind() == Kind.LEAK
                        || cycles.isEmpty()
                        || cycles.stream().anyMatch(name -> key(name).equals(key(qualification.cycle()))));
    }

    /**
     * Parts that were left out although loaded runs were asked for, and without which loaded runs qualify no cycle.
     *
     * @param isLeakTestNeeded whether an air leakage test is among them
     */
    public List<Kind> missingBesideLoads(boolean isLeakTestNeeded) {
        return leftOut.contains(Kind.PERFORMANCE)
                ? List.of()
                : List.of(Kind.values()).stream()
                        .filter(leftOut::contains)
                        .filter(kind -> kind != Kind.LEAK || isLeakTestNeeded)
                        .toList();
    }

    /** Titles of the parts asked for, in their order. */
    public List<String> titles() {
        return List.of(Kind.values()).stream()
                .filter(kind -> !leftOut.contains(kind))
                .map(Kind::title)
                .toList();
    }

    private static String key(String text) {
        return text.strip().replaceAll("[\\s-]+", " ").toLowerCase(Locale.ROOT);
    }
}
