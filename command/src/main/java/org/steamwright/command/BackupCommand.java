package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import org.steamwright.records.backup.Backup;

/** Copies a record while it is in use, and verifies the copy. */
final class BackupCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Copy a record to a new folder while it is in use, and verify the copy before saying that it is good.",
                "Keys are in the copy, locked as they are. Keep it on another disk than the record.");
        RecordDoor.place(usage);
        usage.argument("COPY", true, "New folder for the copy.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright backup office office-copy");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        return RecordDoor.open(typed, surroundings, records -> {
            Backup.Good good = new Backup(records.clock())
                    .make(records, surroundings.resolve(typed.findArgument(1).orElseThrow()));
            surroundings.say("Good: %d journal entries and %d files in %s"
                    .formatted(
                            good.verification().entries(),
                            good.verification().files(),
                            surroundings.shown(good.folder())));
            surroundings.say("Journal: " + good.head().tree().text());
            return ExitStatus.PASS;
        });
    }
}
