package org.steamwright.intake.register;

import static org.steamwright.intake.register.RegisterFile.checked;
import static org.steamwright.intake.register.RegisterFile.list;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Period;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Function;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.intake.folder.AfterChangeFile;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Fields;
import org.steamwright.intake.folder.OtherYaml;
import org.steamwright.intake.folder.Problem;
import org.steamwright.visit.due.DueRule;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.register.Duty;

/** The due rules and the after-change matrix: the ones that come with the program, or an office's own in the same format. */
public final class DataFiles {

    /** Name of the rules that come with the program, a resource beside this class. */
    public static final String DUE_RULES = "due-rules.yaml";

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
        return AfterChangeFile.shipped();
    }

    /** The after-change matrix in a file. */
    public static AfterChange afterChange(Path file) throws IOException, RegisterException {
        return read(file, AfterChangeFile::read);
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
                    Problem.ofFile(RegisterMessage.NO_REGISTER, name, 0, "found no such file.", "Check the path.")));
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
        Optional<Source> source = AfterChangeFile.source(fields);
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
}
