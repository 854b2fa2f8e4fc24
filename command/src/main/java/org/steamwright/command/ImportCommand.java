package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import org.steamwright.records.backup.PlainExport;

/** Reads what 'export' wrote into a new record. */
final class ImportCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Read plain files that 'export' wrote into a new record; the journal comes out the same.",
                "Keys do not come along: those who sign make new ones.");
        RecordDoor.place(usage);
        usage.argument("FOLDER", true, "Folder that 'export' wrote.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright import office-third office-plain");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        return RecordDoor.openOrMake(typed, surroundings, records -> {
            surroundings.say("Journal: "
                    + PlainExport.read(
                                    surroundings.resolve(typed.findArgument(1).orElseThrow()), records)
                            .tree()
                            .text());
            return ExitStatus.PASS;
        });
    }
}
