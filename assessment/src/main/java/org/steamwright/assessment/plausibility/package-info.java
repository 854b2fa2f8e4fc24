/**
 * What looks wrong about a channel although every value could be read.
 *
 * <p>Decides what is named, with channel and time, and whether the channel can still be used. Refuses to repair: no value is
 * changed, left out or filled, and a doubt never makes a finding better. All thresholds are own choices, without source;
 * good runs hardly ever reach them. Start at {@link org.steamwright.assessment.plausibility.Plausibility}.
 */
@NullMarked
package org.steamwright.assessment.plausibility;

import org.jspecify.annotations.NullMarked;
