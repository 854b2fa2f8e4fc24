package org.steamwright.assessment.criteria;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The answer to one criterion, with all that an auditor needs to check it.
 *
 * @param id the criterion
 * @param use whether it counts for the verdict
 * @param outcome by the rule in force
 * @param judgement simple, guarded and four-word form; empty where nothing was held against a limit
 * @param measured the figure with its doubt; empty if nothing could be measured
 * @param limit what it was held against; empty if there is none
 * @param rule decision rule in force
 * @param source document of the demand
 * @param evidence place on the trace
 * @param sentence one plain sentence: what was found and why the outcome is what it is
 */
public record Finding(
        CriterionId id,
        Use use,
        Outcome outcome,
        Optional<Judgement> judgement,
        Optional<Figure> measured,
        Optional<Limit> limit,
        DecisionRule rule,
        Source source,
        Evidence evidence,
        String sentence) {

    public Finding {
        if (sentence.isBlank()) {
            throw new IllegalArgumentException("finding " + id + " does not explain itself");
        }
        if (outcome == Outcome.PASS && judgement.isEmpty() && measured.isPresent()) {
            throw new IllegalArgumentException("finding " + id + " passes a figure without a judgement");
        }
    }

    /** Distance of the measured figure to the limit, positive inside; empty without a figure or a limit. */
    public OptionalDouble margin() {
        return measured.isPresent() && limit.isPresent()
                ? OptionalDouble.of(limit.get().margin(measured.get().value()))
                : OptionalDouble.empty();
    }

    /** Whether it counts for the verdict. */
    public boolean isDeciding() {
        return use == Use.DECIDES;
    }

    /** The same finding with another outcome and sentence: when what it rests on turns out not to carry it. */
    public Finding revised(Outcome newOutcome, String newSentence) {
        return new Finding(id, use, newOutcome, judgement, measured, limit, rule, source, evidence, newSentence);
    }

    /** The measured figure as printed: cut towards the worse side, one decimal more than the limit; empty if none. */
    public String printedMeasured() {
        return measured.map(figure -> printed(figure.value())).orElse("");
    }

    /** A figure of this finding's unit, cut towards the side that looks worse. */
    public String printed(double figure) {
        if (measured.isEmpty()) {
            return "";
        }
        Unit unit = measured.get().unit();
        return limit.map(l -> Figures.shown(figure, unit, l.comparison())).orElseGet(() -> Figures.shown(figure, unit));
    }
}
