package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.RegisterBatches;

/** Takes back a table of machines that was entered into a record. */
final class UndoCommand implements Command {

    private static final String DRY = "--dry-run";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Take back a table of machines that was entered into a record.",
                "Every fact that it changed is as it was before; the journal keeps both. Where something changed since,",
                "nothing is taken back, and what and where is said. Without BATCH the tables are listed.");
        RecordDoor.place(usage);
        usage.argument("BATCH", false, "Number of the table, such as B-1.");
        RecordDoor.author(usage);
        usage.value("--reason", "TEXT", "Why; it stays with the table. Needed.");
        usage.flag(DRY, "Say what would be taken back, and enter nothing.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright undo office");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Optional<String> number = typed.findArgument(1);
        if (number.isEmpty()) {
            return RecordDoor.open(typed, surroundings, records -> {
                List<RegisterBatches.Batch> all = new RegisterBatches(records).all();
                all.forEach(batch -> surroundings.say(line(batch)));
                if (all.isEmpty()) {
                    surroundings.say("No table was entered.");
                }
                return ExitStatus.PASS;
            });
        }
        if (typed.isSet(DRY)) {
            return RecordDoor.open(typed, surroundings, records -> {
                RegisterBatches batches = new RegisterBatches(records);
                RegisterBatches.Undoing undoing = batches.undoing(batches.find(number.get()));
                surroundings.say(line(undoing.batch()));
                surroundings.say("Facts that would be as before: " + undoing.facts());
                undoing.conflicts().forEach(conflict -> surroundings.say("In the way: " + conflict));
                surroundings.say("Nothing was entered.");
                return undoing.conflicts().isEmpty() && undoing.batch().undone().isEmpty()
                        ? ExitStatus.PASS
                        : ExitStatus.FAIL;
            });
        }
        var author = RecordDoor.author(typed);
        String reason = RecordDoor.reason(typed);
        return RecordDoor.open(typed, surroundings, records -> {
            RegisterBatches batches = new RegisterBatches(records);
            RegisterBatches.Undoing undoing = batches.undo(batches.find(number.get()), author, reason);
            surroundings.say("Taken back: %s, %d facts are as before"
                    .formatted(undoing.batch().number(), undoing.facts()));
            surroundings.say("Journal: " + records.head().tree().text());
            return ExitStatus.PASS;
        });
    }

    private static String line(RegisterBatches.Batch batch) {
        return "%s  %s, entered at %s by %s: %s%s"
                .formatted(
                        batch.number(),
                        batch.file(),
                        batch.at(),
                        batch.by(),
                        batch.rows(),
                        batch.undone().map(why -> "; taken back: " + why).orElse(""));
    }
}
