package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.Filing;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.signing.Issue;

/** Signs a visit of a record. */
final class SignCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Sign a visit: its facts, files, criteria set and result are fixed from then on.",
                "The visit is assessed again from the record first, and that result is signed. The secret is asked for.",
                "While indicators are awaited the report is interim, with the last day that the visit states. A correction",
                "later is a new issue with its reason ('amend'). Invented visits can't be signed.");
        RecordDoor.place(usage);
        usage.argument("NUMBER", true, "Report number of the visit.");
        RecordDoor.author(usage);
        usage.value(
                "--meaning",
                "TEXT",
                "What the signature says. If left out it follows from the signer's role in the visit: 'performed and"
                        + " recorded', 'reviewed and approved', 'received and understood'.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright sign office DEMO-2026-001 --by 'Kim Sample (invented)'");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        var author = RecordDoor.author(typed);
        return RecordDoor.open(typed, surroundings, records -> {
            Filing filing = new Filing(records);
            var visit = filing.open(typed.findArgument(1).orElseThrow()).visit();
            Optional<Issue> signed = RecordDoor.withSecret(
                    "Secret of " + author.name() + ": ",
                    surroundings,
                    secret -> filing.sign(
                            visit, author.name(), typed.find("--meaning").orElse(""), secret, author));
            if (signed.isEmpty()) {
                surroundings.say("The receipt of %s is signed by %s. The report is not issued by it."
                        .formatted(visit.text("number"), author.name()));
                return ExitStatus.PASS;
            }
            Issue issue = signed.get();
            surroundings.say(
                    "Signed %s, issue %d, by %s".formatted(visit.text("number"), issue.number(), author.name()));
            surroundings.say("It is "
                    + new VisitStates(records).of(records.subject(visit.id())).words());
            surroundings.say("Document: " + issue.document().hex());
            surroundings.say("Journal: " + records.head().tree().text());
            return ExitStatus.PASS;
        });
    }
}
