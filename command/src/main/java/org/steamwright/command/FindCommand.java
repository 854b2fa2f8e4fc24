package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Found;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;

/** Finds things in a record by words, or what used a thing. */
final class FindCommand implements Command {

    private static final int LIMIT = 50;

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Find visits, sterilisers, clinics, people, instruments and lots in a record.",
                "By words as they begin (serial, name, number, date), or by what was used: every visit and report",
                "that used this instrument, lot, criteria set or version of the rules. Visits and issues are listed with their",
                "states, so that what was replaced or withdrawn is not taken for what stands.");
        RecordDoor.place(usage);
        usage.argument("WORDS", false, "Words as they begin; case and accents do not matter.");
        usage.value(
                "--used",
                "KIND=NAME",
                "What was used: 'instrument=TL-01', 'lot=B-17', 'criteria-set=au-as5369 1', 'algorithm-version=1'.");
        usage.flag("--plain", "Print one thing a line, fields parted by tabulators.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright find office EX-1001", "steamwright find office --used instrument=TL-01");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Optional<String> words = typed.findArgument(1);
        Optional<String> used = typed.find("--used");
        if (words.isPresent() == used.isPresent()) {
            throw new Refusal(ExitStatus.USAGE, "give words to look for, or --used.", "See 'steamwright find --help'.");
        }
        boolean isPlain = typed.isSet("--plain");
        return RecordDoor.open(typed, surroundings, records -> {
            if (words.isPresent()) {
                Found found = records.find(words.get(), LIMIT);
                VisitStates states = new VisitStates(records);
                found.hits().forEach(hit -> surroundings.say(line(hit.subject(), states, isPlain)));
                tellEnd(found.hits().size(), found.isComplete(), surroundings);
            } else {
                tellUses(used.get(), records, isPlain, surroundings);
            }
            return ExitStatus.PASS;
        });
    }

    private static void tellUses(String typed, Records records, boolean isPlain, Surroundings surroundings)
            throws Refusal {
        int mark = typed.indexOf('=');
        Optional<Use> use = mark < 1 ? Optional.empty() : use(typed.substring(0, mark));
        if (use.isEmpty()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "--used: '" + typed + "' can't be read.",
                    "Write what and which: instrument=TL-01, lot=B-17, part=…, criteria-set=…, algorithm-version=….");
        }
        String what = typed.substring(mark + 1).strip();
        VisitStates states = new VisitStates(records);
        int count = 0;
        Optional<SubjectId> after = Optional.empty();
        for (List<Subject> page = records.usedBy(use.get(), what, after, LIMIT);
                !page.isEmpty();
                page = records.usedBy(use.get(), what, after, LIMIT)) {
            for (Subject subject : page) {
                surroundings.say(line(subject, states, isPlain));
                count++;
            }
            after = Optional.of(page.get(page.size() - 1).id());
        }
        tellEnd(count, true, surroundings);
    }

    private static Optional<Use> use(String word) {
        for (Use use : Use.values()) {
            if (use.word().equals(word.strip().toLowerCase(Locale.ROOT))) {
                return Optional.of(use);
            }
        }
        return Optional.empty();
    }

    private static void tellEnd(int count, boolean isComplete, Surroundings surroundings) {
        if (count == 0) {
            surroundings.warn("Nothing found.");
        } else if (!isComplete) {
            surroundings.warn("There may be more; add a word.");
        }
    }

    private static String line(Subject subject, VisitStates states, boolean isPlain) {
        List<String> fields = List.of(
                subject.kind().word(),
                first(subject, "number", "serial", "name"),
                first(subject, "date", "model", "address", "role"),
                first(subject, "clinic-name", "purpose"),
                subject.id().toString(),
                standing(subject, states));
        return isPlain
                ? String.join("\t", fields)
                : "%-14s %-22s %-18s %-28s %s"
                        .formatted(fields.get(0), fields.get(1), fields.get(2), fields.get(3), fields.get(5))
                        .stripTrailing();
    }

    /** State of a visit, number and standing of an issue; blank for anything else. */
    private static String standing(Subject subject, VisitStates states) {
        return switch (subject.kind()) {
            case VISIT -> states.of(subject).words().replace('\t', ' ');
            case ISSUE -> states.ofIssue(subject);
            default -> "";
        };
    }

    private static String first(Subject subject, String... properties) {
        for (String property : properties) {
            String text = subject.text(property);
            if (!text.isBlank()) {
                return text.replace('\t', ' ');
            }
        }
        return "";
    }
}
