package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.Phase;

/** Whether the drying lasted as long as the cycle is declared to dry. */
public final class DryingTime implements Criterion<RunEvidence> {

    private static final double MILLISECONDS = 1000.0;

    @Override
    public CriterionId id() {
        return CriterionId.DRYING_TIME;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (evidence.cycle().dryingTime().isEmpty()) {
            return Findings.notApplicable(requirement, "Not assessed: the cycle was declared without a drying time.");
        }
        if (evidence.asRead().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no plateau, so no drying after it.");
        }
        Limit limit = new Limit(
                Comparison.AT_LEAST,
                evidence.cycle().dryingTime().get().toMillis() / MILLISECONDS,
                Unit.SECONDS,
                DeclaredCycle.source(evidence.cycle()));
        Optional<Phase> drying = evidence.phases().find(Phase.Kind.DRYING);
        double seconds =
                drying.map(phase -> phase.toSeconds() - phase.fromSeconds()).orElse(0.0);
        double from =
                drying.map(Phase::fromSeconds).orElse(evidence.asRead().get().endSeconds());
        Figure figure = new Figure(
                seconds,
                Math.max(0, seconds - evidence.longestInterval()),
                seconds + evidence.longestInterval(),
                Unit.SECONDS,
                "one sampling interval either way");
        String sentence = "Drying lasted %s; the cycle was declared with %s."
                .formatted(
                        Figures.shown(seconds, Unit.SECONDS, Comparison.AT_LEAST),
                        Figures.plain(limit.value(), Unit.SECONDS) + " s");
        Finding finding = Findings.judged(
                requirement,
                limit,
                figure,
                Evidence.stretch(List.of(evidence.reference().name()), from, from + seconds),
                sentence);
        // drying that is still going on when the recording ends may have lasted long enough
        boolean isCut = from + seconds >= evidence.reference().axis().last() - evidence.longestInterval();
        return finding.outcome() == Outcome.FAIL && isCut
                ? finding.revised(Outcome.INVALID, sentence + " The recording ends before the drying does.")
                : finding;
    }
}
