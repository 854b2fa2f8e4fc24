/**
 * Biological and chemical indicators as evidence.
 *
 * <p>A dead control proves nothing: the test is void, never a pass. Start at
 * {@link org.steamwright.assessment.indicator.BiologicalTest}.
 */
@NullMarked
package org.steamwright.assessment.indicator;

import org.jspecify.annotations.NullMarked;
