package org.steamwright.command;

import java.io.IOException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.report.result.OfficeJson;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.due.Today;
import org.steamwright.visit.register.Register;

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
        usage.argument("REGISTER", true, "Register file, or the folder with a register.yaml.");
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
        Register register = Registers.register(name, surroundings);
        List<Due> all;
        try {
            all = on.isPresent()
                    ? DueList.of(register, rules, Today.on(on.get()), ZoneOffset.UTC)
                    : DueList.of(register, rules, Today.of(Instant.now()), ZoneId.systemDefault());
        } catch (IllegalArgumentException unknownRules) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    name + ": " + unknownRules.getMessage() + ".",
                    "Correct 'rules' of that site, or give a file with the set by --rules.");
        }
        List<Due> shown = until.isPresent()
                ? all.stream().filter(due -> due.concerns(until.get())).toList()
                : all;
        if (typed.isSet("--json")) {
            OfficeJson.due(shown, surroundings.out());
            return ExitStatus.PASS;
        }
        surroundings.say(text(shown, all.size()));
        return ExitStatus.PASS;
    }

    private static List<String> text(List<Due> shown, int all) {
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
        lines.add(summary(shown) + (shown.size() < all ? "; " + (all - shown.size()) + " later ones not shown" : "")
                + ".");
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
