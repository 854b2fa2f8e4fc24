/**
 * Biological and chemical indicators as evidence, and how resistance is found.
 *
 * <p>A dead control proves nothing: the test is void, never a pass. What the temperature lets expect stands beside the
 * growth seen and never replaces it. Start at {@link org.steamwright.assessment.indicator.BiologicalTest} for what decides,
 * at {@link org.steamwright.assessment.indicator.IndicatorComparison} for what supports, at
 * {@link org.steamwright.assessment.indicator.FractionNegative} for D-values.
 */
@NullMarked
package org.steamwright.assessment.indicator;

import org.jspecify.annotations.NullMarked;
