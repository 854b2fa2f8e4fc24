package org.steamwright.report;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.indicator.BiologicalTest;
import org.steamwright.assessment.indicator.ExpectedReduction;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.indicator.Resistance;
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
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.criteriasets.Presets;
import org.steamwright.visit.AfterRun;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.CheckItem;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.OpenPoint;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.SetAside;
import org.steamwright.visit.SetChange;
import org.steamwright.visit.TakenAway;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.Visits;
import org.steamwright.visit.Weighing;
import org.steamwright.visit.Where;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.NamePlate;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** Invented visits with curves drawn by formula; nobody and nothing in them exists. */
public final class SampleVisits {

    public static final ZoneId ZONE = ZoneId.of("Australia/Adelaide");
    private static final int SAMPLES = 1560;
    private static final double AMBIENT = 100.9;

    private SampleVisits() {}

    /** What a cycle does in the pack. */
    public enum Pack {
        GOOD,
        AIR_LEFT,
        DIPS
    }

    /** A visit with a leak test, an empty-chamber run and three loaded runs of which one fails. */
    public static AssessedVisit full() {
        List<VisitRun> runs = new ArrayList<>();
        runs.add(leakRun(1));
        runs.add(run(2, TestKind.EMPTY_CHAMBER, Pack.GOOD));
        runs.add(run(3, TestKind.LOADED, Pack.GOOD));
        runs.add(run(4, TestKind.LOADED, Pack.AIR_LEFT));
        runs.add(run(5, TestKind.LOADED, Pack.DIPS));
        return assess(visit(runs));
    }

    /** A whole visit with its job sheet, really assessed: a leak as found, mended, and everything shown good again. */
    public static AssessedVisit job() {
        List<VisitRun> runs = new ArrayList<>();
        runs.add(leakRun(1, "as found", 0.004, 3912));
        runs.add(leakRun(2, "without sensors", 0.0007, 3913));
        runs.add(leakRun(3, "with sensors", 0.0011, 3914));
        runs.add(run(4, TestKind.EMPTY_CHAMBER, Pack.GOOD));
        for (int number = 5; number <= 7; number++) {
            runs.add(withoutIndicators(run(number, TestKind.LOADED, Pack.GOOD)));
        }
        runs.add(leakRun(8, "after", 0.0008, 3919));
        Visit bare = visit(runs);
        Sterilizer found = sterilizer();
        Sterilizer sterilizer = new Sterilizer(
                found.key(),
                found.maker(),
                found.model(),
                found.serial(),
                found.year(),
                found.chamberLitres(),
                found.chamberSize(),
                found.trayLevels(),
                found.firmware(),
                found.location(),
                found.pressurePapers(),
                found.counterAtArrival(),
                OptionalInt.of(3921),
                found.cycles());
        Visit visit = new Visit(
                        bare.reportNumber(),
                        bare.purpose(),
                        bare.date(),
                        bare.zone(),
                        bare.company(),
                        bare.clinic(),
                        List.of(sterilizer),
                        bare.people(),
                        bare.conditions(),
                        bare.instruments(),
                        bare.checklists(),
                        runs,
                        bare.criteriaSet(),
                        List.of(),
                        bare.recommendations(),
                        bare.nextDue(),
                        List.of(),
                        List.of())
                .withJob(SampleJob.sheet(load()));
        return Visits.assess(visit);
    }

    /** The single run twice: with a stated border beside the found one, and with one that can't stand. */
    public static AssessedVisit borders() {
        AssessedVisit single = single();
        AssessedRun run = single.runs().get(0);
        Phase found = run.evaluation().phases().orElseThrow().phases().stream()
                .filter(phase -> StatedBorder.isStatable(phase.kind()))
                .reduce((first, last) -> last)
                .orElseThrow();
        Visit bare = single.visit();
        List<VisitRun> runs = new ArrayList<>();
        for (double at : new double[] {found.toSeconds() - 1, 1e6}) {
            StatedBorder border = new StatedBorder(
                    found.kind(), StatedBorder.End.TO, at, "Kim Sample (invented)", "the printout shows it earlier");
            VisitRun plain = run.run();
            runs.add(new VisitRun(
                    runs.size() + 1,
                    plain.sterilizer(),
                    plain.machineCycle(),
                    plain.machineVerdict(),
                    plain.stage(),
                    plain.startCondition(),
                    plain.load(),
                    plain.indicators(),
                    plain.weighings(),
                    plain.chemicalIndicators(),
                    plain.note(),
                    plain.test().withStatedBorders(List.of(border))));
        }
        return assess(bare.withRuns(runs));
    }

    private static VisitRun withoutIndicators(VisitRun run) {
        return new VisitRun(
                run.number(),
                run.sterilizer(),
                run.machineCycle(),
                run.machineVerdict(),
                run.stage(),
                run.startCondition(),
                run.load(),
                List.of(),
                run.weighings(),
                run.chemicalIndicators(),
                run.note(),
                run.test());
    }

    /** One empty-chamber run without anything around it. */
    public static AssessedVisit single() {
        return assess(new Visit(
                "",
                "",
                Optional.empty(),
                ZONE,
                "",
                Optional.empty(),
                List.of(sterilizer()),
                List.of(),
                Conditions.UNSTATED,
                instruments(),
                List.of(),
                List.of(run(1, TestKind.EMPTY_CHAMBER, Pack.GOOD)),
                new Presets().get("eu-en13060"),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of()));
    }

    public static Visit visit(List<VisitRun> runs) {
        return new Visit(
                "R-2026-0117",
                "yearly requalification",
                Optional.of(LocalDate.of(2026, 11, 25)),
                ZONE,
                "Mallee Steriliser Service (invented), 4 Example Lane, Sampletown",
                Optional.of(new Clinic(
                        "Riverbend Teeth (invented)",
                        "12 Sample Street, Sampletown",
                        "sterilising room",
                        "practice manager",
                        "order 88-231")),
                List.of(sterilizer()),
                List.of(
                        new Person(
                                "A. Example",
                                "technician",
                                "Mallee Steriliser Service (invented)",
                                "authorisation MS-03",
                                "made the tests and read the instruments"),
                        new Person("B. Sample", "practice manager", "Riverbend Teeth (invented)", "", "")),
                new Conditions(
                        Optional.of(AMBIENT),
                        "barometer BA-1",
                        Optional.of(48.0),
                        Optional.of(22.5),
                        Optional.of(41.0),
                        Optional.of(238.0),
                        Optional.of(3.2)),
                instruments(),
                List.of(
                        new Checklist(
                                Checklist.Section.MAINTENANCE,
                                "A",
                                List.of(
                                        new CheckItem("Door seal", "replaced", "lot 41-7", "hard", "new", "", ""),
                                        new CheckItem("Bacteria filter", "replaced", "", "", "", "every 12 months", ""),
                                        new CheckItem("Drain strainer", "cleaned", "", "clogged", "free", "", ""))),
                        new Checklist(
                                Checklist.Section.SAFETY,
                                "A",
                                List.of(new CheckItem(
                                        "Protective earth resistance",
                                        "good",
                                        "",
                                        "0.08 Ω",
                                        "0.08 Ω",
                                        "≤ 0.2 Ω",
                                        "ET-2")))),
                runs,
                new Presets().get("eu-en13060"),
                List.of("Run 4 was stopped by nobody and ended by itself; its pack was found wet."),
                List.of("Load the front tray with fewer pouches and keep the paper side down."),
                List.of("Requalification: November 2027.", "Pressure vessel examination: March 2027."),
                List.of("Cycle 'N 121 unwrapped' was not tested: the clinic does not use it."),
                List.of(new Remark(
                        "VISIT-004", Rank.NOTE, "visit.yaml, line 31", "No photo of the load is named. Add one.")));
    }

    /** With the indicators beside the thermometry: the strip at E beside the pack's sensor, its control still awaited. */
    private static AssessedRun assessed(VisitRun run, RunEvaluation evaluation) {
        if (run.indicators().isEmpty()) {
            return new AssessedRun(run, evaluation, List.of());
        }
        BiologicalTest test = new BiologicalTest(
                run.indicators().stream()
                        .map(use -> new BiologicalTest.Indicator(
                                use.id(),
                                use.isControl(),
                                use.lot(),
                                use.expires(),
                                use.grown().isPresent()
                                        ? BiologicalTest.Reading.NO_GROWTH
                                        : BiologicalTest.Reading.AWAITED))
                        .toList(),
                LocalDate.of(2026, 11, 25));
        Optional<ExpectedReduction> expected = evaluation.corrected().measuredInChamber().stream()
                .filter(channel -> channel.name().equals("Pack"))
                .findFirst()
                .map(channel -> ExpectedReduction.of(channel, RESISTANCE, Optional.of(1.2e5)));
        return new AssessedRun(
                run,
                evaluation,
                List.of(),
                test.indicators().stream()
                        .map(one -> IndicatorComparison.of(one, test, expected, "", evaluation.steam()))
                        .toList(),
                List.of());
    }

    public static AssessedVisit assess(Visit visit) {
        List<AssessedRun> runs = visit.runs().stream()
                .map(run -> assessed(run, Assessment.evaluate(run.test(), visit.criteriaSet())))
                .toList();
        boolean good = runs.stream().allMatch(AssessedRun::isPass);
        List<Integer> loaded = runs.stream()
                .filter(run -> run.run().test().kind() == TestKind.LOADED)
                .map(run -> run.run().number())
                .toList();
        return new AssessedVisit(
                visit,
                runs,
                List.of(
                        new Qualification(
                                Qualification.Kind.LEAK,
                                "A",
                                "Vacuum test",
                                good ? Qualification.Standing.PASS : Qualification.Standing.INCOMPLETE,
                                List.of(1),
                                1,
                                1,
                                "The leak test of run 1 stands for the steriliser as found."),
                        new Qualification(
                                Qualification.Kind.PERFORMANCE,
                                "A",
                                "B 134 wrapped",
                                good ? Qualification.Standing.PASS : Qualification.Standing.FAIL,
                                loaded,
                                good ? 3 : 0,
                                3,
                                good ? "Three passing runs in a row." : "Three passing runs in a row are needed.")),
                good ? Qualification.Standing.PASS : Qualification.Standing.FAIL,
                List.of(
                        good
                                ? "Steriliser SN-48213 met every criterion that was asked."
                                : "Steriliser SN-48213 did not pass with the reference load.",
                        "The runs that did not pass are explained on their own pages. Load of the runs concerned stays "
                                + "quarantined until the clinic has decided about it."),
                good ? List.of("SN-48213: B 134 wrapped") : List.of(),
                good ? Optional.of(LocalDate.of(2027, 11, 25)) : Optional.empty(),
                good
                        ? List.of()
                        : List.of(OpenPoint.of(
                                Where.of(Where.Part.RUNS), "Find and mend the cause, then repeat three loaded runs.")));
    }

    static Sterilizer sterilizer() {
        return new Sterilizer(
                "A",
                "Example Works",
                "Bench 23",
                "SN-48213",
                "2021",
                Optional.of(23.0),
                ChamberSize.find("250 x 450 mm"),
                OptionalInt.of(3),
                "4.2",
                "sterilising room, left bench",
                "examined March 2025, next March 2027",
                OptionalInt.of(3911),
                OptionalInt.of(3917),
                List.of(cycle()));
    }

    public static CycleDefinition cycle() {
        return new CycleDefinition(
                "B 134 wrapped",
                CycleType.B,
                Temperature.ofCelsius(134),
                Optional.of(Duration.ofSeconds(210)),
                OptionalInt.of(3),
                Optional.of(20.0),
                Optional.of(Duration.ofMinutes(8)));
    }

    private static CertificateFile certificateFile(String instrument) {
        return new CertificateFile(
                instrument + ".xml",
                "0123456789abcdef".repeat(4),
                "3.1.1",
                "Data logger (Equipment no. " + instrument + ")",
                CertificateFile.State.AS_LEFT,
                CertificateFile.Signature.NOT_SIGNED,
                "The file carries no signature. Nothing shows that it is still as the laboratory wrote it.",
                List.of(new CalibrationPoint(134.00, 134.60, 0.06, 2)));
    }

    static Map<String, ReferenceInstrument> instruments() {
        Map<String, ReferenceInstrument> all = new TreeMap<>();
        for (int i = 1; i <= 5; i++) {
            String id = "TL-0" + i;
            all.put(
                    id,
                    new ReferenceInstrument(
                            id,
                            "temperature logger, Pt1000",
                            Quantity.TEMPERATURE,
                            -40,
                            150,
                            Optional.of(new CalibrationCertificate(
                                    "C-26-10" + i,
                                    "Example Calibration (invented)",
                                    LocalDate.of(2026, 3, 2),
                                    LocalDate.of(2027, 3, 1),
                                    List.of(
                                            new CalibrationPoint(20.00, 19.98 + 0.01 * i, 0.06, 2),
                                            new CalibrationPoint(121.00, 121.03 - 0.01 * i, 0.06, 2),
                                            new CalibrationPoint(134.00, 134.05 - 0.01 * i, 0.06, 2),
                                            new CalibrationPoint(140.00, 140.04 - 0.01 * i, 0.06, 2)),
                                    i == 1 ? Optional.of(certificateFile(id)) : Optional.empty())),
                            List.of(Contribution.rectangular("drift since calibration", 0.05, "two certificates"))));
        }
        all.put(
                "PL-1",
                new ReferenceInstrument(
                        "PL-1",
                        "pressure logger",
                        Quantity.PRESSURE,
                        0,
                        500,
                        Optional.of(new CalibrationCertificate(
                                "C-26-201",
                                "Example Calibration (invented)",
                                LocalDate.of(2026, 3, 2),
                                LocalDate.of(2027, 3, 1),
                                List.of(
                                        new CalibrationPoint(1, 1.0, 0.2, 2),
                                        new CalibrationPoint(100, 100.1, 0.25, 2),
                                        new CalibrationPoint(320, 320.2, 0.4, 2)))),
                        List.of()));
        return all;
    }

    public static VisitRun run(int number, TestKind kind, Pack pack) {
        boolean loaded = kind == TestKind.LOADED;
        Trace trace = trace(number, loaded, pack);
        return new VisitRun(
                number,
                "A",
                OptionalInt.of(3911 + number),
                "cycle complete",
                "",
                number == 3 ? "cold" : "warm",
                loaded ? Optional.of(load()) : Optional.empty(),
                loaded ? indicators() : List.of(),
                loaded
                        ? List.of(
                                new Weighing("tray of instruments", Weighing.Kind.SOLID, 1812.4, 1814.1),
                                new Weighing("textile pack", Weighing.Kind.POROUS, 612.0, 617.5))
                        : List.of(),
                loaded ? "One class 5 indicator in the challenge pack: accepted." : "",
                "",
                new TestRun(
                        "run-" + number,
                        kind,
                        cycle(),
                        trace,
                        instruments(),
                        Ambient.barometer(AMBIENT),
                        Optional.empty()),
                List.of(),
                Optional.empty(),
                List.of(),
                loaded
                        ? Optional.of(new AfterRun(Optional.of(true), Optional.of(false), "12 min", "A. Sample"))
                        : Optional.empty());
    }

    private static ReferenceLoad load() {
        return new ReferenceLoad(
                "Five trays, the fullest that the clinic runs",
                List.of(
                        new ReferenceLoad.Item("hand instruments in pouches", 24, "solid", "single pouch"),
                        new ReferenceLoad.Item("hollow handpieces", 4, "hollow B", "single pouch"),
                        new ReferenceLoad.Item("textile pack", 1, "porous", "double wrap")),
                "textile pack with the sensor in its middle, double wrap",
                "front, lowest tray: slowest in the empty-chamber run",
                "paper and film pouches",
                Optional.of(4.2),
                "B. Sample, practice manager",
                List.of(),
                ReferenceLoad.Slowest.NOT_STATED,
                List.of(),
                OptionalInt.of(7),
                List.of(1, 2, 4));
    }

    private static final Resistance RESISTANCE =
            new Resistance(1.8, Optional.of(new ExpandedUncertainty(0.2, 2)), 121, 9.1);

    private static List<IndicatorUse> indicators() {
        return List.of(
                new IndicatorUse(
                        "BI-1",
                        false,
                        "spore strip",
                        "L-5521",
                        Optional.of(LocalDate.of(2027, 6, 30)),
                        Optional.of(1.2e5),
                        "E",
                        Optional.of(false),
                        "48 h at 57 °C",
                        Optional.of(RESISTANCE),
                        "",
                        Optional.empty(),
                        Optional.empty(),
                        ""),
                new IndicatorUse(
                        "BI-C",
                        true,
                        "spore strip",
                        "L-5521",
                        Optional.of(LocalDate.of(2027, 6, 30)),
                        Optional.of(1.2e5),
                        "",
                        Optional.empty(),
                        "started 25 November 2026"));
    }

    private static Trace trace(int number, boolean loaded, Pack pack) {
        TimeAxis axis = TimeAxis.regular(SAMPLES, 1);
        Random noise = new Random(number);
        double[] pressure = pressure();
        List<Channel> channels = new ArrayList<>();
        channels.add(
                temperature("Drain", ChannelRole.REFERENCE_POINT, "A", "TL-01", axis, steam(pressure, 4, 0, noise)));
        channels.add(
                temperature("Front", ChannelRole.FREE_CHAMBER, "B", "TL-02", axis, steam(pressure, 6, -0.08, noise)));
        channels.add(
                temperature("Rear", ChannelRole.FREE_CHAMBER, "C", "TL-03", axis, steam(pressure, 5, 0.12, noise)));
        channels.add(temperature(
                loaded ? "Tray 2" : "Middle",
                loaded ? ChannelRole.LOAD : ChannelRole.FREE_CHAMBER,
                "D",
                "TL-04",
                axis,
                steam(pressure, 9, 0.02, noise)));
        if (loaded) {
            double[] inside = steam(pressure, 12, -0.05, noise);
            for (int i = 0; i < SAMPLES; i++) {
                if (pack == Pack.AIR_LEFT && i > 560 && i < 905) {
                    inside[i] -= 2.4 * Math.exp(-(i - 560) / 260.0);
                }
                if (pack == Pack.DIPS && i > 760 && i < 775) {
                    inside[i] -= 1.3;
                }
            }
            channels.add(temperature("Pack", ChannelRole.CHALLENGE_PACK, "E", "TL-05", axis, inside));
        }
        channels.add(new Channel(
                "Chamber pressure",
                ChannelRole.PRESSURE,
                new Position("P", "port"),
                Optional.of("PL-1"),
                Optional.of(PressureReference.ABSOLUTE),
                axis,
                new Column(
                        "p",
                        Quantity.PRESSURE,
                        Optional.of(PressureReference.ABSOLUTE),
                        "kPa",
                        rounded(pressure, 0.1),
                        0.1)));
        return new Trace(
                Optional.of(Instant.parse("2026-11-24T23:10:00Z").plusSeconds(3600L * number)),
                ZONE,
                channels,
                List.of(new Trace.SourceFile(
                        "run-%d-loggers.csv".formatted(number), 81_244 + number, hash(number), true)),
                List.of());
    }

    /** Three pulses, heating, four minutes at 313 kPa, exhaust, drying, air. */
    private static double[] pressure() {
        double[] p = new double[SAMPLES];
        double[][] corners = {
            {0, AMBIENT}, {40, AMBIENT}, {110, 14}, {150, 150}, {210, 15}, {250, 150}, {310, 14}, {350, 150},
            {560, 308}, {575, 312.5}, {900, 312.5}, {980, 90}, {1060, 9}, {1480, 7}, {1520, AMBIENT}, {1560, AMBIENT}
        };
        for (int i = 0; i < SAMPLES; i++) {
            int k = 1;
            while (corners[k][0] < i) {
                k++;
            }
            double share = (i - corners[k - 1][0]) / (corners[k][0] - corners[k - 1][0]);
            p[i] = corners[k - 1][1] + share * (corners[k][1] - corners[k - 1][1]);
            if (i > 575 && i < 900) {
                p[i] += 0.9 * Math.sin(i / 9.0);
            }
        }
        return p;
    }

    private static double[] steam(double[] pressure, double lag, double offset, Random noise) {
        double[] t = new double[SAMPLES];
        double now = 24;
        for (int i = 0; i < SAMPLES; i++) {
            double target = Math.max(24 + i / 40.0, IapwsR797.INSTANCE.celsiusAt(pressure[i]));
            now += (target - now) / lag;
            t[i] = now + offset + 0.02 * noise.nextGaussian();
        }
        return t;
    }

    private static Channel temperature(
            String name, ChannelRole role, String letter, String instrument, TimeAxis axis, double[] values) {
        return new Channel(
                name,
                role,
                new Position(letter, ""),
                Optional.of(instrument),
                Optional.empty(),
                axis,
                new Column(name, Quantity.TEMPERATURE, Optional.empty(), "°C", rounded(values, 0.01), 0.01));
    }

    private static double[] rounded(double[] values, double step) {
        double[] r = new double[values.length];
        for (int i = 0; i < r.length; i++) {
            r[i] = Math.rint(values[i] / step) * step;
        }
        return r;
    }

    private static String hash(int number) {
        return ("%02x".formatted(number * 37 % 256)).repeat(32);
    }

    private static VisitRun leakRun(int number) {
        return leakRun(number, "without sensors", 0.0007, 3911);
    }

    private static VisitRun leakRun(int number, String stage, double kilopascalPerSecond, int machineCycle) {
        TimeAxis axis = TimeAxis.regular(1200, 1);
        double[] p = new double[1200];
        for (int i = 0; i < p.length; i++) {
            p[i] = i < 60
                    ? AMBIENT
                    : i < 240
                            ? AMBIENT + (4.2 - AMBIENT) * (i - 60) / 180.0
                            : i < 1150
                                    ? 4.2 + 0.35 * (1 - Math.exp(-(i - 240) / 60.0)) + kilopascalPerSecond * (i - 240)
                                    : AMBIENT;
        }
        Channel channel = new Channel(
                "Chamber pressure",
                ChannelRole.PRESSURE,
                Position.UNSTATED,
                Optional.of("PL-1"),
                Optional.of(PressureReference.ABSOLUTE),
                axis,
                new Column(
                        "p",
                        Quantity.PRESSURE,
                        Optional.of(PressureReference.ABSOLUTE),
                        "kPa",
                        rounded(p, 0.01),
                        0.01));
        Trace trace = new Trace(
                Optional.of(Instant.parse("2026-11-24T22:40:00Z")),
                ZONE,
                List.of(channel),
                List.of(new Trace.SourceFile("run-%s-leak.csv".formatted(number), 30_114, hash(number), true)),
                List.of());
        return new VisitRun(
                number,
                "A",
                OptionalInt.of(machineCycle),
                "leak test good",
                stage,
                "dry, cool",
                Optional.empty(),
                List.of(),
                List.of(),
                "",
                "",
                new TestRun(
                        "run-" + number,
                        TestKind.LEAK,
                        CycleDefinition.of("Vacuum test", CycleType.B, 134),
                        trace,
                        instruments(),
                        Ambient.barometer(AMBIENT),
                        Optional.empty()));
    }

    /** The first run and steriliser of a visit with everything that takes a reason: plate, run set aside, another set. */
    public static AssessedVisit reasoned(AssessedVisit visit) {
        Visit facts = visit.visit();
        Sterilizer first = facts.sterilizers().get(0);
        Sterilizer read = new Sterilizer(
                first.key(),
                first.maker(),
                first.model(),
                first.serial(),
                first.year(),
                first.chamberLitres(),
                first.chamberSize(),
                first.trayLevels(),
                first.firmware(),
                first.location(),
                first.pressurePapers(),
                first.counterAtArrival(),
                first.counterAtDeparture(),
                first.cycles(),
                Optional.of(new NamePlate(
                        "EX-9999",
                        "Kim Sample (invented)",
                        List.of(new NamePlate.Photo("photos/plate-A-1.jpg", "0123456789abcdef".repeat(4))))));
        AssessedRun one = visit.runs().get(0);
        VisitRun run = one.run();
        VisitRun aside = new VisitRun(
                run.number(),
                run.sterilizer(),
                run.machineCycle(),
                run.machineVerdict(),
                run.stage(),
                run.startCondition(),
                run.load(),
                run.indicators(),
                run.weighings(),
                run.chemicalIndicators(),
                run.note(),
                run.test(),
                run.chemicalEntries(),
                Optional.of(new SetAside("the door was opened too early", "Kim Sample (invented)")),
                List.of(new TakenAway(
                        "other.csv", "9f86d081", "recording of the other steriliser", "Kim Sample (invented)")));
        return new AssessedVisit(
                new Visit(
                        facts.reportNumber(),
                        facts.purpose(),
                        facts.date(),
                        facts.zone(),
                        facts.company(),
                        facts.clinic(),
                        List.of(read),
                        facts.people(),
                        facts.conditions(),
                        facts.instruments(),
                        List.of(),
                        List.of(aside),
                        facts.criteriaSet(),
                        facts.deviations(),
                        facts.recommendations(),
                        facts.nextDue(),
                        facts.notTested(),
                        facts.remarks(),
                        JobSheet.NONE,
                        List.of(new SetChange(
                                "au-as5369", "us-cdc", "the clinic works by other rules", "Kim Sample (invented)")),
                        List.of()),
                List.of(new AssessedRun(aside, one.evaluation(), one.loadFindings())),
                List.of(),
                visit.standing(),
                visit.summary(),
                List.of(),
                Optional.empty(),
                List.of());
    }
}
