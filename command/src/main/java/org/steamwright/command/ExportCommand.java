package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.Filing;
import org.steamwright.filing.StatedVisit;
import org.steamwright.records.backup.PlainExport;

/** Writes a record, or one visit of it, as plain files. */
final class ExportCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Write a record as plain files that can be read without this program, or one visit as the folder it was.",
                "JSON, CSV and the original files; private keys are not in it. 'import' reads it back.");
        RecordDoor.place(usage);
        usage.argument("FOLDER", true, "New folder to write.");
        usage.value(
                "--visit",
                "NUMBER",
                "Only the visit folder with this report number, as it was taken in: the issue in force, else the one open.");
        usage.value("--issue", "N", "With --visit: that issue, be it replaced or withdrawn.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright export office office-plain", "steamwright export office again --visit DEMO-2026-001");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Path target = surroundings.resolve(typed.findArgument(1).orElseThrow());
        Optional<String> number = typed.find("--visit");
        Optional<String> issue = typed.find("--issue");
        if (issue.isPresent() && (number.isEmpty() || !issue.get().matches("[1-9][0-9]{0,5}"))) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "--issue " + issue.get() + ": expected the number of an issue, beside --visit.",
                    "Write for example: --visit R-2026-0042 --issue 1");
        }
        return RecordDoor.open(typed, surroundings, records -> {
            if (number.isPresent()) {
                Filing filing = new Filing(records);
                StatedVisit stated = issue.isPresent()
                        ? filing.visit(number.get(), Integer.parseInt(issue.get()))
                        : filing.visit(number.get());
                filing.giveBack(stated.visit(), target);
                surroundings.say(number.get() + " is " + stated.words());
            } else {
                surroundings.say(
                        "Journal: " + PlainExport.write(records, target).tree().text());
            }
            surroundings.say("Written: " + surroundings.shown(target));
            return ExitStatus.PASS;
        });
    }
}
