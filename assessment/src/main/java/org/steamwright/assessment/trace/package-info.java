/**
 * Recordings as they were read: columns of indicated values on their own time axes.
 *
 * <p>Decides what a sample, a gap and a channel are. Refuses to correct, to smooth or to fill: a gap
 * stays a gap, a missing value stays NaN. Start at {@link org.steamwright.assessment.trace.Trace}.
 */
@NullMarked
package org.steamwright.assessment.trace;

import org.jspecify.annotations.NullMarked;
