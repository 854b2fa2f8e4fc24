package org.steamwright.command;

import java.io.IOException;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import org.steamwright.records.backup.Backup;

/** Makes a record from a copy. */
final class RestoreCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Make a record from a copy, in a new place, and verify it before saying that it is good.",
                "Also a rehearsal: restore to a place to try, look, and delete that place.");
        usage.argument("RECORD", true, "New folder for the record.");
        usage.argument("COPY", true, "Folder that 'backup' made.");
        RecordDoor.server(usage);
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright restore office-again office-copy");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        return RecordDoor.guarded(() -> {
            Backup.Good good = new Backup(Clock.system(ZoneId.systemDefault()))
                    .restore(
                            surroundings.resolve(typed.findArgument(1).orElseThrow()),
                            RecordDoor.place(typed, 0, surroundings));
            surroundings.say("Good: %d journal entries and %d files in %s"
                    .formatted(
                            good.verification().entries(),
                            good.verification().files(),
                            typed.findArgument(0).orElseThrow()));
            surroundings.say("Journal: " + good.head().tree().text());
            return ExitStatus.PASS;
        });
    }
}
