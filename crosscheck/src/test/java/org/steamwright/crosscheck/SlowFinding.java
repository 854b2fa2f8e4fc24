package org.steamwright.crosscheck;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;

/**
 * The slow evaluation's answer to one criterion.
 *
 * @param id of the criterion
 * @param outcome by the rule in force
 * @param figure measured; NaN where there is none
 * @param low end of its interval
 * @param high end of its interval
 * @param counts whether it would count for the verdict if the set lets it decide; not where the question does not arise
 * @param channels that decided it
 */
record SlowFinding(
        CriterionId id, Outcome outcome, double figure, double low, double high, boolean counts, Set<String> channels) {

    /** An answer without a figure. */
    static SlowFinding of(CriterionId id, Outcome outcome) {
        return of(id, outcome, Set.of());
    }

    /** An answer without a figure that rests on some channels. */
    static SlowFinding of(CriterionId id, Outcome outcome, Set<String> channels) {
        return new SlowFinding(id, outcome, Double.NaN, Double.NaN, Double.NaN, true, channels);
    }

    /** The question does not arise in this run. */
    static SlowFinding notApplicable(CriterionId id) {
        return new SlowFinding(id, Outcome.NOT_ASSESSED, Double.NaN, Double.NaN, Double.NaN, false, Set.of());
    }

    /** The same with another outcome. */
    SlowFinding with(Outcome other) {
        return new SlowFinding(id, other, figure, low, high, counts, channels);
    }

    /**
     * A figure held against a limit: simple by the figure alone; otherwise a pass only if the worse end meets the limit,
     * undecided if the figure meets it and the worse end does not. ILAC-G8:09/2019, handbook section 12.
     */
    static SlowFinding judged(
            CriterionId id,
            double figure,
            double low,
            double high,
            Optional<Limit> limit,
            DecisionRule rule,
            Set<String> channels) {
        if (limit.isEmpty()) {
            return new SlowFinding(id, Outcome.NOT_ASSESSED, figure, low, high, true, channels);
        }
        double worse = limit.get().comparison() == Comparison.AT_LEAST ? low : high;
        Outcome outcome;
        if (!meets(figure, limit.get())) {
            outcome = Outcome.FAIL;
        } else if (rule == DecisionRule.SIMPLE || meets(worse, limit.get())) {
            outcome = Outcome.PASS;
        } else {
            outcome = Outcome.UNDECIDED;
        }
        return new SlowFinding(id, outcome, figure, low, high, true, channels);
    }

    /** Inclusive, after rounding to nine decimals. */
    static boolean meets(double figure, Limit limit) {
        if (Double.isNaN(figure)) {
            return false;
        }
        if (Double.isInfinite(figure)) {
            return (figure > 0) == (limit.comparison() == Comparison.AT_LEAST);
        }
        BigDecimal rounded = BigDecimal.valueOf(figure).setScale(9, RoundingMode.HALF_EVEN);
        int order = rounded.compareTo(BigDecimal.valueOf(limit.value()));
        return limit.comparison() == Comparison.AT_LEAST ? order >= 0 : order <= 0;
    }
}
