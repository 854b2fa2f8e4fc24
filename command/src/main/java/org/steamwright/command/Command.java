package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** One word of the command line with its options. */
interface Command {
    /** The options, made without reflection: that would cost more than the assessment of a cycle. */
    CommandSpec spec();

    /** Complete command lines that work in a folder that holds the demo; shown in the help and run by a test. */
    List<String> examples();

    /**
     * Does it.
     *
     * @throws Refusal if it can't be done, with what to say
     * @throws IOException if the surroundings fail
     */
    ExitStatus run(ParseResult typed, Surroundings surroundings) throws Refusal, IOException;
}
