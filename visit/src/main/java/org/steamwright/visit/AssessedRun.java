package org.steamwright.visit;

import java.util.Comparator;
import java.util.List;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.indicator.ChemicalComparison;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.propagation.LinearPropagation;
import org.steamwright.assessment.propagation.PropagatedFigure;
import org.steamwright.assessment.propagation.Propagation;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

/**
 * A run with its evaluation and the findings from load and indicators.
 *
 * @param run facts
 * @param evaluation of the recording
 * @param loadFindings dryness and indicators; empty for a run with neither a load nor indicators
 * @param indicators each biological indicator beside the thermometry, in the order of the facts; decides nothing
 * @param chemicals each chemical indicator beside it, in the order of the facts; decides nothing
 * @param propagation by which the figures of the recording get their 95 % intervals
 */
public record AssessedRun(
        VisitRun run,
        RunEvaluation evaluation,
        List<Finding> loadFindings,
        List<IndicatorComparison> indicators,
        List<ChemicalComparison> chemicals,
        Propagation propagation) {

    /** A run whose indicators were not held beside the thermometry, with intervals by the law of propagation. */
    public AssessedRun(VisitRun run, RunEvaluation evaluation, List<Finding> loadFindings) {
        this(run, evaluation, loadFindings, List.of(), List.of());
    }

    /** A run with intervals by the law of propagation. */
    public AssessedRun(
            VisitRun run,
            RunEvaluation evaluation,
            List<Finding> loadFindings,
            List<IndicatorComparison> indicators,
            List<ChemicalComparison> chemicals) {
        this(run, evaluation, loadFindings, indicators, chemicals, LinearPropagation.INSTANCE);
    }

    public AssessedRun {
        indicators = List.copyOf(indicators);
        chemicals = List.copyOf(chemicals);
        loadFindings = List.copyOf(loadFindings);
    }

    /** The same run with the figures of its recording propagated in another way. */
    public AssessedRun propagatedBy(Propagation other) {
        return new AssessedRun(run, evaluation, loadFindings, indicators, chemicals, other);
    }

    /** The figures of the recording with their 95 % intervals, worked out anew at each call. */
    public List<PropagatedFigure> propagated() {
        return propagation.propagate(evaluation);
    }

    /** Whether the recording and everything that decides about the load passes. */
    public boolean isPass() {
        return run.setAside().isEmpty() && isGood();
    }

    private boolean isGood() {
        return evaluation.verdict().isPass()
                && loadFindings.stream().filter(Finding::isDeciding).allMatch(f -> f.outcome() == Outcome.PASS);
    }

    /** Whether the recording or anything that decides about the load fails. What neither passes, fails nor waits is invalid. */
    public boolean isFail() {
        return evaluation.verdict().outcome() == RunOutcome.FAIL
                || loadFindings.stream().anyMatch(f -> f.isDeciding() && f.outcome() == Outcome.FAIL);
    }

    /** One sentence: why it does not pass, or that it does. */
    public String cause() {
        if (run.setAside().isPresent() && !isFail()) {
            return run.setAside().get().sentence();
        }
        if (!evaluation.verdict().isPass()) {
            return evaluation.verdict().cause();
        }
        return loadFindings.stream()
                .filter(f -> f.isDeciding() && f.outcome() != Outcome.PASS)
                .min(Comparator.comparing(f -> f.outcome() != Outcome.FAIL))
                .map(Finding::sentence)
                .orElse(evaluation.verdict().cause());
    }

    /** Whether an open point says what keeps this run from passing, so that who lists both would tell it twice. */
    public boolean isToldBy(String openPoint) {
        return !isPass()
                && (openPoint.startsWith("Run " + run.number() + ", ")
                        || openPoint.startsWith("Run " + run.number() + ": "))
                && openPoint.endsWith(" " + cause());
    }

    /** Whether only an answer that is still awaited keeps it from passing. */
    public boolean isAwaited() {
        return run.setAside().isEmpty()
                && evaluation.verdict().isPass()
                && !isGood()
                && loadFindings.stream()
                        .filter(Finding::isDeciding)
                        .allMatch(f -> f.outcome() == Outcome.PASS || f.outcome() == Outcome.AWAITED);
    }

    /** The word for a run: what the recording and the load together say. */
    public String word() {
        if (isPass()) {
            return "pass";
        }
        if (run.setAside().isPresent()) {
            return isFail() ? "fail" : "invalid";
        }
        if (!evaluation.verdict().isPass()) {
            return evaluation.verdict().outcome().words();
        }
        if (isAwaited()) {
            return "awaited";
        }
        return isFail() ? "fail" : "invalid";
    }
}
