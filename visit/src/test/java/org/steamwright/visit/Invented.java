package org.steamwright.visit;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.BiFunction;
import java.util.function.UnaryOperator;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Evidence;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.NamePlate;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** An invented visit that a test changes where it matters. Verdicts of the runs are given, not computed. */
final class Invented {

    static final Source SOURCE = new Source(
            "example requirement", "2026", "", Source.Provenance.USER, Source.Confidence.HIGH, "invented for tests");
    static final CycleDefinition B134 = CycleDefinition.of("Wrapped 134", CycleType.B, 134);
    static final CycleDefinition N134 = CycleDefinition.of("Quick 134", CycleType.N, 134);
    static final CycleDefinition S134 = CycleDefinition.of("Special 134", CycleType.S, 134);
    static final CycleDefinition LEAK = CycleDefinition.of("Air leakage test", CycleType.B, 134);
    static final ReferenceLoad LOAD = load("two trays of wrapped instruments", "hollow A", "single pouch");

    Optional<LocalDate> date = Optional.of(LocalDate.of(2026, 11, 25));
    Optional<Clinic> clinic = Optional.of(new Clinic("Example Clinic", "1 Example Street", "", "", ""));
    List<Person> people = List.of(
            new Person("Alex Example", "technician", "Example Service", "", ""),
            new Person("Robin Example", "reviewer", "Example Service", "", ""));
    List<CycleDefinition> cycles = List.of(B134);
    Optional<Double> litres = Optional.of(18.0);
    OptionalInt counterAtArrival = OptionalInt.empty();
    OptionalInt counterAtDeparture = OptionalInt.empty();
    List<String> deviations = List.of();
    List<Remark> remarks = List.of();
    List<Checklist> checklists = new ArrayList<>(List.of(
            checklist(Checklist.Section.INSTALLATION, "level", "good"),
            checklist(Checklist.Section.MAINTENANCE, "door seal", "done"),
            checklist(Checklist.Section.AS_FOUND, "chamber", "good"),
            checklist(Checklist.Section.SAFETY, "door lock", "good"),
            checklist(Checklist.Section.STEAM_PENETRATION, "hollow device", "pass")));
    Optional<Integer> revalidation = Optional.of(12);
    int consecutiveRuns = 3;
    /** Reference instruments; the one channel of each run was measured by {@code TL-1}. */
    Map<String, ReferenceInstrument> instruments = Map.of();

    final JobDraft job = new JobDraft();
    final Map<CriterionId, Requirement> requirements = new EnumMap<>(CriterionId.class);

    {
        requires(CriterionId.LEAK_RATE, Use.DECIDES, Optional.empty());
    }

    private final List<VisitRun> runs = new ArrayList<>();
    private final List<UnrecordedRun> unrecorded = new ArrayList<>();
    private final Map<String, RunOutcome> outcomes = new HashMap<>();
    private final Map<String, Phases> phases = new HashMap<>();

    /** Adds a run of the sterilizer 'A' whose recording has that outcome. */
    Invented run(TestKind kind, CycleDefinition cycle, RunOutcome outcome) {
        return run(kind, cycle, outcome, draft -> draft);
    }

    /** Adds a run and lets the caller change it. */
    Invented run(TestKind kind, CycleDefinition cycle, RunOutcome outcome, UnaryOperator<Draft> change) {
        int number = runs.size() + unrecorded.size() + 1;
        Draft draft = new Draft();
        draft.load = kind == TestKind.LOADED ? Optional.of(LOAD) : Optional.empty();
        change.apply(draft);
        TestRun test = new TestRun(
                "run-" + number, kind, cycle, trace(draft), Map.of(), Ambient.barometer(101.0), Optional.empty());
        outcomes.put(test.id(), outcome);
        draft.drying.ifPresent(seconds -> phases.put(
                test.id(),
                new Phases(Quantity.PRESSURE, List.of(new Phase(Phase.Kind.DRYING, 1000, 1000 + seconds)), List.of())));
        runs.add(new VisitRun(
                number,
                draft.sterilizer,
                draft.machineCycle,
                "",
                draft.stage,
                "",
                draft.load,
                draft.indicators,
                draft.weighings,
                "",
                draft.note,
                test,
                draft.chemicals,
                draft.setAside,
                List.of(),
                draft.after));
        return this;
    }

    /** Adds a run that has no recording yet. */
    Invented unrecorded(TestKind kind, CycleDefinition cycle, int machineCycle) {
        unrecorded.add(new UnrecordedRun(
                runs.size() + unrecorded.size() + 1, "A", kind, cycle.name(), OptionalInt.of(machineCycle)));
        return this;
    }

    Invented loaded(RunOutcome... those) {
        for (RunOutcome outcome : those) {
            run(TestKind.LOADED, B134, outcome);
        }
        return this;
    }

    /** Adds a loaded run that passes as recorded, with an exposed indicator that is read so and a control that grew. */
    Invented indicated(ReferenceLoad load, String reading, UnaryOperator<Draft> change) {
        return run(
                TestKind.LOADED,
                B134,
                RunOutcome.PASS,
                run -> change.apply(run.load(load)
                        .indicators(
                                LoadFindingsTest.indicator("1", false, reading),
                                LoadFindingsTest.indicator("C", true, "grown"))));
    }

    /** Adds as many of them as have to follow one another. */
    Invented indicated(ReferenceLoad load, String reading) {
        for (int i = 0; i < consecutiveRuns; i++) {
            indicated(load, reading, run -> run);
        }
        return this;
    }

    Invented empty(RunOutcome... those) {
        for (RunOutcome outcome : those) {
            run(TestKind.EMPTY_CHAMBER, B134, outcome);
        }
        return this;
    }

    Invented leak(String stage, RunOutcome outcome) {
        return run(TestKind.LEAK, LEAK, outcome, draft -> draft.stage(stage));
    }

    Invented requires(CriterionId id, Use use, Optional<Limit> limit) {
        requirements.put(id, new Requirement(id, use, limit, DecisionRule.SIMPLE, SOURCE));
        return this;
    }

    Invented requiresIndicators() {
        return requires(CriterionId.BIOLOGICAL_INDICATORS, Use.DECIDES, Optional.empty());
    }

    static Limit atMostPercent(double percent) {
        return new Limit(Comparison.AT_MOST, percent, Unit.PERCENT, SOURCE);
    }

    /** What was read off the name plate of EX-0001. */
    Optional<NamePlate> plate = Optional.empty();

    /** Whether a second steriliser, 'B', is on the premises, of which nothing was tested. */
    boolean isWithAnother;

    private static Sterilizer another() {
        return new Sterilizer(
                "B",
                "Example maker",
                "Example model",
                "EX-0002",
                "2021",
                Optional.empty(),
                "",
                "",
                "",
                OptionalInt.empty(),
                OptionalInt.empty(),
                List.of(B134));
    }

    Visit visit() {
        Sterilizer sterilizer = new Sterilizer(
                "A",
                "Example maker",
                "Example model",
                "EX-0001",
                "2021",
                litres,
                Optional.empty(),
                OptionalInt.empty(),
                "",
                "",
                "",
                counterAtArrival,
                counterAtDeparture,
                cycles,
                plate);
        return new Visit(
                "R-1",
                "yearly",
                date,
                ZoneId.of("Australia/Sydney"),
                "Example Service",
                clinic,
                isWithAnother ? List.of(sterilizer, another()) : List.of(sterilizer),
                people,
                Conditions.UNSTATED,
                instruments,
                checklists,
                runs,
                set(),
                deviations,
                List.of(),
                List.of(),
                List.of(),
                remarks,
                job.sheet(),
                List.of(),
                unrecorded);
    }

    AssessedVisit assessed() {
        return Visits.assess(visit(), evaluator());
    }

    BiFunction<TestRun, CriteriaSet, RunEvaluation> evaluator() {
        return (test, set) -> evaluation(
                test,
                set,
                outcomes.getOrDefault(test.id(), RunOutcome.INVALID),
                Optional.ofNullable(phases.get(test.id())));
    }

    CriteriaSet set() {
        return new CriteriaSet(
                "example-set",
                "1",
                "0".repeat(64),
                "Example set",
                IapwsR797.INSTANCE,
                SOURCE,
                false,
                List.of(),
                requirements,
                revalidation,
                consecutiveRuns);
    }

    static Checklist checklist(Checklist.Section section, String title, String result) {
        return checklist("A", section, title, result);
    }

    static Checklist checklist(String sterilizer, Checklist.Section section, String title, String result) {
        return new Checklist(section, sterilizer, List.of(new CheckItem(title, result, "", "", "", "", "")));
    }

    static ReferenceLoad load(String description, String family, String packaging) {
        return new ReferenceLoad(
                description,
                List.of(new ReferenceLoad.Item("handpiece", 4, family, packaging)),
                "a lumen in a double pouch",
                "front, bottom",
                packaging,
                Optional.empty(),
                "Sam Example, infection control lead",
                List.of());
    }

    private static Trace trace(Draft draft) {
        Channel channel = new Channel(
                "drain",
                ChannelRole.REFERENCE_POINT,
                Position.UNSTATED,
                Optional.of("TL-1"),
                Optional.empty(),
                TimeAxis.regular(2, 1),
                new Column("drain", Quantity.TEMPERATURE, Optional.empty(), "°C", new double[] {20, 134}, 0.01));
        return new Trace(
                draft.start,
                ZoneId.of("Australia/Sydney"),
                List.of(channel),
                List.of(new Trace.SourceFile("example.csv", 10, "0".repeat(64), draft.isSimulated)),
                draft.remarks);
    }

    private static RunEvaluation evaluation(
            TestRun test, CriteriaSet set, RunOutcome outcome, Optional<Phases> phases) {
        String cause = switch (outcome) {
            case PASS -> "Every deciding criterion is met.";
            case FAIL -> "The holding time was 170 s and not 180 s.";
            case INVALID -> "A sensor was dead.";
        };
        Finding deciding = new Finding(
                outcome == RunOutcome.INVALID ? CriterionId.SENSORS_ALIVE : CriterionId.MINIMUM_HOLDING_TIME,
                Use.DECIDES,
                outcome == RunOutcome.INVALID ? Outcome.INVALID : Outcome.FAIL,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                DecisionRule.SIMPLE,
                SOURCE,
                Evidence.NONE,
                cause);
        RunVerdict verdict = new RunVerdict(outcome, outcome == RunOutcome.PASS ? List.of() : List.of(deciding), cause);
        return new RunEvaluation(
                test,
                set,
                new CorrectedTrace(test.trace(), List.of()),
                phases,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                List.of(),
                List.of(),
                Optional.empty(),
                List.of(deciding),
                verdict,
                verdict,
                verdict,
                List.of());
    }

    /** What a test changes about a run. */
    static final class Draft {
        private String sterilizer = "A";
        private OptionalInt machineCycle = OptionalInt.empty();
        private String stage = "";
        private String note = "";
        private Optional<ReferenceLoad> load = Optional.empty();
        private List<IndicatorUse> indicators = List.of();
        private List<Weighing> weighings = List.of();
        private List<ChemicalIndicator> chemicals = List.of();
        private Optional<Instant> start = Optional.of(Instant.parse("2026-11-25T01:00:00Z"));
        private List<Remark> remarks = List.of();
        private boolean isSimulated;
        private Optional<SetAside> setAside = Optional.empty();
        Optional<AfterRun> after = Optional.empty();
        private Optional<Double> drying = Optional.empty();

        /** It was made in the other steriliser. */
        Draft atAnother() {
            sterilizer = "B";
            return this;
        }

        Draft machineCycle(int number) {
            machineCycle = OptionalInt.of(number);
            return this;
        }

        Draft stage(String words) {
            stage = words;
            return this;
        }

        Draft note(String text) {
            note = text;
            return this;
        }

        Draft load(ReferenceLoad other) {
            load = Optional.of(other);
            return this;
        }

        Draft setAside(String because) {
            setAside = Optional.of(new SetAside(because, "Alex Example"));
            return this;
        }

        /** A drying phase of that length is found in the recording. */
        Draft drying(double seconds) {
            drying = Optional.of(seconds);
            return this;
        }

        Draft noLoad() {
            load = Optional.empty();
            return this;
        }

        Draft indicators(IndicatorUse... those) {
            indicators = List.of(those);
            return this;
        }

        Draft chemicals(ChemicalIndicator... those) {
            chemicals = List.of(those);
            return this;
        }

        Draft after(boolean isDry, boolean isSealed, String by) {
            after = Optional.of(new AfterRun(Optional.of(isDry), Optional.of(isSealed), "", by));
            return this;
        }

        Draft weighings(Weighing... those) {
            weighings = List.of(those);
            return this;
        }

        Draft start(Optional<Instant> moment) {
            start = moment;
            return this;
        }

        Draft remarks(Remark... those) {
            remarks = List.of(those);
            return this;
        }

        Draft simulated() {
            isSimulated = true;
            return this;
        }
    }
}
