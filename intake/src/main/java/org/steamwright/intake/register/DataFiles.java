package org.steamwright.intake.register;

import static org.steamwright.intake.register.RegisterFile.checked;
import static org.steamwright.intake.register.RegisterFile.list;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Period;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Fields;
import org.steamwright.intake.folder.OtherYaml;
import org.steamwright.intake.folder.Problem;
import org.steamwright.visit.due.DueRule;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.StepKind;
import org.steamwright.visit.register.Duty;

/** The due rules and the after-change matrix: the ones that come with the program, or an office's own in the same format. */
public final class DataFiles {

    /** Name of the rules that come with the program, a resource beside this class. */
    public static final String DUE_RULES = "due-rules.yaml";

    /** Name of the matrix that comes with the program, a resource beside this class. */
    public static final String AFTER_CHANGE = "after-change.yaml";

    private static final int FORMAT_VERSION = 1;
    private static final int MAX_BYTES = 500_000;

    private DataFiles() {}

    /** The due rules that come with the program. */
    public static DueRules dueRules() {
        return own(DUE_RULES, DataFiles::dueRules);
    }

    /** The due rules in a file. */
    public static DueRules dueRules(Path file) throws IOException, RegisterException {
        return read(file, DataFiles::dueRules);
    }

    /** The after-change matrix that comes with the program. */
    public static AfterChange afterChange() {
        return own(AFTER_CHANGE, DataFiles::afterChange);
    }

    /** The after-change matrix in a file. */
    public static AfterChange afterChange(Path file) throws IOException, RegisterException {
        return read(file, DataFiles::afterChange);
    }

    private static <T> T own(String name, Function<Entry, Optional<T>> reader) {
        try (InputStream in = DataFiles.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the program's own file " + name + " is missing");
            }
            return read(in.readAllBytes(), name, reader);
        } catch (IOException | RegisterException broken) {
            throw new IllegalStateException("the program's own file " + name + " can't be read", broken);
        }
    }

    private static <T> T read(Path file, Function<Entry, Optional<T>> reader) throws IOException, RegisterException {
        String name = String.valueOf(file.getFileName());
        if (!Files.isRegularFile(file)) {
            throw new RegisterException(List.of(
                    new Problem(RegisterMessage.NO_REGISTER.id(), name, 0, "", "found no such file. Check the path.")));
        }
        try (InputStream in = Files.newInputStream(file)) {
            return read(in.readNBytes(MAX_BYTES + 1), name, reader);
        }
    }

    private static <T> T read(byte[] bytes, String name, Function<Entry, Optional<T>> reader) throws RegisterException {
        OtherYaml.Answer<T> answer = OtherYaml.read(
                bytes,
                new OtherYaml.Kind(
                        name,
                        "the data file",
                        "steamwright-due-rules: 1 or steamwright-after-change: 1",
                        "docs/reference/register.md",
                        MAX_BYTES),
                reader);
        if (answer.value().isEmpty()) {
            throw new RegisterException(answer.problems());
        }
        return answer.value().get();
    }

    private static Optional<DueRules> dueRules(Entry root) {
        return RegisterFile.versioned(root, RegisterShape.DUE_RULES, "steamwright-due-rules", FORMAT_VERSION)
                .flatMap(fields -> {
                    fields.text("notes");
                    List<DueRules.RuleSet> sets = list(fields, "sets", RegisterShape.RULE_SET, DataFiles::ruleSet);
                    return checked(root, () -> new DueRules(sets));
                });
    }

    private static Optional<DueRules.RuleSet> ruleSet(Fields fields) {
        Optional<String> name = fields.needText("name", "common");
        String title = fields.text("title");
        String basedOn = fields.text("based-on");
        List<DueRule> rules = list(fields, "rules", RegisterShape.RULE, DataFiles::rule);
        return name.map(word -> new DueRules.RuleSet(word, title, basedOn, rules));
    }

    private static Optional<DueRule> rule(Fields fields) {
        Optional<String> id = fields.needText("id", "validation-yearly");
        Optional<Duty> duty = fields.need("duty", "validation").flatMap(entry -> entry.word(RegisterWords.DUTY));
        Optional<Period> every = fields.find("every").flatMap(Periods::read);
        OptionalLong cycles = count(fields, "cycles");
        OptionalLong fromUse = count(fields, "from-cycles-per-year");
        Period tolerance = fields.find("tolerance").flatMap(Periods::read).orElse(Period.ZERO);
        boolean isRecorded =
                fields.find("only-if-recorded").flatMap(Entry::yesOrNo).orElse(false);
        boolean isVacuum =
                fields.find("only-for-vacuum").flatMap(Entry::yesOrNo).orElse(false);
        Optional<Source> source = source(fields);
        boolean isUnreadable = fields.find("every").isPresent() && every.isEmpty();
        return id.isEmpty() || duty.isEmpty() || source.isEmpty() || isUnreadable
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new DueRule(
                                id.get(),
                                duty.get(),
                                every,
                                cycles,
                                fromUse,
                                tolerance,
                                isRecorded,
                                isVacuum,
                                source.get()));
    }

    private static OptionalLong count(Fields fields, String key) {
        OptionalInt count = fields.count(key);
        return count.isPresent() ? OptionalLong.of(count.getAsInt()) : OptionalLong.empty();
    }

    private static Optional<Source> source(Fields parent) {
        Optional<Fields> opened = parent.need(
                        "source", "{document: service practice, provenance: common-practice, confidence: medium}")
                .flatMap(entry -> entry.fields(RegisterShape.SOURCE));
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<String> document = fields.needText("document", "service practice");
        String edition = fields.text("edition");
        String clause = fields.text("clause");
        Optional<Source.Provenance> provenance =
                fields.need("provenance", "common-practice").flatMap(entry -> entry.word(RegisterWords.PROVENANCE));
        Optional<Source.Confidence> confidence =
                fields.need("confidence", "medium").flatMap(entry -> entry.word(RegisterWords.CONFIDENCE));
        String note = fields.text("note");
        return document.isEmpty() || provenance.isEmpty() || confidence.isEmpty()
                ? Optional.empty()
                : Optional.of(new Source(document.get(), edition, clause, provenance.get(), confidence.get(), note));
    }

    private static Optional<AfterChange> afterChange(Entry root) {
        return RegisterFile.versioned(root, RegisterShape.AFTER_CHANGE, "steamwright-after-change", FORMAT_VERSION)
                .flatMap(fields -> {
                    fields.text("notes");
                    Optional<AfterChange.Times> times = fields.need("times", "{…}")
                            .flatMap(entry -> entry.fields(RegisterShape.TIMES))
                            .flatMap(DataFiles::times);
                    List<AfterChange.Row> rows = list(fields, "reasons", RegisterShape.REASON, DataFiles::row);
                    return times.flatMap(known -> checked(root, () -> new AfterChange(rows, known)));
                });
    }

    private static Optional<AfterChange.Times> times(Fields fields) {
        Map<StepKind, Integer> steps = new EnumMap<>(StepKind.class);
        minutes(fields, "steps")
                .forEach((word, minutes) -> StepKind.find(word)
                        .ifPresentOrElse(
                                kind -> steps.put(kind, minutes),
                                () -> fields.entry()
                                        .problem(
                                                RegisterMessage.CONTRADICTS_ITSELF,
                                                "found a time for the unknown step \"" + word + "\", expected one of "
                                                        + String.join(", ", RegisterWords.STEP.keySet()) + ".")));
        Map<String, Integer> overhead = minutes(fields, "cycle-overhead");
        OptionalInt holding = fields.count("usual-holding");
        OptionalInt drying = fields.count("usual-drying");
        OptionalInt presence = fields.count("presence");
        OptionalInt empty = fields.count("empty-runs");
        OptionalInt indicators = fields.count("indicators-per-run");
        Optional<Source> source = source(fields);
        return source.flatMap(known -> checked(
                fields.entry(),
                () -> new AfterChange.Times(
                        steps,
                        overhead,
                        holding.orElse(0),
                        drying.orElse(0),
                        presence.orElse(0),
                        Math.max(1, empty.orElse(1)),
                        indicators.orElse(0),
                        known)));
    }

    private static Map<String, Integer> minutes(Fields fields, String key) {
        Map<String, Integer> minutes = new LinkedHashMap<>();
        fields.need(key, "{arrival: 20}")
                .flatMap(Entry::entries)
                .ifPresent(entries -> entries.forEach((word, entry) -> {
                    OptionalInt count = entry.count();
                    if (count.isPresent()) {
                        minutes.put(word, count.getAsInt());
                    }
                }));
        return minutes;
    }

    private static Optional<AfterChange.Row> row(Fields fields) {
        Optional<String> word = fields.needText("reason", "yearly");
        String title = fields.text("title");
        Set<StepKind> checks = new HashSet<>();
        for (Entry one : fields.list("checks")) {
            one.word(RegisterWords.STEP).ifPresent(checks::add);
        }
        AfterChange.Extent penetration = extent(fields, "penetration");
        AfterChange.Extent empty = extent(fields, "empty-chamber");
        AfterChange.Extent loaded = extent(fields, "loaded");
        String note = fields.text("note");
        Optional<Source> source = source(fields);
        return word.isEmpty() || source.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new AfterChange.Row(word.get(), title, checks, penetration, empty, loaded, note, source.get()));
    }

    private static AfterChange.Extent extent(Fields fields, String key) {
        return fields.find(key)
                .flatMap(entry -> entry.word(RegisterWords.EXTENT))
                .orElse(AfterChange.Extent.NONE);
    }
}
