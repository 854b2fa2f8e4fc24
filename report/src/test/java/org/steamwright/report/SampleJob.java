package org.steamwright.report;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.JobSheet;
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
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;

/** An invented job sheet in which every kind of fact has a line. */
public final class SampleJob {

    private SampleJob() {}

    static JobSheet sheet(ReferenceLoad load) {
        LocalDate day = LocalDate.of(2026, 11, 25);
        return new JobSheet(
                List.of(new OtherCycles("A", 3920, 3920, OtherCycles.Kind.WARM_UP, "")),
                List.of(new ChangesSince(
                        "A",
                        Optional.of(false),
                        Optional.of(true),
                        Optional.of(false),
                        "a heat sealer beside it, June")),
                List.of(maintenance(), safety(0.12)),
                List.of(
                        new IndicationReading(
                                4,
                                "display",
                                Quantity.TEMPERATURE,
                                700,
                                135.2,
                                0.1,
                                1,
                                "instructions for use, edition 4",
                                DecisionRule.SIMPLE,
                                false),
                        new IndicationReading(
                                4,
                                "printout",
                                Quantity.PRESSURE,
                                700,
                                314,
                                1,
                                5,
                                "instructions for use, edition 4",
                                DecisionRule.GUARDED,
                                true)),
                List.of(
                        device(PenetrationTest.Kind.HOLLOW, "long lumen with an indicator strip", "L-31"),
                        device(PenetrationTest.Kind.POROUS, "small porous pack", "L-8")),
                List.of(new LoadFrame(
                        "A",
                        Optional.of(5.0),
                        "instructions for use, edition 4",
                        List.of("solid", "hollow A", "porous"),
                        Optional.of(new ReferenceLoad(
                                "Six trays",
                                load.items(),
                                load.challengePack(),
                                "front, lowest tray",
                                load.packaging(),
                                Optional.of(4.7),
                                "B. Sample, practice manager",
                                List.of())),
                        "R-2025-0093",
                        "one tray went out of use")),
                List.of(new PassCondition(
                        "A",
                        "",
                        "Fit a new air filter",
                        "B. Sample, practice manager",
                        Optional.of(LocalDate.of(2027, 1, 31)),
                        OptionalInt.of(4300),
                        Optional.of(LocalDate.of(2027, 1, 12)),
                        Optional.of(new PassCondition.Renewal("R-2025-0093", "not delivered", "C. Model")))),
                List.of("Fit a new air filter"),
                List.of(
                        new EarlierEvidence(
                                "A",
                                EarlierEvidence.Kind.AIR_LEAKAGE,
                                day.minusDays(12),
                                OptionalInt.of(3830),
                                "log book, page 41"),
                        new EarlierEvidence(
                                "A",
                                EarlierEvidence.Kind.THERMOMETRIC,
                                LocalDate.of(2025, 11, 27),
                                OptionalInt.of(2204),
                                "report R-2025-0093")),
                List.of(new FailureNote(
                        "A",
                        EarlierEvidence.Kind.AIR_LEAKAGE,
                        "door seal hard and torn at the hinge",
                        "door seal replaced, groove cleaned",
                        List.of("seal"),
                        Optional.of(day),
                        "A. Example",
                        "leak tests of runs 2, 3 and 8 pass")),
                List.of(new JobSheet.Event("A", EndingEvent.MOVED, LocalDate.of(2027, 5, 4), "to the front room")),
                Optional.of(LocalDate.of(2026, 12, 9)),
                OptionalInt.of(1500),
                Optional.empty(),
                Scope.EVERYTHING,
                Optional.empty());
    }

    private static PenetrationTest device(PenetrationTest.Kind kind, String device, String lot) {
        return new PenetrationTest(
                "A",
                "B 134 wrapped",
                OptionalInt.empty(),
                kind,
                device,
                lot,
                Optional.of(LocalDate.of(2027, 1, 31)),
                PenetrationTest.Result.PASS,
                "A. Example",
                false,
                "");
    }

    private static TaskRecord maintenance() {
        TaskList list = new TaskList(
                "bench-vacuum-yearly",
                "1",
                "a".repeat(64),
                TaskList.Part.MAINTENANCE,
                "bench-top, vacuum",
                "12 months",
                "common practice, no source",
                List.of(
                        new Task("door-seal", "Door seal and its groove", "", Optional.empty()),
                        new Task("water-pump", "Water pump", "", Optional.empty()),
                        new Task("air-filter", "Filter of the air", "", Optional.empty()),
                        new Task("vents", "Fans and vents", "", Optional.empty())));
        return new TaskRecord(
                "A",
                list,
                List.of(
                        new TaskEntry(
                                "door-seal",
                                TaskEntry.Outcome.DONE,
                                "",
                                TaskEntry.Condition.WORN,
                                Optional.of(new TaskEntry.Part("DS-17", "55", 1)),
                                "2.4 kPa in 10 min",
                                "0.4 kPa in 10 min",
                                Optional.empty(),
                                "PL-1"),
                        new TaskEntry(
                                "water-pump",
                                TaskEntry.Outcome.NOT_POSSIBLE,
                                "part not delivered",
                                TaskEntry.Condition.NOT_STATED,
                                Optional.empty(),
                                "",
                                "",
                                Optional.empty(),
                                ""),
                        new TaskEntry(
                                "air-filter",
                                TaskEntry.Outcome.NOT_DUE,
                                "exchanged in June",
                                TaskEntry.Condition.GOOD,
                                Optional.empty(),
                                "",
                                "",
                                Optional.empty(),
                                "")));
    }

    /** The electrical safety test of steriliser A with that resistance of its protective earth, in ohms; the limit is 0.3 Ω. */
    public static TaskRecord safety(double earth) {
        TaskList list = new TaskList(
                "bench-safety",
                "1",
                "b".repeat(64),
                TaskList.Part.SAFETY,
                "bench-top, protective class I",
                "12 months",
                "common practice, no source",
                List.of(new Task(
                        "earth",
                        "Resistance of the protective earth",
                        "Only people licensed for it under local rules.",
                        Optional.of(new Task.TaskLimit(Comparison.AT_MOST, 0.3, "Ω", "set by the user")))));
        return new TaskRecord(
                "A",
                list,
                List.of(new TaskEntry(
                        "earth",
                        TaskEntry.Outcome.DONE,
                        "",
                        TaskEntry.Condition.NOT_STATED,
                        Optional.empty(),
                        "",
                        "",
                        Optional.of(earth),
                        "ET-2")));
    }
}
