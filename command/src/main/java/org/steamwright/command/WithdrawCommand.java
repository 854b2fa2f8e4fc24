package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import org.steamwright.filing.Filing;
import org.steamwright.filing.StatedVisit;
import org.steamwright.records.signing.Issue;

/** Takes a signed visit back, or gives up one that was not signed. */
final class WithdrawCommand implements Command {

    private static final String CORRECTION = "--correction";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Take the issue of a visit back that is in force, or give up a visit that was not signed.",
                "A withdrawal is a signature of its own, so the secret is asked for. Giving up what nobody signed needs",
                "none. Either way everything stays readable, and the visit is not relied on any more.");
        usage.footer(
                "",
                "Tell the clinic at once, and begin the look-back where the loads since the last good evidence are in",
                "question. What becomes of loads, and of those who were treated, the clinic decides.");
        RecordDoor.place(usage);
        usage.argument("NUMBER", true, "Report number of the visit.");
        RecordDoor.author(usage);
        usage.value("--reason", "TEXT", "Why; it stays with the visit. Needed.");
        usage.flag(CORRECTION, "Give up the correction that is open; the issue in force stays.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright withdraw office DEMO-2026-001 --by 'Kim Sample (invented)' --reason 'a training visit'");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        var author = RecordDoor.author(typed);
        String reason = RecordDoor.reason(typed);
        return RecordDoor.open(typed, surroundings, records -> {
            Filing filing = new Filing(records);
            String number = typed.findArgument(1).orElseThrow();
            StatedVisit stated = typed.isSet(CORRECTION) ? filing.correction(number) : filing.visit(number);
            if (stated.state().isOut()) {
                Issue issue = RecordDoor.withSecret(
                        "Secret of " + author.name() + ": ",
                        surroundings,
                        secret -> filing.withdraw(stated, author.name(), reason, secret, author));
                surroundings.say("Withdrawn: %s, issue %d, by %s"
                        .formatted(number, stated.issue().orElseThrow().number(), author.name()));
                surroundings.say("Document: " + issue.document().hex());
            } else {
                filing.breakOff(stated, reason, author);
                surroundings.say("Broken off: %s%s".formatted(stated.isCorrection() ? "correction of " : "", number));
            }
            surroundings.say("Journal: " + records.head().tree().text());
            return ExitStatus.PASS;
        });
    }
}
