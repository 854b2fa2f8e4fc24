/**
 * Criteria, their limits with sources, decision rules and the findings they give.
 *
 * <p>The kinds of criteria are Java, the limits are data. A criterion that was not asked or could not be
 * measured is not assessed; that is never a pass. Start at
 * {@link org.steamwright.assessment.criteria.Criterion}.
 */
@NullMarked
package org.steamwright.assessment.criteria;

import org.jspecify.annotations.NullMarked;
