package org.steamwright.report.result;

import java.io.IOException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Optional;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.CycleBook;
import org.steamwright.visit.LeakTrio;
import org.steamwright.visit.LoadComparison;
import org.steamwright.visit.Obstacles;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.failure.LookBack;
import org.steamwright.visit.indication.IndicationCheck;
import org.steamwright.visit.indication.PenetrationStanding;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.ValidatedState;

/** What follows from a visit beside its runs: validity, cycle numbers, leak tests together, tasks, indication, failures. */
final class JobFields {
    private JobFields() {}

    static void write(AssessedVisit assessed, Fields fields) throws IOException {
        Visit visit = assessed.visit();
        fields.list("validity");
        for (ValidatedState state : ValidatedState.of(assessed)) {
            state(state, fields);
        }
        fields.endList();
        fields.list("cycleNumbers");
        for (Sterilizer sterilizer : visit.sterilizers()) {
            for (CycleLedger.Line line : CycleBook.of(visit, sterilizer).lines()) {
                fields.element();
                fields.text("sterilizer", sterilizer.key());
                fields.count("first", line.first());
                fields.count("last", line.last());
                fields.word("kind", line.kind());
                fields.text("what", line.what());
                fields.endObject();
            }
        }
        fields.endList();
        fields.list("leakTrios");
        for (LeakTrio trio : LeakTrio.of(assessed)) {
            fields.element();
            fields.text("sterilizer", trio.sterilizer());
            fields.word("pattern", trio.pattern());
            fields.text("lookFor", trio.pattern().lookFor());
            stage("without", trio.without(), fields);
            stage("with", trio.with(), fields);
            stage("after", trio.after(), fields);
            fields.number("sensorShareKilopascalPerMinute", trio.sensorShareKilopascalPerMinute());
            fields.endObject();
        }
        fields.endList();
        tasks(visit, fields);
        indications(assessed, fields);
        fields.list("penetration");
        for (PenetrationStanding standing : Obstacles.penetration(visit)) {
            fields.element();
            fields.text("sterilizer", standing.sterilizer());
            fields.text("cycle", standing.cycle());
            fields.word("kind", standing.kind());
            fields.word("standing", standing.standing());
            fields.text("sentence", standing.sentence());
            fields.endObject();
        }
        fields.endList();
        fields.list("loadRemarks");
        for (VisitRun run : visit.runs()) {
            if (run.load().isPresent()) {
                for (LoadComparison.LoadRemark remark :
                        LoadComparison.of(run.load().get(), visit.job().findLoads(run.sterilizer()))) {
                    fields.element();
                    fields.count("run", run.number());
                    fields.word("kind", remark.kind());
                    fields.text("sentence", remark.sentence());
                    fields.endObject();
                }
            }
        }
        fields.endList();
        fields.list("failures");
        for (Failure failure : FailurePath.of(assessed)) {
            failure(failure, fields);
        }
        fields.endList();
    }

    private static void state(ValidatedState state, Fields fields) throws IOException {
        fields.element();
        fields.text("sterilizer", state.sterilizer());
        fields.text("serial", state.serial());
        date("from", state.from(), fields);
        date("until", state.until(), fields);
        fields.count("untilCount", state.untilCount());
        fields.list("cycles");
        for (QualifiedCycle cycle : state.cycles()) {
            fields.element();
            fields.text("name", cycle.name());
            fields.text("type", cycle.type().name());
            fields.word("status", cycle.status());
            fields.list("loads");
            for (ReferenceLoad load : cycle.loads()) {
                fields.element();
                fields.text("description", load.description());
                fields.number("kilogram", load.totalKilogram());
                fields.count("trays", load.trays());
                fields.count("things", load.things());
                fields.endObject();
            }
            fields.endList();
            fields.number("leastDryingSeconds", cycle.leastDryingSeconds());
            fields.texts("reasons", cycle.reasons());
            fields.endObject();
        }
        fields.endList();
        fields.texts(
                "endedSoonerBy",
                Arrays.stream(EndingEvent.values())
                        .filter(EndingEvent::endsAll)
                        .map(EndingEvent::words)
                        .toList());
        fields.list("conditions");
        for (PassCondition condition : state.conditions()) {
            fields.element();
            fields.text("cycle", condition.cycle());
            fields.text("text", condition.text());
            fields.text("owner", condition.owner());
            date("until", condition.until(), fields);
            fields.count("untilCount", condition.untilCount());
            date("metOn", condition.metOn(), fields);
            fields.text(
                    "renewedFrom",
                    condition.renewal().map(PassCondition.Renewal::of).orElse(""));
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    private static void date(String name, Optional<LocalDate> day, Fields fields) throws IOException {
        fields.text(name, day.map(LocalDate::toString).orElse(""));
    }

    private static void stage(String name, Optional<LeakTrio.Stage> stage, Fields fields) throws IOException {
        if (stage.isEmpty()) {
            return;
        }
        fields.object(name);
        fields.count("run", stage.get().run());
        fields.text("word", stage.get().word());
        fields.count("tests", stage.get().tests());
        fields.number("kilopascalPerMinute", stage.get().rate().map(rate -> rate.kilopascalPerMinute()));
        fields.endObject();
    }

    private static void tasks(Visit visit, Fields fields) throws IOException {
        fields.list("tasks");
        for (TaskRecord tasks : visit.job().tasks()) {
            fields.element();
            fields.text("sterilizer", tasks.sterilizer());
            fields.text("list", tasks.list().name());
            fields.text("version", tasks.list().version());
            fields.text("sha256", tasks.list().sha256());
            fields.word("part", tasks.list().part());
            fields.list("lines");
            for (TaskRecord.Line line : tasks.lines()) {
                fields.element();
                fields.text("task", line.task().id());
                fields.text("title", line.task().title());
                fields.word("standing", line.standing());
                if (line.entry().isPresent()) {
                    TaskEntry entry = line.entry().get();
                    fields.word("outcome", entry.outcome());
                    fields.text("why", entry.why());
                    fields.text("condition", entry.condition().words());
                    fields.number("reading", entry.reading());
                    fields.text(
                            "unit",
                            line.task().limit().map(Task.TaskLimit::unit).orElse(""));
                    fields.text("before", entry.before());
                    fields.text("after", entry.after());
                    fields.text("instrument", entry.instrument());
                    if (entry.part().isPresent()) {
                        fields.text("partNumber", entry.part().get().number());
                        fields.text("partLot", entry.part().get().lot());
                        fields.count("partQuantity", entry.part().get().quantity());
                    }
                }
                fields.endObject();
            }
            fields.endList();
            fields.endObject();
        }
        fields.endList();
    }

    private static void indications(AssessedVisit assessed, Fields fields) throws IOException {
        fields.list("indications");
        for (IndicationCheck check : Obstacles.indications(assessed.visit(), assessed.runs())) {
            fields.element();
            fields.count("run", check.reading().run());
            fields.text("shownBy", check.reading().shownBy());
            fields.word("quantity", check.reading().quantity());
            fields.number("atSeconds", check.reading().atSeconds());
            String value = UnitNames.corrected(check.reading().quantity());
            String size = UnitNames.difference(check.reading().quantity());
            fields.number("indicated" + value, check.reading().indicated());
            fields.number("reference" + value, check.reference());
            fields.number("expandedUncertainty" + size, check.figure().map(figure -> figure.high() - figure.value()));
            fields.number("tolerance" + size, check.reading().tolerance());
            fields.flag("isAsFound", check.reading().isAsFound());
            fields.word("outcome", check.outcome());
            fields.text("sentence", check.sentence());
            fields.endObject();
        }
        fields.endList();
    }

    private static void failure(Failure failure, Fields fields) throws IOException {
        fields.element();
        fields.text("sterilizer", failure.sterilizer());
        fields.word("kind", failure.kind());
        fields.word("blame", failure.blame());
        fields.flag("isAsFound", failure.isAsFound());
        fields.flag("isClosed", failure.isClosed());
        fields.texts("what", failure.what());
        fields.texts("outOfService", failure.outOfService());
        fields.flag("isAllOut", failure.isAllOut());
        fields.texts("retests", failure.retests());
        fields.text("retestsBecause", failure.scope().because());
        if (failure.lookBack().isPresent()) {
            LookBack lookBack = failure.lookBack().get();
            fields.object("lookBack");
            fields.text("words", lookBack.words());
            date("after", lookBack.lastGood().map(EarlierEvidence::on), fields);
            date("to", lookBack.to(), fields);
            fields.count("fromCycle", lookBack.fromCycle());
            fields.count("toCycle", lookBack.toCycle());
            fields.endObject();
        }
        fields.endObject();
    }
}
