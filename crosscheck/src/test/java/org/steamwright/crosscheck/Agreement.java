package org.steamwright.crosscheck;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestRun;

/** Holds the engine's evaluation of a run against the slow one. */
final class Agreement {

    private static final double TOLERANCE = 1e-9;

    private Agreement() {}

    /**
     * Where the two disagree, in words; an empty list if they agree on the verdict, on every deciding outcome and on every
     * figure. Findings that the slow evaluation leaves open enter its verdict with the engine's outcome.
     */
    static List<String> differences(TestRun run, CriteriaSet set, RunEvaluation engine) {
        SlowEvaluation slow = new SlowEvaluation(run, set);
        List<String> differences = new ArrayList<>();
        Map<CriterionId, Outcome> leftOpen = new EnumMap<>(CriterionId.class);
        for (Finding finding : engine.findings()) {
            Optional<SlowFinding> ours = Optional.ofNullable(slow.findings().get(finding.id()));
            if (ours.isEmpty()) {
                if (finding.isDeciding()) {
                    leftOpen.put(finding.id(), finding.outcome());
                }
                continue;
            }
            boolean isAsked = set.find(finding.id()).isPresent();
            if (isAsked && ours.get().outcome() != finding.outcome()) {
                differences.add("%s: engine %s %s, slow %s %s [%s, %s]: %s"
                        .formatted(
                                finding.id(),
                                finding.outcome(),
                                finding.measured()
                                        .map(f -> "[" + f.low() + ", " + f.high() + "]")
                                        .orElse(""),
                                ours.get().outcome(),
                                ours.get().figure(),
                                ours.get().low(),
                                ours.get().high(),
                                finding.sentence()));
            }
            if (finding.measured().isPresent() && !Double.isNaN(ours.get().figure())) {
                double theirs = finding.measured().get().value();
                if (theirs != ours.get().figure()
                        && !(Math.abs(theirs - ours.get().figure()) <= TOLERANCE)) {
                    differences.add("%s: engine figure %s, slow %s: %s"
                            .formatted(finding.id(), theirs, ours.get().figure(), finding.sentence()));
                }
            }
        }
        RunOutcome verdict = slow.verdict(leftOpen);
        if (verdict != engine.verdict().outcome()) {
            differences.add(
                    "verdict: engine %s, slow %s".formatted(engine.verdict().outcome(), verdict));
        }
        return differences;
    }
}
