package org.steamwright.visit.failure;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.AfterChange.Extent;
import org.steamwright.visit.plan.StepKind;

/** A small after-change matrix. */
public final class InventedMatrix {

    private static final Source SOURCE =
            new Source("invented matrix", "", "", Source.Provenance.COMMON_PRACTICE, Source.Confidence.MEDIUM, "");

    private InventedMatrix() {}

    public static AfterChange get() {
        Map<StepKind, Integer> minutes = new EnumMap<>(StepKind.class);
        for (StepKind kind : StepKind.values()) {
            minutes.put(kind, 10);
        }
        return new AfterChange(
                List.of(
                        row(
                                "seal",
                                "Door seal",
                                Set.of(StepKind.LEAK_WITHOUT_SENSORS),
                                Extent.NONE,
                                Extent.ONE_RUN,
                                Extent.NONE),
                        row("load", "New load", Set.of(), Extent.NONE, Extent.NONE, Extent.NAMED),
                        row("cycle", "New cycle", Set.of(), Extent.VACUUM, Extent.NAMED, Extent.NAMED),
                        row(
                                "pump",
                                "Pump",
                                Set.of(StepKind.LEAK_WITHOUT_SENSORS, StepKind.ELECTRICAL, StepKind.SERVICE),
                                Extent.VACUUM,
                                Extent.VACUUM,
                                Extent.ALL),
                        row(
                                "valve",
                                "Safety valve",
                                Set.of(StepKind.PRESSURE_PERSON, StepKind.INSTALLATION),
                                Extent.NONE,
                                Extent.NONE,
                                Extent.NONE)),
                new AfterChange.Times(minutes, Map.of("B", 30), 4, 10, 5, 1, 3, SOURCE));
    }

    private static AfterChange.Row row(
            String word, String title, Set<StepKind> checks, Extent penetration, Extent empty, Extent loaded) {
        return new AfterChange.Row(word, title, checks, penetration, empty, loaded, "", SOURCE);
    }
}
