/**
 * Recordings of a small steam sterilizer from physics, with the truth beside them.
 *
 * <p>Decides what happens in an invented chamber and what an invented logger writes down about it. It
 * judges nothing: whether a run is good is for the assessment. Whatever it makes says in its first line
 * that it is simulated. Start at {@link org.steamwright.simulator.Simulation}.
 */
@NullMarked
package org.steamwright.simulator;

import org.jspecify.annotations.NullMarked;
