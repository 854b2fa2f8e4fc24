package org.steamwright.command;

import java.io.IOException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.DueInRecord;
import org.steamwright.report.result.OfficeJson;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.due.Today;

/** Lists what is due in a register, with every reason. */
final class DueCommand implements Command {
    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "List what is due in a register, the most pressing first.",
                "Services, validations, examinations, conditions, calibrations and competences, each with every reason",
                "and where its rule comes from. Counts are foretold with an interval, or not at all.");
        usage.footer(
                "",
                "States facts, not law: whether an overdue steriliser may be used is for the clinic and its",
                "jurisdiction to say.");
        usage.argument("REGISTER", true, "Register file, the folder with a register.yaml, or a record.");
        RecordDoor.server(usage);
        usage.value("--on", "DATE", "As on this day. Today at each site if not given.");
        usage.value("--until", "DATE", "Only what may fall due up to this day; what has no day is listed too.");
        usage.value("--rules", "FILE", "Due rules of your own instead of those of the program.");
        usage.flag("--json", "Print JSON.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright due office --on 2026-03-02", "steamwright due office --until 2026-06-30");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Optional<LocalDate> on = Registers.day(typed, "--on");
        Optional<LocalDate> until = Registers.day(typed, "--until");
        DueRules rules = Registers.rules(typed, surroundings);
        String name = typed.findArgument(0).orElseThrow();
        Today today = on.isPresent() ? Today.on(on.get()) : Today.of(Instant.now());
        ZoneId office = on.isPresent() ? ZoneOffset.UTC : ZoneId.systemDefault();
        List<Due> shown;
        String left;
        try {
            if (RecordDoor.isOnServer(typed) || RecordDoor.isRecord(surroundings.resolve(name))) {
                shown = ofRecord(typed, rules, today, office, until, surroundings);
                left = until.map(day -> "; what may fall due after " + day + " is not shown")
                        .orElse("");
            } else {
                List<Due> all = DueList.of(Registers.register(name, surroundings), rules, today, office);
                shown = until.isPresent()
                        ? all.stream().filter(due -> due.concerns(until.get())).toList()
                        : all;
                left = shown.size() < all.size() ? "; " + (all.size() - shown.size()) + " later ones not shown" : "";
            }
        } catch (IllegalArgumentException unknownRules) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    name + ": " + unknownRules.getMessage() + ".",
                    "Correct 'rules' of that site, or give a file with the set by --rules.");
        }
        if (typed.isSet("--json")) {
            OfficeJson.due(shown, surroundings.out());
            return ExitStatus.PASS;
        }
        surroundings.say(text(shown, left));
        return ExitStatus.PASS;
    }

    private static List<Due> ofRecord(
            Typed typed,
            DueRules rules,
            Today today,
            ZoneId office,
            Optional<LocalDate> until,
            Surroundings surroundings)
            throws Refusal, IOException {
        List<Due> shown = new ArrayList<>();
        RecordDoor.open(typed, surroundings, records -> {
            shown.addAll(new DueInRecord(records).list(rules, !typed.isSet("--rules"), today, office, until));
            return ExitStatus.PASS;
        });
        return shown;
    }

    private static List<String> text(List<Due> shown, String left) {
        List<String> lines = new ArrayList<>();
        for (Due due : shown) {
            lines.add(due.subject().id() + "  " + due.title() + ": " + due.when());
            String subject = due.subject().title()
                    + (due.subject().place().isBlank()
                            ? ""
                            : "; " + due.subject().place());
            if (!subject.isBlank()) {
                lines.add("    " + subject);
            }
            for (Candidate reason : due.reasons()) {
                VerdictText.broken(
                        "    " + (reason.equals(due.first()) ? "> " : "- "),
                        reason.cause().word() + ": " + reason.reason() + " ["
                                + reason.source().citation() + "; "
                                + reason.source().provenance().words() + "]",
                        lines);
            }
        }
        if (!shown.isEmpty()) {
            lines.add("");
        }
        lines.add(summary(shown) + left + ".");
        return lines;
    }

    private static String summary(List<Due> shown) {
        List<String> counts = new ArrayList<>();
        for (Due.Urgency urgency : Due.Urgency.values()) {
            long count = shown.stream().filter(due -> due.urgency() == urgency).count();
            if (count > 0) {
                counts.add(count + " " + urgency.word());
            }
        }
        return counts.isEmpty() ? "Nothing is due" : String.join(", ", counts);
    }
}
