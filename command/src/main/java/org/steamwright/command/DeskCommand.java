package org.steamwright.command;

import java.util.List;

/** Stands in the list of commands for the desk, which has a jar of its own; the launcher starts that without coming here. */
final class DeskCommand implements Command {

    @Override
    public Usage usage() {
        return new Usage("Open the visit, the office and the clinic's page in a browser on this machine.");
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright desk");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal {
        throw new Refusal(
                ExitStatus.USAGE,
                "the desk is a program of its own.",
                "Start it with './steamwright desk', or with its own jar, steamwright-desk.jar.");
    }
}
