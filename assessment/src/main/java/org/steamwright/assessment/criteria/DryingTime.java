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
        Optional<Phase> found = evidence.phases().find(Phase.Kind.DRYING);
        Optional<Phase> stated = evidence.phases().findStated(Phase.Kind.DRYING);
        Optional<Phase> drying = stated.or(() -> found);
        double seconds = length(drying);
        double from =
                drying.map(Phase::fromSeconds).orElse(evidence.asRead().get().endSeconds());
        Figure figure = new Figure(
                seconds,
                Math.max(0, seconds - evidence.longestInterval()),
                seconds + evidence.longestInterval(),
                Unit.SECONDS,
                "one sampling interval either way");
        String declared = Figures.plain(limit.value(), Unit.SECONDS) + " s";
        String sentence = stated.isPresent()
                ? "Drying lasted %s by the stated border and %s as found; the cycle was declared with %s."
                        .formatted(shown(seconds), shown(length(found)), declared)
                : "Drying lasted %s; the cycle was declared with %s.".formatted(shown(seconds), declared);
        sentence += StatedWords.of(evidence.phases(), Phase.Kind.DRYING);
        if (stated.isPresent() && limit.isMetBy(seconds) != limit.isMetBy(length(found))) {
            sentence += limit.isMetBy(seconds)
                    ? " By the border as found it would have been too short."
                    : " By the border as found it would have been long enough.";
        }
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

    private static double length(Optional<Phase> phase) {
        return phase.map(one -> one.toSeconds() - one.fromSeconds()).orElse(0.0);
    }

    private static String shown(double seconds) {
        return Figures.shown(seconds, Unit.SECONDS, Comparison.AT_LEAST);
    }
}
