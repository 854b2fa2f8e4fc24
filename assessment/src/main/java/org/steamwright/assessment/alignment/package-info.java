/**
 * Puts the recordings of several loggers on one clock.
 *
 * <p>Decides by how much a logger's clock is moved and how well that is known: from a clock check, from an event that
 * every logger saw, or from what somebody states. Refuses to learn an offset from the approach to the plateau: that would
 * take away a real delay between two points. Start at {@link org.steamwright.assessment.alignment.Clocks}.
 */
@NullMarked
package org.steamwright.assessment.alignment;

import org.jspecify.annotations.NullMarked;
