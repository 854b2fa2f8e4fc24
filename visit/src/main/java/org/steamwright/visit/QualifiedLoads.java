package org.steamwright.visit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.verdict.TestKind;

/**
 * The loads that a cycle passed with since its last failed run, and the shortest drying they were dried with. A run counts here as
 * it counts for the qualification: one through a feed-through that leaked shows no load, and one that is awaited may still fail,
 * which would make everything before it worthless.
 */
public final class QualifiedLoads {

    private final List<ReferenceLoad> loads;
    private final Optional<Double> leastDryingSeconds;

    private QualifiedLoads(List<ReferenceLoad> loads, Optional<Double> leastDryingSeconds) {
        this.loads = List.copyOf(loads);
        this.leastDryingSeconds = leastDryingSeconds;
    }

    /** Of one cycle of one steriliser. Loads above the maker's maximum are left out. */
    public static QualifiedLoads of(AssessedVisit assessed, String sterilizer, String cycle) {
        Map<LoadKey, ReferenceLoad> byKey = new LinkedHashMap<>();
        List<Double> dryings = new ArrayList<>();
        LeakStanding leak = new LeakStanding(assessed.visit().getSterilizer(sterilizer), assessed.runs());
        for (AssessedRun run : assessed.runs()) {
            VisitRun facts = run.run();
            if (!facts.sterilizer().equals(sterilizer)
                    || facts.test().kind() != TestKind.LOADED
                    || !Words.key(facts.test().cycle().name()).equals(Words.key(cycle))) {
                continue;
            }
            CountedRun.Count count = CountedRun.of(run, leak).count();
            if (count == CountedRun.Count.FAIL || count == CountedRun.Count.AWAITED) {
                byKey.clear();
                dryings.clear();
            } else if (count == CountedRun.Count.PASS && facts.load().isPresent()) {
                boolean isAbove =
                        LoadComparison.of(
                                        facts.load().get(),
                                        assessed.visit().job().findLoads(sterilizer))
                                .stream()
                                .anyMatch(remark -> remark.kind() == LoadComparison.Kind.ABOVE_MAXIMUM);
                if (!isAbove) {
                    byKey.merge(LoadKey.of(facts), facts.load().get(), QualifiedLoads::lighter);
                    run.evaluation()
                            .phases()
                            .flatMap(phases -> phases.find(Phase.Kind.DRYING))
                            .ifPresent(phase -> dryings.add(phase.toSeconds() - phase.fromSeconds()));
                }
            }
        }
        return new QualifiedLoads(List.copyOf(byKey.values()), dryings.stream().min(Comparator.naturalOrder()));
    }

    /** Of runs with the same load the lightest counts, on the fewest trays: all of them carried at least that much. */
    private static ReferenceLoad lighter(ReferenceLoad one, ReferenceLoad other) {
        ReferenceLoad lighter = other.totalKilogram().orElse(Double.POSITIVE_INFINITY)
                        < one.totalKilogram().orElse(Double.POSITIVE_INFINITY)
                ? other
                : one;
        return lighter.withTrays(
                IntStream.concat(one.trays().stream(), other.trays().stream()).min());
    }

    /** Each load once, in the order of the runs. */
    public List<ReferenceLoad> loads() {
        return loads;
    }

    /** Shortest drying phase of the runs that passed, in seconds; empty where no drying was found in the traces. */
    public Optional<Double> leastDryingSeconds() {
        return leastDryingSeconds;
    }
}
