package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.Filing;
import org.steamwright.filing.StatedVisit;

/** Begins the correction of a signed visit. */
final class AmendCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Begin the correction of a signed visit: a new issue with a reason.",
                "The issue in force stays as it is and stands until the correction is signed; after that it stays",
                "readable. Change the folder, take it in with 'record', and sign it.");
        RecordDoor.place(usage);
        usage.argument("NUMBER", true, "Report number of the visit.");
        RecordDoor.author(usage);
        usage.value("--reason", "TEXT", "Why; printed on the new issue. Needed.");
        usage.value("--out", "DIR", "Write the visit folder that is to be corrected into this new folder.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright amend office DEMO-2026-001 --by 'Kim Sample (invented)' --reason 'lot read wrongly' --out corrected");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        var author = RecordDoor.author(typed);
        String reason = RecordDoor.reason(typed);
        Optional<Path> out = typed.find("--out").map(surroundings::resolve);
        return RecordDoor.open(typed, surroundings, records -> {
            Filing filing = new Filing(records);
            String number = typed.findArgument(1).orElseThrow();
            if (out.isPresent()) {
                Filing.refuseThere(out.get());
            }
            StatedVisit before = filing.visit(number);
            StatedVisit correction = filing.amend(number, reason, author);
            surroundings.say("Begun: correction of %s, which is %s and stands until the correction is signed"
                    .formatted(number, before.words()));
            if (out.isPresent()) {
                filing.giveBack(correction.visit(), out.get());
                surroundings.say("Written: " + surroundings.shown(out.get()));
            }
            surroundings.say("Journal: " + records.head().tree().text());
            return ExitStatus.PASS;
        });
    }
}
