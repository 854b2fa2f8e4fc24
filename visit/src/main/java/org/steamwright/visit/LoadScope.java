package org.steamwright.visit;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.cycle.CycleType;

/**
 * Whether a type of cycle is meant for what lay in the chamber.
 *
 * <p>A cycle of type N is for unwrapped solid items only; a passing recording does not change that. What a cycle of type
 * S is for, only the maker's list says.
 *
 * @source definitions of types B, N and S after EN 13060 (secondary summary seen)
 */
final class LoadScope {

    private static final Set<String> UNWRAPPED = Set.of("none", "no", "unwrapped", "not wrapped", "without");

    private LoadScope() {}

    /** What in the load of that run the type of its cycle is not meant for, in words; empty if there is nothing. */
    static List<String> outside(VisitRun run) {
        if (run.test().cycle().type() != CycleType.N || run.load().isEmpty()) {
            return List.of();
        }
        ReferenceLoad load = run.load().get();
        List<String> outside = new ArrayList<>();
        for (ReferenceLoad.Item item : load.items()) {
            String packaging = item.packaging().isBlank() ? load.packaging() : item.packaging();
            if (item.family().isBlank()) {
                outside.add("%s (family not stated)".formatted(item.name()));
            } else if (!Words.key(item.family()).equals("solid")) {
                outside.add("%s (%s)".formatted(item.name(), item.family().strip()));
            } else if (packaging.isBlank()) {
                // that nobody said it is no sign that there is none
                outside.add("%s (packaging not stated)".formatted(item.name()));
            } else if (!item.packaging().isBlank() && !isUnwrapped(packaging)) {
                outside.add("%s (%s)".formatted(item.name(), item.packaging().strip()));
            }
        }
        if (!load.packaging().isBlank() && !isUnwrapped(load.packaging())) {
            outside.add("packaging: " + load.packaging().strip());
        }
        return List.copyOf(outside);
    }

    private static boolean isUnwrapped(String packaging) {
        return UNWRAPPED.contains(Words.key(packaging));
    }
}
