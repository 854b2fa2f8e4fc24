package org.steamwright.assessment.criteria;

import java.util.Optional;

/**
 * What a criteria set says about one criterion.
 *
 * @param id the criterion
 * @param use whether it counts
 * @param limit absent where the criterion needs none (evidence criteria, figures that are only reported)
 * @param rule how doubt is treated
 * @param source where the demand comes from; the limit's own source where there is a limit
 */
public record Requirement(CriterionId id, Use use, Optional<Limit> limit, DecisionRule rule, Source source) {}
