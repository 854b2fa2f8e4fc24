package org.steamwright.assessment.criteria;

import java.util.Optional;

/**
 * What a criteria set says about one criterion.
 *
 * @param id the criterion
 * @param use whether it counts
 * @param limit absent where the criterion needs none (evidence criteria, figures that are only reported) or where it
 *     depends on the cycle
 * @param secondLimit for the few criteria that take two: porous load at 'load-dryness', the first 60 s at
 *     'free-chamber-excess', the settling period at 'leak-period'; empty elsewhere
 * @param rule how doubt is treated
 * @param source where the demand comes from; the limit's own source where there is a limit
 */
public record Requirement(
        CriterionId id, Use use, Optional<Limit> limit, Optional<Limit> secondLimit, DecisionRule rule, Source source) {

    /** A requirement with one limit or none. */
    public Requirement(CriterionId id, Use use, Optional<Limit> limit, DecisionRule rule, Source source) {
        this(id, use, limit, Optional.empty(), rule, source);
    }
}
