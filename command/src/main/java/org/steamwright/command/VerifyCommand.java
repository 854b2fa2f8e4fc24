package org.steamwright.command;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.steamwright.filing.Results;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Records;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.verify.Verification;
import org.steamwright.records.verify.Verifier;

/** Walks a whole record and says what is not as it was kept. */
final class VerifyCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Walk a record and say everything that is not as it was kept.",
                "Hashes every file, computes the journal and its tree anew, holds facts and indexes against it, checks",
                "signatures, and assesses each signed visit again from its recordings.");
        RecordDoor.place(usage);
        usage.values(
                "--head",
                "SIZE:HASH",
                "An earlier head, as a document or a note has it: the journal must go on from it.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright verify office");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        List<TreeHead> heads = new ArrayList<>();
        for (String text : typed.all("--head")) {
            try {
                heads.add(TreeHead.parse(text));
            } catch (IllegalArgumentException wrong) {
                throw new Refusal(
                        ExitStatus.USAGE, "--head: " + wrong.getMessage() + ".", "Copy it as it was printed.");
            }
        }
        return RecordDoor.open(typed, surroundings, records -> {
            Verification found = Verifier.verify(records, heads, new Results());
            surroundings.say("Journal entries  " + found.entries());
            surroundings.say("Facts            " + found.facts());
            surroundings.say("Files            " + found.files());
            surroundings.say("Signed issues    %d, %d assessed again, %d of other rules than these"
                    .formatted(found.issues(), found.reassessed(), found.notReassessed()));
            surroundings.say("Visits           " + visits(records));
            surroundings.say("Journal          " + found.head().text());
            new VisitStates(records)
                    .inForceTwice()
                    .forEach((number, count) -> surroundings.say(
                            "Remark: report %s: %d issues of it are in force; one should be".formatted(number, count)));
            found.remarks().forEach(remark -> surroundings.say("Remark: " + remark));
            found.differences().forEach(difference -> surroundings.say("DIFFERS " + difference));
            surroundings.say(
                    found.isGood()
                            ? "Everything is as it was kept."
                            : "Not as it was kept: " + found.differences().size() + ".");
            return found.isGood() ? ExitStatus.PASS : ExitStatus.ALTERED;
        });
    }

    /** How many visits are in which state. */
    private static String visits(Records records) {
        List<String> counts = new ArrayList<>();
        new VisitStates(records).count().forEach((state, count) -> counts.add(count + " " + state.words()));
        return counts.isEmpty() ? "0" : String.join(", ", counts);
    }
}
