package org.steamwright.report.result;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Evidence;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Judgement;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Pulse;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.indicator.Agreement;
import org.steamwright.assessment.indicator.ChemicalComparison;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.ExpectedReduction;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.lethality.LethalityTerms;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Correlation;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.Hint;
import org.steamwright.assessment.verdict.LeakPeriods;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.RunVerdict;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.visit.AfterRun;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.CheckItem;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.OpenPoint;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.SiteMoment;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.Weighing;
import org.steamwright.visit.Where;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** An invented visit written by hand in which every field of the model has a value, and one in which as few as can be. */
final class SampleVisit {
    static final Source SOURCE = new Source(
            "example practice", "2026", "4.2", Source.Provenance.COMMON_PRACTICE, Source.Confidence.LOW, "invented");
    static final Source SHORT_SOURCE =
            new Source("example", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "");
    static final Limit HOLDING = new Limit(Comparison.AT_LEAST, 180, Unit.SECONDS, SOURCE);
    static final CycleDefinition CYCLE = new CycleDefinition(
            "134 wrapped",
            CycleType.B,
            Temperature.ofCelsius(134),
            Optional.of(Duration.ofSeconds(210)),
            OptionalInt.of(3),
            Optional.of(20.0),
            Optional.of(Duration.ofMinutes(10)));
    private static final CalibrationCertificate LEFT = new CalibrationCertificate(
            "C-1",
            "example laboratory",
            LocalDate.of(2026, 1, 5),
            LocalDate.of(2027, 1, 4),
            List.of(new CalibrationPoint(121.03, 121.0, 0.1, 2), new CalibrationPoint(134.05, 134.0, 0.1, 2)),
            Optional.of(new CertificateFile(
                    "certificates/TL-07.xml",
                    "d".repeat(64),
                    "3.1.2",
                    "TL-07",
                    CertificateFile.State.AS_LEFT,
                    CertificateFile.Signature.NOT_SIGNED,
                    "The certificate carries no signature.",
                    List.of(new CalibrationPoint(134.15, 134.0, 0.1, 2)))));

    private static final CalibrationCertificate EARLIER = new CalibrationCertificate(
            "C-0",
            "example laboratory",
            LocalDate.of(2025, 1, 5),
            LocalDate.of(2026, 1, 4),
            List.of(new CalibrationPoint(121.02, 121.0, 0.1, 2), new CalibrationPoint(134.03, 134.0, 0.1, 2)));

    static final ReferenceInstrument THERMOMETER = new ReferenceInstrument(
            "TL-07",
            "logger",
            Quantity.TEMPERATURE,
            0,
            150,
            Optional.of(LEFT),
            List.of(
                    Contribution.rectangular("drift", 0.05, "example data sheet"),
                    Contribution.standard("noise of one reading", 0.01, 9, "example data sheet")
                            .perReading(),
                    Contribution.expanded("reference thermometer", 0.02, 2, "example data sheet")
                            .shared(new Correlation("RT-1", 0.9))),
            new InstrumentHistory(
                    List.of(
                            CalibrationEvent.unadjusted(EARLIER),
                            new CalibrationEvent(
                                    LEFT,
                                    List.of(
                                            new CalibrationPoint(121.05, 121.0, 0.1, 2),
                                            new CalibrationPoint(134.08, 134.0, 0.1, 2)))),
                    List.of(new FieldCheck(
                            LocalDate.of(2026, 3, 2),
                            FieldCheck.Moment.AFTER,
                            "melting ice",
                            List.of(new FieldCheck.Pair(0, 0.02)),
                            Optional.of(0.2),
                            "RT-1",
                            "Kim Sample (invented)")),
                    List.of(new Quarantine(
                            LocalDate.of(2025, 6, 1), Optional.of(LocalDate.of(2025, 6, 20)), "dropped on tiles"))));
    static final ReferenceInstrument GAUGE = new ReferenceInstrument(
            "PL-01",
            "pressure logger",
            Quantity.PRESSURE,
            Double.NEGATIVE_INFINITY,
            Double.POSITIVE_INFINITY,
            Optional.empty(),
            List.of());

    private SampleVisit() {}

    /** Every field has a value. */
    static AssessedVisit full() {
        Visit visit = new Visit(
                "R-17",
                "yearly",
                Optional.of(LocalDate.of(2026, 3, 2)),
                ZoneId.of("Australia/Sydney"),
                "Example Service",
                Optional.of(new Clinic("Example Clinic", "1 Example Street", "back room", "manager", "O-1")),
                List.of(new Sterilizer(
                        "A",
                        "example maker",
                        "model",
                        "S-1",
                        "2020",
                        Optional.of(22.0),
                        "1.0",
                        "bench",
                        "P-1",
                        OptionalInt.of(100),
                        OptionalInt.of(106),
                        List.of(CYCLE))),
                List.of(new Person("A. Example", "technician", "Example Service", "L-1", "the tests")),
                new Conditions(
                        Optional.of(101.2),
                        "barometer",
                        Optional.of(20.0),
                        Optional.of(22.5),
                        Optional.of(45.0),
                        Optional.of(231.0),
                        Optional.of(4.2)),
                Map.of("TL-07", THERMOMETER, "PL-01", GAUGE),
                List.of(new Checklist(
                        Checklist.Section.MAINTENANCE,
                        "A",
                        List.of(new CheckItem("door seal", "done", "new", "1 mm", "0 mm", "2 mm", "TL-07")))),
                List.of(loaded().run(), leak(2).run()),
                set(),
                List.of("deviation"),
                List.of("recommendation"),
                List.of("next"),
                List.of("not tested"),
                List.of(new Remark("VISIT-050", Rank.NOTE, "visit.yaml", "a remark")));
        return new AssessedVisit(
                visit,
                List.of(loaded(), leak(2)),
                List.of(new Qualification(
                        Qualification.Kind.PERFORMANCE,
                        "A",
                        "134 wrapped",
                        Qualification.Standing.FAIL,
                        List.of(1),
                        0,
                        3,
                        "The pack came late.")),
                Qualification.Standing.FAIL,
                List.of("Steriliser A may not be used for wrapped loads."),
                List.of("S-1: 134 wrapped"),
                Optional.of(LocalDate.of(2027, 3, 2)),
                List.of(OpenPoint.of(Where.of(Where.Part.INDICATORS), "biological indicators")));
    }

    /** As little as a visit can have: one run of one channel that found nothing. */
    static AssessedVisit bare() {
        CycleDefinition cycle = CycleDefinition.of("121", CycleType.N, 121);
        TimeAxis axis = TimeAxis.regular(1, 1);
        Channel channel = new Channel(
                "T1",
                ChannelRole.REFERENCE_POINT,
                Position.UNSTATED,
                Optional.empty(),
                Optional.empty(),
                axis,
                new Column("T1", Quantity.TEMPERATURE, Optional.empty(), "°C", new double[] {Double.NaN}, 0));
        Trace trace = new Trace(
                Optional.empty(),
                ZoneId.of("UTC"),
                List.of(channel),
                List.of(new Trace.SourceFile("one.csv", 9, "a".repeat(64), true)),
                List.of());
        TestRun test =
                new TestRun("1", TestKind.EMPTY_CHAMBER, cycle, trace, Map.of(), Ambient.unknown(), Optional.empty());
        CriteriaSet set = set();
        Finding finding = new Finding(
                CriterionId.RECORDING_COMPLETE,
                Use.DECIDES,
                Outcome.INVALID,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                DecisionRule.SIMPLE,
                SHORT_SOURCE,
                Evidence.NONE,
                "One sample is no recording.");
        RunVerdict verdict =
                new RunVerdict(RunVerdict.RunOutcome.INVALID, List.of(finding), "One sample is no recording.");
        RunEvaluation evaluation = new RunEvaluation(
                test,
                set,
                new CorrectedTrace(
                        trace,
                        List.of(new CorrectedChannel(
                                channel, new double[] {Double.NaN}, Optional.empty(), Optional.empty()))),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                List.of(),
                List.of(),
                Optional.empty(),
                List.of(finding),
                verdict,
                verdict,
                verdict,
                List.of());
        VisitRun run = new VisitRun(
                1, "A", OptionalInt.empty(), "", "", "", Optional.empty(), List.of(), List.of(), "", "", test);
        Visit visit = new Visit(
                "",
                "",
                Optional.empty(),
                ZoneId.of("UTC"),
                "",
                Optional.empty(),
                List.of(new Sterilizer(
                        "A",
                        "",
                        "",
                        "S-1",
                        "",
                        Optional.empty(),
                        "",
                        "",
                        "",
                        OptionalInt.empty(),
                        OptionalInt.empty(),
                        List.of())),
                List.of(),
                Conditions.UNSTATED,
                Map.of(),
                List.of(),
                List.of(run),
                set,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of());
        return new AssessedVisit(
                visit,
                List.of(new AssessedRun(run, evaluation, List.of())),
                List.of(),
                Qualification.Standing.NOT_ASSESSED,
                List.of(),
                List.of(),
                Optional.empty(),
                List.of());
    }

    static CriteriaSet set() {
        Map<CriterionId, Requirement> requirements = new EnumMap<>(CriterionId.class);
        requirements.put(
                CriterionId.EQUILIBRATION_TIME,
                new Requirement(
                        CriterionId.EQUILIBRATION_TIME,
                        Use.DECIDES,
                        Optional.of(new Limit(Comparison.AT_MOST, 15, Unit.SECONDS, SOURCE)),
                        Optional.of(new Limit(Comparison.AT_MOST, 30, Unit.SECONDS, SOURCE)),
                        DecisionRule.GUARDED,
                        SOURCE));
        requirements.put(
                CriterionId.RECORDING_COMPLETE,
                new Requirement(
                        CriterionId.RECORDING_COMPLETE,
                        Use.DECIDES,
                        Optional.empty(),
                        DecisionRule.SIMPLE,
                        SHORT_SOURCE));
        return new CriteriaSet(
                "example",
                "1",
                "0".repeat(64),
                "An invented set",
                IapwsR797.INSTANCE,
                SOURCE,
                true,
                List.of(
                        new CriteriaSet.CycleLimits(
                                134, HOLDING, Optional.of(new Limit(Comparison.AT_MOST, 3, Unit.KELVIN, SOURCE))),
                        new CriteriaSet.CycleLimits(121, HOLDING, Optional.empty())),
                requirements,
                Optional.of(12),
                3,
                "invented for tests",
                Optional.of(SOURCE),
                Optional.of(SHORT_SOURCE));
    }

    private static AssessedRun loaded() {
        TimeAxis axis = TimeAxis.ofSeconds(0, 1, 2, 3, 5.5);
        Channel temperature = new Channel(
                "T1",
                ChannelRole.REFERENCE_POINT,
                new Position("R", "in the drain"),
                Optional.of("TL-07"),
                Optional.empty(),
                axis,
                new Column(
                        "Ch 1 (°C)",
                        Quantity.TEMPERATURE,
                        Optional.empty(),
                        "°C",
                        new double[] {134.1, 134.2, 134.3, Double.NaN, 134.1},
                        0.1));
        Channel pressure = new Channel(
                "P",
                ChannelRole.PRESSURE,
                Position.UNSTATED,
                Optional.of("PL-01"),
                Optional.of(PressureReference.GAUGE),
                axis,
                new Column(
                        "P",
                        Quantity.PRESSURE,
                        Optional.of(PressureReference.GAUGE),
                        "bar",
                        new double[] {204, 204.5, 205, 205, 204},
                        0.1));
        Trace trace = new Trace(
                Optional.of(Instant.parse("2026-03-01T23:10:00Z")),
                ZoneId.of("Australia/Sydney"),
                List.of(temperature, pressure),
                List.of(
                        new Trace.SourceFile("kitchen.csv", 1234, "a".repeat(64), true),
                        new Trace.SourceFile("pressure.csv", 99, "b".repeat(64), false)),
                List.of(new Remark("INTAKE-035", Rank.DOUBT, "kitchen.csv, row 4", "a gap")));
        TestRun test = new TestRun(
                "run-1",
                TestKind.LOADED,
                CYCLE,
                trace,
                Map.of("TL-07", THERMOMETER, "PL-01", GAUGE),
                Ambient.barometer(101.2),
                Optional.empty(),
                LethalityTerms.USUAL,
                CLOCKS);
        CorrectedTrace corrected = new CorrectedTrace(
                trace,
                List.of(
                        new CorrectedChannel(
                                temperature,
                                new double[] {134.15, 134.25, 134.35, Double.NaN, 134.15},
                                Optional.of(THERMOMETER),
                                Optional.of(Budget.of(
                                        "temperature of T1 at 134 °C",
                                        "K",
                                        List.of(
                                                Contribution.expanded("certificate", 0.1, 2, "C-1"),
                                                Contribution.standard("repeatability", 0.01, 9, "10 readings"))))),
                        new CorrectedChannel(
                                pressure,
                                new double[] {305.2, 305.7, 306.2, 306.2, 305.2},
                                Optional.of(GAUGE),
                                Optional.empty())));
        Figure late = Figure.withDoubt(17, 1.0 / 3, Unit.SECONDS, "sampling");
        Limit limit = new Limit(Comparison.AT_MOST, 15, Unit.SECONDS, SOURCE);
        Finding finding = new Finding(
                CriterionId.EQUILIBRATION_TIME,
                Use.DECIDES,
                Outcome.FAIL,
                Optional.of(Judgement.of(late, limit, DecisionRule.GUARDED)),
                Optional.of(late),
                Optional.of(limit),
                DecisionRule.GUARDED,
                SOURCE,
                Evidence.at("T1", 19, 2, 240),
                "The pack came 17 s after the drain.");
        Finding start = new Finding(
                CriterionId.LEAK_START_PRESSURE,
                Use.REPORTS,
                Outcome.NOT_ASSESSED,
                Optional.empty(),
                Optional.of(Figure.exact(5, Unit.KILOPASCAL)),
                Optional.empty(),
                DecisionRule.SIMPLE,
                SHORT_SOURCE,
                Evidence.stretch(List.of("P"), 0, 5),
                "Only reported.");
        RunVerdict verdict = new RunVerdict(RunVerdict.RunOutcome.FAIL, List.of(finding), "The pack came late.");
        Plateau plateau = new Plateau(
                0,
                5.5,
                Optional.of(1.0),
                Optional.of(new Stretch(1, 5.5)),
                Optional.of(new Stretch(1, 3)),
                new Plateau.StretchEnd(Plateau.StretchEnd.Reason.GAP, "T1", 5.5),
                Optional.empty(),
                List.of(new Crossing("T1", 1, 0.7)),
                List.of("T2"),
                List.of(new Plateau.Excursion("T1", 2, 3, 133.9, 2)));
        RunEvaluation evaluation = new RunEvaluation(
                test,
                set(),
                corrected,
                Optional.of(new Phases(
                        Quantity.PRESSURE,
                        List.of(new Phase(Phase.Kind.AIR_REMOVAL, 0, 2), new Phase(Phase.Kind.PLATEAU, 2, 5)),
                        List.of(new Pulse(Quantity.PRESSURE, 12.5, 1, 180, 2)))),
                Optional.of(plateau),
                Optional.of(plateau),
                Optional.of(plateau),
                List.of(
                        new ChannelStatistics("T1", 4, 134.15, 0, 134.35, 2, 134.225, 0.125, 2),
                        new ChannelStatistics("P", 5, 305.2, 0, 306.2, 2, 305.7, 0.5, 2)),
                Optional.of(new SteamCondition(-0.4, "T1", 3, 1.2, 0.3, "T1", 4)),
                List.of(new Lethality(20.003, 19.99, 20.01, 121.1, 10, 0, 5.5, 2.5)),
                List.of("T1"),
                Optional.empty(),
                List.of(finding, start),
                verdict,
                verdict,
                verdict,
                List.of(new Hint("late pack", "air left in", "leak test")),
                List.of(new Oddity(Oddity.Kind.SPIKE, List.of("T1"), 3, 3, "T1 jumps by 9.5 K for one sample.")));
        Resistance spores = new Resistance(1.8, Optional.of(new ExpandedUncertainty(0.2, 2)), 121, 9.1);
        VisitRun run = new VisitRun(
                1,
                "A",
                OptionalInt.of(101),
                "complete",
                "as found",
                "cold",
                Optional.of(new ReferenceLoad(
                        "trays",
                        List.of(new ReferenceLoad.Item("forceps", 12, "solid", "pouch")),
                        "handpiece",
                        "front, low",
                        "pouches",
                        Optional.of(2.5),
                        "manager",
                        List.of("load.jpg"),
                        ReferenceLoad.Slowest.NOT_STATED,
                        List.of(),
                        OptionalInt.of(3),
                        List.of(1, 2, 3))),
                List.of(
                        new IndicatorUse(
                                "B1",
                                false,
                                "strip",
                                "L1",
                                Optional.of(LocalDate.of(2027, 1, 1)),
                                Optional.of(1e6),
                                "C",
                                Optional.of(false),
                                "55 °C",
                                Optional.of(spores),
                                "T1",
                                SiteMoment.find("2026-03-04 16:00"),
                                SiteMoment.find("2026-03-04 12:00"),
                                "reader"),
                        new IndicatorUse(
                                "B0",
                                true,
                                "strip",
                                "L1",
                                Optional.empty(),
                                Optional.empty(),
                                "",
                                Optional.of(true),
                                "")),
                List.of(new Weighing("pack", Weighing.Kind.POROUS, 500, 501.5)),
                "changed",
                "note",
                test,
                List.of(new ChemicalIndicator(
                        "C1",
                        ChemicalIndicator.Type.EMULATING,
                        "strip",
                        "L2",
                        Optional.of(LocalDate.of(2027, 1, 1)),
                        List.of(new ChemicalIndicator.StatedValue(134, 210)),
                        "C",
                        ChemicalIndicator.Result.REACHED)),
                Optional.empty(),
                List.of(),
                Optional.of(new AfterRun(Optional.of(true), Optional.of(true), "10 min", "reader")));
        ExpectedReduction expected =
                ExpectedReduction.of(evaluation.corrected().measuredInChamber().get(0), spores, Optional.of(1e6));
        return new AssessedRun(
                run,
                evaluation,
                List.of(finding),
                List.of(
                        new IndicatorComparison(
                                "B1", Agreement.AWAITED, Optional.of(expected), "not read", List.of("patience")),
                        new IndicatorComparison("B0", Agreement.AGREES, Optional.empty(), "grew", List.of())),
                List.of(new ChemicalComparison("C1", "T1", Agreement.END_POINT_UNEXPECTED, true, "too short")));
    }

    private static final Clocks CLOCKS = new Clocks(
            "kitchen.csv",
            List.of(new RecordingClock(
                    "pressure.csv",
                    "PL-01",
                    List.of("P"),
                    Optional.of(Instant.parse("2026-03-02T01:00:41Z")),
                    Optional.of(new ClockOffset(
                            -41,
                            -41,
                            1,
                            ClockOffset.Method.CLOCK_CHECK,
                            "Kim Sample (invented)",
                            Optional.of(Instant.parse("2026-03-02T00:10:00Z")),
                            "Both displays were read side by side.")),
                    "")));

    private static AssessedRun leak(int number) {
        AssessedRun loaded = loaded();
        TestRun test = loaded.run().test();
        TestRun leakRun = new TestRun(
                "run-2",
                TestKind.LEAK,
                CYCLE,
                test.trace(),
                test.instruments(),
                Ambient.ofAltitude(1495),
                Optional.of(new LeakPeriods(0, 1, 5)));
        RunVerdict pass = new RunVerdict(RunVerdict.RunOutcome.PASS, List.of(), "Every deciding criterion is met.");
        RunEvaluation evaluation = new RunEvaluation(
                leakRun,
                set(),
                loaded.evaluation().corrected(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                List.of(),
                List.of(),
                Optional.of(new LeakTest(0, 300, 900, 6.0, 6.2, 6.5, Optional.of(60.0), Optional.of(55.0), true)),
                List.of(),
                pass,
                pass,
                pass,
                List.of());
        VisitRun run = new VisitRun(
                number,
                "A",
                OptionalInt.empty(),
                "",
                "without sensors",
                "dry",
                Optional.empty(),
                List.of(),
                List.of(),
                "",
                "",
                leakRun);
        return new AssessedRun(run, evaluation, List.of());
    }
}
