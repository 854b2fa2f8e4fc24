package org.steamwright.command;

import java.util.List;

/** Stands in the list of commands for the desk, which has a jar of its own; the launcher starts that without coming here. */
final class DeskCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage("Open the visit, the office and the clinic's page in a browser on this machine.");
        usage.value("--record", "FOLDER", "Folder of the record; made if it is not there. Usually steamwright-record.");
        RecordDoor.server(usage);
        usage.value("--port", "NUMBER", "Port to listen on, 8417 if left out; 0 for any that is free.");
        usage.value("--name", "NAME", "Your name, as it will stand in the journal. Asked once if left out.");
        usage.flag("--users", "For an office: every page but the log-in needs a user.");
        usage.value(
                "--settings",
                "FILE",
                "Settings of an office: who vouches for users, who needs a second factor, limits.");
        usage.flag("--demo", "With the year of an invented clinic, in a record of its own.");
        usage.flag("--training", "Only the training: invented visits on simulated machines.");
        usage.flag("--tablet", "Let tablets of the local network in, by a code and over an encrypted port.");
        usage.value("--tablet-port", "NUMBER", "Encrypted port for tablets, 8418 if left out; 0 for any that is free.");
        usage.value("--public", "ADDRESS", "Address of the web server that stands before the desk of an office.");
        usage.flag("--no-browser", "Print the address and open no browser.");
        return usage;
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
