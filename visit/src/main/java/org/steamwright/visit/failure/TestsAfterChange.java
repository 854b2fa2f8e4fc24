package org.steamwright.visit.failure;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.visit.job.EarlierEvidence.Kind;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.AfterChange.Extent;
import org.steamwright.visit.plan.StepKind;

/**
 * The tests of an {@link AfterChange} matrix in words. Several changes ask for the tests of each, once, and of two extents the
 * wider one holds. The test that failed is repeated whatever was changed, and what loaded runs rest on
 * ({@link org.steamwright.visit.plan.BesideLoads}) is tested with them.
 *
 * @source common practice, no source; the rows carry their own
 */
final class TestsAfterChange implements ChangeMatrix {

    private static final Set<StepKind> LEAKS = EnumSet.of(
            StepKind.LEAK_AS_FOUND, StepKind.LEAK_WITHOUT_SENSORS, StepKind.LEAK_WITH_SENSORS, StepKind.LEAK_AFTER);

    private final AfterChange matrix;

    TestsAfterChange(AfterChange matrix) {
        this.matrix = matrix;
    }

    /** What is asked for so far. */
    private static final class Asked {
        private final Set<StepKind> checks = EnumSet.noneOf(StepKind.class);
        private Extent penetration = Extent.NONE;
        private Extent empty = Extent.NONE;
        private Extent loaded = Extent.NONE;
        private boolean isIndication;

        void add(AfterChange.Row row) {
            checks.addAll(row.checks());
            penetration = wider(penetration, row.penetration());
            empty = wider(empty, row.empty());
            loaded = wider(loaded, row.loaded());
        }

        void addFailed(Kind kind) {
            switch (kind) {
                case AIR_LEAKAGE -> checks.add(StepKind.LEAK_WITHOUT_SENSORS);
                case STEAM_PENETRATION -> penetration = wider(penetration, Extent.NAMED);
                case BIOLOGICAL, THERMOMETRIC -> loaded = wider(loaded, Extent.NAMED);
                case INDICATION -> isIndication = true;
                case SAFETY -> checks.add(StepKind.ELECTRICAL);
            }
        }

        /** Adds what loaded runs rest on; whether anything was added that nothing else asks for. */
        boolean addBesideLoads() {
            if (loaded == Extent.NONE) {
                return false;
            }
            boolean isLeakTestMissing = checks.stream().noneMatch(LEAKS::contains);
            if (isLeakTestMissing) {
                checks.add(StepKind.LEAK_WITHOUT_SENSORS);
            }
            Extent asked = empty;
            empty = wider(empty, loaded);
            return isLeakTestMissing || empty != asked;
        }

        List<String> words() {
            List<String> tests = new ArrayList<>();
            if (checks.contains(StepKind.PRESSURE_PERSON)) {
                tests.add("examination by the competent person for pressure");
            }
            if (checks.contains(StepKind.ELECTRICAL)) {
                tests.add("electrical and pressure safety checks");
            }
            if (checks.contains(StepKind.INSTALLATION)) {
                tests.add("installation qualification");
            }
            if (checks.stream().anyMatch(LEAKS::contains)) {
                tests.add("air leakage test");
            }
            if (isIndication) {
                tests.add("comparison of the steriliser's own indication with the reference");
            }
            add("steam penetration test", penetration, tests);
            add("operational qualification", empty, tests);
            add("performance qualification", loaded, tests);
            return tests;
        }

        private static void add(String test, Extent extent, List<String> tests) {
            if (extent != Extent.NONE) {
                tests.add(test + extentWords(extent));
            }
        }
    }

    private static String extentWords(Extent extent) {
        return switch (extent) {
            case NONE -> "";
            case ONE_RUN -> ", one run of the cycle that is hardest to do right";
            case NAMED -> " of the cycles that failed";
            case VACUUM -> " of every cycle in use that draws a vacuum";
            case ALL -> " of every cycle in use";
        };
    }

    /** The wider of both; the cycles that failed and those that draw a vacuum are all of them together. */
    private static Extent wider(Extent one, Extent other) {
        boolean isBoth =
                (one == Extent.NAMED && other == Extent.VACUUM) || (one == Extent.VACUUM && other == Extent.NAMED);
        if (isBoth) {
            return Extent.ALL;
        }
        return one.compareTo(other) >= 0 ? one : other;
    }

    @Override
    public List<String> tests(String change) {
        Optional<AfterChange.Row> row = matrix.find(change);
        Asked asked = new Asked();
        row.ifPresent(asked::add);
        asked.addBesideLoads();
        return asked.words();
    }

    @Override
    public RetestScope scope(List<String> changes, Kind failed) {
        Asked asked = new Asked();
        List<String> rows = new ArrayList<>();
        for (String change : changes) {
            Optional<AfterChange.Row> row = matrix.find(change.strip());
            if (row.isEmpty()) {
                return new RetestScope(
                        EVERYTHING,
                        "‘%s’ is no row of the after-change matrix, so nothing narrower can be justified; its rows are %s"
                                .formatted(change.strip(), String.join(", ", matrix.words())));
            }
            asked.add(row.get());
            rows.add("%s (%s; %s)"
                    .formatted(
                            row.get().title(),
                            row.get().source().citation(),
                            row.get().source().provenance().words()));
        }
        if (rows.isEmpty()) {
            return new RetestScope(EVERYTHING, "nobody stated what was changed, so nothing narrower can be justified");
        }
        asked.addFailed(failed);
        boolean isAnyAdded = asked.addBesideLoads();
        String because = String.join("; ", rows);
        return new RetestScope(
                asked.words(),
                isAnyAdded
                        ? "after-change matrix: %s; the test that failed is repeated in any case; air leakage and empty chamber are added to loaded runs by the program's own rule"
                                .formatted(because)
                        : "after-change matrix: %s; the test that failed is repeated in any case".formatted(because));
    }
}
