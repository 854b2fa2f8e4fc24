package org.steamwright.intake.folder;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.BiFunction;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.folder.Flaw.Sort;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.LastDay;
import org.steamwright.visit.LoadFrame;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.job.ChangesSince;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.job.IndicationReading;
import org.steamwright.visit.job.OtherCycles;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.register.Sterilizer;

/** The job sheet of a visit file: what was done, read and agreed beside the runs. */
final class JobFacts {

    private final FolderFiles files;
    private final List<Sterilizer> sterilizers;
    private final int runs;
    private final Optional<LocalDate> day;
    private final Optional<Integer> months;

    /**
     * @param files of the folder, for task lists
     * @param sterilizers of the visit
     * @param runs how many the visit has
     * @param day of the visit
     * @param months for which the criteria set lets a qualification stand; empty if it states no period
     */
    JobFacts(
            FolderFiles files,
            List<Sterilizer> sterilizers,
            int runs,
            Optional<LocalDate> day,
            Optional<Integer> months) {
        this.files = files;
        this.sterilizers = sterilizers;
        this.runs = runs;
        this.day = day;
        this.months = months;
    }

    JobSheet read(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.JOB_SHEET);
        if (opened.isEmpty()) {
            return JobSheet.NONE;
        }
        Fields fields = opened.get();
        return new JobSheet(
                each(fields, "other-cycles", Shape.OTHER_CYCLES, this::otherCycles),
                each(fields, "changes", Shape.CHANGES, this::changes),
                each(fields, "tasks", Shape.TASKS, this::tasks),
                indications(fields),
                each(fields, "penetration", Shape.PENETRATION, this::penetration),
                each(fields, "loads", Shape.LOAD_FRAME, this::loads),
                each(fields, "conditions", Shape.CONDITION, this::condition),
                fields.texts("earlier-conditions"),
                each(fields, "evidence", Shape.EVIDENCE, this::evidence),
                each(fields, "failures", Shape.FAILURE, this::failure),
                each(fields, "events", Shape.ENDING_EVENT, this::event),
                fields.date("interim-until"),
                fields.count("cycles-until-due"),
                afterChange(fields),
                fields.find("scope")
                        .flatMap(one -> one.fields(Shape.SCOPE))
                        .map(this::scope)
                        .orElse(Scope.EVERYTHING),
                validUntil(fields));
    }

    /** A stated end lies in the visit's own period: an end before it says nothing stands, one behind it what nobody showed. */
    private Optional<LocalDate> validUntil(Fields fields) {
        Optional<LocalDate> until = fields.date("valid-until");
        Optional<Entry> entry = fields.find("valid-until");
        if (until.isEmpty() || entry.isEmpty() || day.isEmpty()) {
            return until;
        }
        if (until.get().isBefore(day.get())) {
            entry.get()
                    .problem(
                            Mistake.VALID_BEFORE_THE_VISIT,
                            Flaw.of(
                                    "found " + until.get() + ", expected the day of the visit, " + day.get()
                                            + ", or a later one.",
                                    "Correct the day, or leave it out if nothing is to stand."));
        }
        Optional<LocalDate> last = months.map(those -> LastDay.after(day.get(), those));
        if (last.filter(until.get()::isAfter).isPresent()) {
            entry.get()
                    .problem(
                            Mistake.VALID_BEYOND_THE_SET,
                            Flaw.of(
                                    "found " + until.get() + ", expected " + last.get()
                                            + " or an earlier day: the criteria set lets a qualification stand for "
                                            + months.get() + " months.",
                                    "Correct the day, or leave it out to take the last one."));
        }
        return until;
    }

    private Scope scope(Fields fields) {
        Set<Kind> leftOut = EnumSet.noneOf(Kind.class);
        Words.ASKED_FOR.forEach((word, kind) -> fields.find(word)
                .flatMap(Entry::yesOrNo)
                .filter(isAsked -> !isAsked)
                .ifPresent(no -> leftOut.add(kind)));
        List<String> cycles = new ArrayList<>();
        List<String> known = sterilizers.stream()
                .flatMap(sterilizer -> sterilizer.cycles().stream())
                .map(CycleDefinition::name)
                .toList();
        for (Entry cycle : fields.find("cycles").map(Entry::listOrOne).orElse(List.of())) {
            cycle.text().ifPresent(name -> {
                if (sterilizers.stream().allMatch(one -> one.findCycle(name).isEmpty())) {
                    cycle.problem(
                            Mistake.UNKNOWN_NAME,
                            Flaw.notAmong(
                                            "found the cycle \"%s\" in the scope, expected a cycle of the sterilisers of this visit: %s.",
                                            name, known)
                                    .with("Write its name as it stands there."));
                }
                cycles.add(name);
            });
        }
        return new Scope(leftOut, cycles, fields.text("because"));
    }

    /** The matrix of the folder, or the one that comes with the program. */
    private Optional<AfterChange> afterChange(Fields fields) {
        Optional<Entry> own = fields.find("after-change");
        return own.isPresent() ? AfterChangeFile.read(own.get(), files) : Optional.of(AfterChangeFile.shipped());
    }

    /** The entries of a list that belong to a steriliser. */
    private <E> List<E> each(Fields fields, String key, Shape shape, BiFunction<Fields, String, Optional<E>> read) {
        List<E> found = new ArrayList<>();
        for (Entry one : fields.list(key)) {
            one.fields(shape).ifPresent(opened -> {
                Optional<String> sterilizer = Facts.sterilizer(opened, sterilizers);
                // read in any case, so that everything that is wrong is told at once
                Optional<E> value = read.apply(opened, sterilizer.orElse(""));
                if (sterilizer.isPresent()) {
                    value.ifPresent(found::add);
                }
            });
        }
        return found;
    }

    private Optional<OtherCycles> otherCycles(Fields fields, String sterilizer) {
        OptionalInt first = count(fields, "first", "4712");
        OptionalInt last = fields.count("last");
        Optional<OtherCycles.Kind> kind =
                fields.need("kind", "warm-up").flatMap(entry -> entry.word(Words.OTHER_CYCLE));
        String note = fields.text("note");
        return first.isEmpty() || kind.isEmpty()
                ? Optional.empty()
                : Facts.checked(
                        fields.entry(),
                        () -> new OtherCycles(
                                sterilizer, first.getAsInt(), last.orElse(first.getAsInt()), kind.get(), note));
    }

    private Optional<ChangesSince> changes(Fields fields, String sterilizer) {
        Optional<Boolean> moved = fields.find("moved").flatMap(Entry::yesOrNo);
        Optional<Boolean> added = fields.find("added").flatMap(Entry::yesOrNo);
        Optional<Boolean> changed = fields.find("changed").flatMap(Entry::yesOrNo);
        String note = fields.text("note");
        return Facts.checked(fields.entry(), () -> new ChangesSince(sterilizer, moved, added, changed, note));
    }

    private Optional<TaskRecord> tasks(Fields fields, String sterilizer) {
        Optional<TaskList> list =
                fields.need("list", "bench-vacuum-yearly").flatMap(entry -> TaskLists.read(entry, files));
        List<TaskEntry> entries = new ArrayList<>();
        for (Entry one : fields.need("entries", "[{task: door-seal, outcome: done}]")
                .map(Entry::list)
                .orElse(List.of())) {
            one.fields(Shape.TASK_ENTRY)
                    .flatMap(opened -> taskEntry(opened, list))
                    .ifPresent(entries::add);
        }
        return list.flatMap(tasks -> Facts.checked(fields.entry(), () -> new TaskRecord(sterilizer, tasks, entries)));
    }

    private static Optional<TaskEntry> taskEntry(Fields fields, Optional<TaskList> list) {
        Optional<Entry> taskEntry = fields.need("task", "door-seal");
        Optional<String> task = taskEntry.flatMap(Entry::text);
        Optional<TaskEntry.Outcome> outcome =
                fields.need("outcome", "done").flatMap(entry -> entry.word(Words.TASK_OUTCOME));
        String why = fields.text("why");
        Optional<Entry> conditionEntry = fields.find("condition");
        Optional<TaskEntry.Condition> condition = conditionEntry.isPresent()
                ? conditionEntry.get().word(Words.TASK_CONDITION)
                : Optional.of(TaskEntry.Condition.NOT_STATED);
        Optional<TaskEntry.Part> part =
                fields.find("part").flatMap(entry -> entry.fields(Shape.PART)).flatMap(JobFacts::part);
        String before = fields.text("before");
        String after = fields.text("after");
        Optional<Entry> readingEntry = fields.find("reading");
        String instrument = fields.text("instrument");
        if (task.isPresent() && list.isPresent() && list.get().find(task.get()).isEmpty()) {
            List<String> known =
                    list.get().tasks().stream().map(one -> one.id()).toList();
            taskEntry
                    .get()
                    .problem(
                            Mistake.UNKNOWN_NAME,
                            Flaw.notAmong(
                                            "found the task \"%s\", expected one of the list "
                                                    + list.get().name().replace("%", "%%") + ": %s.",
                                            task.get(),
                                            known)
                                    .with(Nearest.didYouMean(task.get(), known)
                                            + " Correct it, or add the task to a copy" + " of the list."));
            return Optional.empty();
        }
        Optional<Double> reading = readingEntry.flatMap(entry -> reading(entry, task, list));
        return task.isEmpty() || outcome.isEmpty() || condition.isEmpty()
                ? Optional.empty()
                : Facts.checked(
                        fields.entry(),
                        () -> new TaskEntry(
                                task.get(),
                                outcome.get(),
                                why,
                                condition.get(),
                                part,
                                before,
                                after,
                                reading,
                                instrument));
    }

    /** A reading in the unit of the limit of its task. */
    private static Optional<Double> reading(Entry entry, Optional<String> task, Optional<TaskList> list) {
        Optional<String> text = entry.text();
        if (text.isEmpty() || task.isEmpty() || list.isEmpty()) {
            return Optional.empty();
        }
        Optional<String> unit =
                list.get().find(task.get()).flatMap(one -> one.limit()).map(limit -> limit.unit());
        if (unit.isEmpty()) {
            entry.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of(
                            "found the reading \"" + text.get()
                                    + "\" at a task without a limit, expected it at one with a" + " limit.",
                            "Write it as before or after instead."));
            return Optional.empty();
        }
        if (!text.get().endsWith(unit.get())) {
            entry.problem(
                    Mistake.NO_UNIT,
                    Flaw.found(
                                    Sort.NO_UNIT,
                                    "found \"%s\", expected a reading in "
                                            + unit.get().replace("%", "%%") + " as the list has its limit.",
                                    text.get())
                            .expecting("a reading", unit.get(), "0.1 " + unit.get())
                            .with("Write for example: 0.1 " + unit.get()));
            return Optional.empty();
        }
        return Quantities.number(
                text.get()
                        .substring(0, text.get().length() - unit.get().length())
                        .strip(),
                entry);
    }

    private static Optional<TaskEntry.Part> part(Fields fields) {
        String number = fields.text("number");
        String lot = fields.text("lot");
        OptionalInt quantity = fields.count("quantity");
        return Facts.checked(fields.entry(), () -> new TaskEntry.Part(number, lot, quantity.orElse(1)));
    }

    private List<IndicationReading> indications(Fields fields) {
        List<IndicationReading> found = new ArrayList<>();
        for (Entry one : fields.list("indications")) {
            one.fields(Shape.INDICATION).flatMap(this::indication).ifPresent(found::add);
        }
        return found;
    }

    private Optional<IndicationReading> indication(Fields fields) {
        OptionalInt run = count(fields, "run", "2");
        if (run.isPresent() && (run.getAsInt() < 1 || run.getAsInt() > runs) && runs > 0) {
            fields.find("run")
                    .ifPresent(spot -> spot.problem(
                            Mistake.UNKNOWN_NAME,
                            Flaw.outside(
                                            "found run %s, expected one from %s to %s.",
                                            String.valueOf(run.getAsInt()), "1", String.valueOf(runs))
                                    .with("Runs are numbered in the order of this file.")));
            return Optional.empty();
        }
        String shownBy = fields.text("shown-by");
        Optional<Double> at = fields.need("at", "20 min").flatMap(entry -> entry.quantity(Measure.DURATION));
        Optional<Entry> temperatureEntry = fields.find("temperature");
        Optional<Entry> pressureEntry = fields.find("pressure");
        if (temperatureEntry.isPresent() == pressureEntry.isPresent()) {
            fields.entry()
                    .problem(
                            Mistake.MISSING_KEY,
                            Flaw.of(
                                            "found " + (temperatureEntry.isPresent() ? "both" : "neither")
                                                    + " of temperature and pressure, expected what was shown, one for each reading.")
                                    .inFile("Add a line like: temperature: 134.6 °C"));
        }
        Optional<Double> shown = temperatureEntry.isPresent()
                ? temperatureEntry.get().quantity(Measure.TEMPERATURE)
                : pressureEntry.flatMap(entry -> entry.quantity(Measure.ABSOLUTE_PRESSURE));
        boolean isPressure = temperatureEntry.isEmpty() && pressureEntry.isPresent();
        Measure size = isPressure ? Measure.PRESSURE_DIFFERENCE : Measure.TEMPERATURE_DIFFERENCE;
        Optional<Double> digit = fields.need("last-digit", "0.1 K").flatMap(entry -> entry.quantity(size));
        Optional<Double> tolerance = fields.need("tolerance", "±1 K").flatMap(entry -> entry.quantity(size));
        Optional<String> source = fields.needText("tolerance-source", "instructions for use, edition 4");
        Optional<Entry> ruleEntry = fields.find("rule");
        Optional<DecisionRule> rule =
                ruleEntry.isPresent() ? ruleEntry.get().word(Words.RULE) : Optional.of(DecisionRule.SIMPLE);
        boolean isAsFound = isAsFound(fields);
        return run.isEmpty()
                        || at.isEmpty()
                        || shown.isEmpty()
                        || digit.isEmpty()
                        || tolerance.isEmpty()
                        || source.isEmpty()
                        || rule.isEmpty()
                ? Optional.empty()
                : Facts.checked(
                        fields.entry(),
                        () -> new IndicationReading(
                                run.getAsInt(),
                                shownBy.isBlank() ? "display" : shownBy,
                                temperatureEntry.isPresent() ? Quantity.TEMPERATURE : Quantity.PRESSURE,
                                at.get(),
                                shown.get(),
                                digit.get(),
                                tolerance.get(),
                                source.get(),
                                rule.get(),
                                isAsFound));
    }

    private static boolean isAsFound(Fields fields) {
        return fields.find("when")
                .flatMap(entry -> entry.word(Words.FOUND_OR_LEFT))
                .orElse(false);
    }

    private Optional<PenetrationTest> penetration(Fields fields, String sterilizer) {
        Optional<String> cycle = fields.needText("cycle", "134 wrapped");
        OptionalInt number = fields.count("machine-cycle");
        Optional<PenetrationTest.Kind> kind =
                fields.need("kind", "hollow").flatMap(entry -> entry.word(Words.PENETRATION));
        Optional<String> device = fields.needText("device", "long lumen with an indicator strip");
        String lot = fields.text("lot");
        Optional<LocalDate> expires = fields.date("expires");
        Optional<PenetrationTest.Result> result =
                fields.need("result", "pass").flatMap(entry -> entry.word(Words.PENETRATION_RESULT));
        String readBy = fields.text("read-by");
        boolean isAsFound = isAsFound(fields);
        String note = fields.text("note");
        return cycle.isEmpty() || kind.isEmpty() || device.isEmpty() || result.isEmpty()
                ? Optional.empty()
                : Facts.checked(
                        fields.entry(),
                        () -> new PenetrationTest(
                                sterilizer,
                                cycle.get(),
                                number,
                                kind.get(),
                                device.get(),
                                lot,
                                expires,
                                result.get(),
                                readBy,
                                isAsFound,
                                note));
    }

    private Optional<LoadFrame> loads(Fields fields, String sterilizer) {
        Optional<Double> maximum = fields.quantity("maximum", Measure.LOAD_MASS);
        String maximumSource = fields.text("maximum-source");
        List<String> owned = new ArrayList<>();
        for (Entry one : fields.find("owned").map(Entry::listOrOne).orElse(List.of())) {
            one.word(Words.FAMILY).ifPresent(owned::add);
        }
        Optional<ReferenceLoad> last = fields.find("last").flatMap(Facts::load);
        String lastReport = fields.text("last-report");
        String accepted = fields.text("too-little-accepted");
        return Facts.checked(
                fields.entry(),
                () -> new LoadFrame(sterilizer, maximum, maximumSource, owned, last, lastReport, accepted));
    }

    private Optional<PassCondition> condition(Fields fields, String sterilizer) {
        String cycle = fields.text("cycle");
        Optional<String> text = fields.needText("text", "fit a new air filter");
        Optional<String> owner = fields.needText("owner", "practice manager");
        Optional<LocalDate> until = fields.date("until");
        OptionalInt untilCount = fields.count("until-count");
        Optional<LocalDate> metOn = fields.date("met-on");
        Optional<Fields> renewalFields = fields.find("renewal").flatMap(entry -> entry.fields(Shape.RENEWAL));
        Optional<PassCondition.Renewal> renewal = renewalFields.flatMap(JobFacts::renewal);
        return text.isEmpty() || owner.isEmpty() || renewalFields.isPresent() != renewal.isPresent()
                ? Optional.empty()
                : Facts.checked(
                        fields.entry(),
                        () -> new PassCondition(
                                sterilizer, cycle, text.get(), owner.get(), until, untilCount, metOn, renewal));
    }

    private static Optional<PassCondition.Renewal> renewal(Fields fields) {
        Optional<String> of = fields.needText("of", "R-2025-0031");
        Optional<String> reason = fields.needText("reason", "the filter was not delivered");
        Optional<String> reviewer = fields.needText("reviewer", "Lee Placeholder (invented)");
        return of.isEmpty() || reason.isEmpty() || reviewer.isEmpty()
                ? Optional.empty()
                : Facts.checked(
                        fields.entry(), () -> new PassCondition.Renewal(of.get(), reason.get(), reviewer.get()));
    }

    private Optional<EarlierEvidence> evidence(Fields fields, String sterilizer) {
        Optional<EarlierEvidence.Kind> kind =
                fields.need("kind", "air-leakage").flatMap(entry -> entry.word(Words.EVIDENCE));
        Optional<LocalDate> on = fields.need("on", "2026-02-27").flatMap(Entry::date);
        OptionalInt cycle = fields.count("cycle");
        Optional<String> reference = fields.needText("reference", "log book, page 12");
        return kind.isEmpty() || on.isEmpty() || reference.isEmpty()
                ? Optional.empty()
                : Facts.checked(
                        fields.entry(),
                        () -> new EarlierEvidence(sterilizer, kind.get(), on.get(), cycle, reference.get()));
    }

    private Optional<FailureNote> failure(Fields fields, String sterilizer) {
        Optional<EarlierEvidence.Kind> kind =
                fields.need("kind", "air-leakage").flatMap(entry -> entry.word(Words.EVIDENCE));
        String cause = fields.text("cause");
        String action = fields.text("action");
        List<String> changes = fields.texts("changes");
        Optional<LocalDate> closedOn = fields.date("closed-on");
        String closedBy = fields.text("closed-by");
        String effect = fields.text("effect");
        return kind.flatMap(word -> Facts.checked(
                fields.entry(),
                () -> new FailureNote(sterilizer, word, cause, action, changes, closedOn, closedBy, effect)));
    }

    private Optional<JobSheet.Event> event(Fields fields, String sterilizer) {
        Optional<EndingEvent> kind = fields.need("kind", "moved").flatMap(entry -> entry.word(Words.ENDING_EVENT));
        Optional<LocalDate> on = fields.need("on", "2026-05-04").flatMap(Entry::date);
        String note = fields.text("note");
        return kind.isEmpty() || on.isEmpty()
                ? Optional.empty()
                : Optional.of(new JobSheet.Event(sterilizer, kind.get(), on.get(), note));
    }

    private static OptionalInt count(Fields fields, String key, String example) {
        return fields.need(key, example).map(Entry::count).orElse(OptionalInt.empty());
    }
}
