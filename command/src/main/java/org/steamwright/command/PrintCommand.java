package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.filing.Filing;
import org.steamwright.filing.StatedVisit;
import org.steamwright.report.document.Issued;
import org.steamwright.report.language.Language;
import org.steamwright.visit.AssessedVisit;

/** Prints what the record holds of a visit: the report and the certificates, with who signed and whether it still stands. */
final class PrintCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Print the report of a recorded visit and a certificate of one page for each steriliser.",
                "Each page says which issue it is, who signed it, and whether it is still in force. Without --issue: the",
                "issue in force, else the visit that is open.");
        RecordDoor.place(usage);
        usage.argument("NUMBER", true, "Report number of the visit.");
        usage.value("--out", "DIR", "Folder for the files; made if it is not there. Needed.");
        usage.value("--issue", "N", "That issue, be it replaced or withdrawn.");
        Languages.place(usage);
        usage.flag("--replace", "Let files of earlier prints give way.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright print office DEMO-2026-001 --out papers",
                "steamwright print office DEMO-2026-001 --out papers --language en,fr");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        String number = typed.findArgument(1).orElseThrow();
        Path out = surroundings.resolve(typed.find("--out")
                .orElseThrow(
                        () -> new Refusal(ExitStatus.USAGE, "--out is missing.", "Add for example: --out papers")));
        Optional<String> issue = typed.find("--issue");
        if (issue.isPresent() && !issue.get().matches("[1-9][0-9]{0,5}")) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "--issue " + issue.get() + ": expected the number of an issue.",
                    "Write for example: --issue 1");
        }
        List<Language> languages = Languages.of(typed);
        return RecordDoor.open(typed, surroundings, records -> {
            Filing filing = new Filing(records);
            StatedVisit stated =
                    issue.isPresent() ? filing.visit(number, Integer.parseInt(issue.get())) : filing.visit(number);
            AssessedVisit assessed = filing.assess(stated.visit());
            Issued issued = filing.issued(stated, assessed);
            surroundings.progress("printing …");
            Map<String, byte[]> files = new LinkedHashMap<>(
                    Assessing.reports(assessed, issued, filing.pictures(stated.visit()), languages));
            files.putAll(Assessing.certificates(assessed, issued, languages));
            surroundings.progress("");
            surroundings.say(number + " is " + stated.words());
            Assessing.place(files, out, typed.isSet("--replace"), surroundings);
            return ExitStatus.PASS;
        });
    }
}
