package org.steamwright.command;

import java.io.IOException;
import java.util.List;

/** One word of the command line with its options. */
interface Command {
    /** What can be typed after its word. */
    Usage usage();

    /** Complete command lines that work in a folder that holds the demo; shown in the help and run by a test. */
    List<String> examples();

    /**
     * Does it.
     *
     * @throws Refusal if it can't be done, with what to say
     * @throws IOException if the surroundings fail
     */
    ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException;
}
