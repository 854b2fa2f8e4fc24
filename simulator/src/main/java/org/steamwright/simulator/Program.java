package org.steamwright.simulator;

import org.steamwright.assessment.cycle.CycleDefinition;

/** What the simulated sterilizer is told to do. */
public sealed interface Program permits CycleProgram, LeakProgram {
    /** The same as the instructions for use would declare it: what an assessment is told. */
    CycleDefinition definition();
}
