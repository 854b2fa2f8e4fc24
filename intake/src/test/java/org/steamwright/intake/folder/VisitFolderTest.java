package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;
import static org.steamwright.intake.folder.VisitFixture.stamped;
import static org.steamwright.intake.folder.VisitFixture.tenLines;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Correlation;
import org.steamwright.assessment.uncertainty.Distribution;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.LeakPeriods;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.profile.ReadingProfiles;
import org.steamwright.visit.AfterRun;
import org.steamwright.visit.CheckItem;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.SetAside;
import org.steamwright.visit.SetChange;
import org.steamwright.visit.SiteMoment;
import org.steamwright.visit.TakenAway;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.Weighing;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.NamePlate;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

class VisitFolderTest {

    @TempDir
    Path folder;

    @Test
    void reads_one_run_from_ten_lines() throws Exception {
        String example = Examples.get("ten-lines");
        assertThat(example.lines()).hasSizeLessThanOrEqualTo(10);
        assertThat(example).isEqualTo(VisitFixture.TEN_LINES);
        Visit visit = tenLines(folder).read();
        assertThat(visit.runs()).hasSize(1);
        VisitRun run = visit.runs().get(0);
        assertThat(run.sterilizer()).isEqualTo("A");
        assertThat(run.test().kind()).isEqualTo(TestKind.EMPTY_CHAMBER);
        assertThat(run.test().cycle()).isEqualTo(CycleDefinition.of("134 wrapped", CycleType.B, 134));
        assertThat(run.test().ambient()).isEqualTo(Ambient.unknown());
        assertThat(run.test().trace().start()).contains(Instant.parse("2026-03-01T22:30:00Z"));
        assertThat(run.test().trace().channels())
                .extracting(Channel::name, Channel::role, Channel::reference)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("T1", ChannelRole.REFERENCE_POINT, Optional.empty()),
                        org.assertj.core.groups.Tuple.tuple("T2", ChannelRole.FREE_CHAMBER, Optional.empty()),
                        org.assertj.core.groups.Tuple.tuple(
                                "P", ChannelRole.PRESSURE, Optional.of(PressureReference.ABSOLUTE)));
        assertThat(visit.criteriaSet().name()).isEqualTo("au-as5369");
        assertThat(visit.clinic()).isEmpty();
        assertThat(visit.date()).isEmpty();
    }

    @Test
    void takes_the_folder_or_its_file() throws Exception {
        tenLines(folder);
        assertThat(VisitFolder.read(folder.resolve("visit.yaml"), VisitFixture.SETS)
                        .runs())
                .hasSize(1);
    }

    @Test
    void writes_nothing() throws Exception {
        Examples.full(folder);
        List<String> before = listing();
        VisitFolder.read(folder, VisitFixture.SETS);
        assertThat(listing()).isEqualTo(before);
    }

    private List<String> listing() throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.sorted()
                    .map(file -> file + " " + file.toFile().length() + " "
                            + file.toFile().lastModified())
                    .toList();
        }
    }

    @Test
    void reads_every_field_of_the_full_example() throws Exception {
        Visit visit = Examples.full(folder).read();

        assertThat(visit.reportNumber()).isEqualTo("R-2026-0042");
        assertThat(visit.purpose()).isEqualTo("yearly");
        assertThat(visit.date()).contains(LocalDate.of(2026, 3, 2));
        assertThat(visit.zone()).isEqualTo(ZoneId.of("Australia/Adelaide"));
        assertThat(visit.company()).isEqualTo("Example Service Co (invented), 1 Sample Street, Sampleton");
        assertThat(visit.clinic())
                .contains(new Clinic(
                        "Riverside Dental Care (invented)",
                        "2 Example Road, Sampleton",
                        "sterilising room",
                        "practice manager",
                        "C-118"));
        assertThat(visit.people())
                .containsExactly(
                        new Person(
                                "Kim Sample (invented)",
                                "technician",
                                "Example Service Co (invented)",
                                "T-31",
                                "measured and assessed"),
                        new Person("Lee Placeholder (invented)", "practice manager", "", "", ""));
        assertThat(visit.conditions())
                .isEqualTo(new Conditions(
                        Optional.of(101.2),
                        "BA-2",
                        Optional.of(45.0),
                        Optional.of(22.5),
                        Optional.of(45.0),
                        Optional.of(231.0),
                        Optional.of(12.0)));
        CycleDefinition wrapped = new CycleDefinition(
                "134 wrapped",
                CycleType.B,
                Temperature.ofCelsius(134),
                Optional.of(Duration.ofSeconds(210)),
                OptionalInt.of(3),
                Optional.of(15.0),
                Optional.of(Duration.ofMinutes(10)));
        assertThat(visit.sterilizers())
                .containsExactly(
                        new Sterilizer(
                                "A",
                                "Example Works (invented)",
                                "Bench 17 (invented)",
                                "SN-0417",
                                "2019",
                                Optional.of(17.0),
                                ChamberSize.find("250 x 350 mm"),
                                OptionalInt.of(3),
                                "3.02",
                                "bench by the window",
                                "PV-88, next 2026-11",
                                OptionalInt.of(4711),
                                OptionalInt.of(4718),
                                List.of(wrapped, CycleDefinition.of("121 wrapped", CycleType.B, 121)),
                                visit.sterilizers().get(0).plate()),
                        new Sterilizer(
                                "B",
                                "",
                                "",
                                "SN-0902",
                                "",
                                Optional.empty(),
                                "",
                                "",
                                "",
                                OptionalInt.empty(),
                                OptionalInt.empty(),
                                List.of(CycleDefinition.of("134 open", CycleType.N, 134))));
        NamePlate plate = visit.sterilizers().get(0).plate().orElseThrow();
        assertThat(plate.serial()).isEqualTo("SN-0417");
        assertThat(plate.readBy()).isEqualTo("Kim Sample (invented)");
        assertThat(plate.photos()).extracting(NamePlate.Photo::name).containsExactly("load.jpg");
        assertThat(plate.photos().get(0).sha256()).hasSize(64);
        assertThat(visit.setChanges())
                .containsExactly(new SetChange("us-cdc", "au-as5369", "chosen by mistake", "Kim Sample (invented)"));
        assertThat(visit.runs().get(1).setAside())
                .contains(new SetAside("the door was opened too early", "Kim Sample (invented)"));
        assertThat(visit.runs().get(1).takenAway())
                .containsExactly(new TakenAway(
                        "other.csv", "9f86d081", "recording of the other steriliser", "Kim Sample (invented)"));
        String stated = "stated for TL-07 in the visit file";
        ReferenceInstrument logger = new ReferenceInstrument(
                "TL-07",
                "wireless logger, Pt1000",
                Quantity.TEMPERATURE,
                0,
                150,
                Optional.of(new CalibrationCertificate(
                        "K-2026-0118",
                        "Example Calibration (invented)",
                        LocalDate.of(2026, 2, 10),
                        LocalDate.of(2027, 2, 10),
                        List.of(
                                new CalibrationPoint(20, 20.02, 0.06, 2),
                                new CalibrationPoint(121, 121.07, 0.06, 2),
                                new CalibrationPoint(134, 134.08, 0.08, 2.1)))),
                List.of(
                        Contribution.rectangular("drift", 0.05, stated),
                        Contribution.rectangular("immersion", 0.02, stated),
                        Contribution.standard("repeatability", 0.01, 9, "ten readings, 2026-02-27"),
                        Contribution.expanded("comparison", 0.04, 2, stated)));
        ReferenceInstrument gauge = new ReferenceInstrument(
                "PL-02",
                "pressure logger",
                Quantity.PRESSURE,
                0,
                500,
                Optional.empty(),
                List.of(Contribution.rectangular("drift", 0.5, "stated for PL-02 in the visit file")));
        assertThat(visit.instruments()).containsOnlyKeys("TL-07", "TL-08", "TL-09", "TL-10", "PL-02", "TL-11", "PL-11");
        assertThat(visit.instruments()).containsEntry("TL-07", logger).containsEntry("PL-02", gauge);
        CalibrationCertificate digital =
                visit.instruments().get("TL-08").certificate().orElseThrow();
        assertThat(digital.number()).isEqualTo("K-2026-0118");
        assertThat(digital.dueOn()).isEqualTo(LocalDate.of(2027, 2, 10));
        assertThat(digital.points())
                .containsExactly(
                        new CalibrationPoint(121, 121.07, 0.06, 2), new CalibrationPoint(134, 134.08, 0.06, 2));
        assertThat(digital.file().orElseThrow().name()).isEqualTo("TL-08.xml");
        history(visit.instruments().get("TL-10"));
        assertThat(visit.instruments().get("PL-11").history().checks())
                .extracting(FieldCheck::moment, FieldCheck::against, FieldCheck::pairs)
                .containsExactly(
                        tuple(FieldCheck.Moment.BEFORE, "", List.of(new FieldCheck.Pair(101.2, 101.3))),
                        tuple(FieldCheck.Moment.AFTER, "BA-2", List.of(new FieldCheck.Pair(101.1, 101.4))));
        assertThat(visit.instruments().get("TL-11").contributions())
                .extracting(Contribution::origin)
                .containsExactly("stated for TL-11 in the register instruments.yaml");
        assertThat(visit.checklists())
                .containsExactly(
                        new Checklist(
                                Checklist.Section.AS_FOUND,
                                "A",
                                List.of(new CheckItem(
                                        "Air leakage",
                                        "failed",
                                        "too high, door seal worn",
                                        "1.9 kPa in 10 min",
                                        "0.4 kPa in 10 min",
                                        "1.3 kPa in 10 min, instructions for use",
                                        "PL-02"))),
                        new Checklist(
                                Checklist.Section.MAINTENANCE,
                                "A",
                                List.of(new CheckItem("Door seal", "done", "replaced, lot 55", "", "", "", ""))));
        assertThat(visit.criteriaSet().name()).isEqualTo("au-as5369");
        assertThat(visit.deviations()).containsExactly("run 2 was repeated after a power cut");
        assertThat(visit.recommendations()).containsExactly("replace the door seal at the next service");
        assertThat(visit.nextDue()).containsExactly("validation: 2027-03");
        assertThat(visit.notTested()).containsExactly("steriliser B: out of use");
        assertThat(visit.remarks()).isEmpty();
        assertThat(visit.isSimulated()).isTrue();

        assertThat(visit.runs()).hasSize(3);
        leak(visit.runs().get(0), gauge);
        empty(visit.runs().get(1), logger);
        load(visit.runs().get(2), wrapped);
    }

    private static void history(ReferenceInstrument logger) {
        InstrumentHistory history = logger.history();
        assertThat(history.calibrations()).hasSize(2);
        CalibrationEvent old = history.calibrations().get(0);
        CalibrationEvent recent = history.calibrations().get(1);
        assertThat(old.isAdjusted()).isFalse();
        assertThat(recent.certificate().number()).isEqualTo("K-2026-0119");
        assertThat(recent.asFound())
                .containsExactly(
                        new CalibrationPoint(121, 121.06, 0.06, 2), new CalibrationPoint(134, 134.09, 0.06, 2));
        assertThat(logger.certificate()).contains(recent.certificate());
        assertThat(history.drifts().get(0).largest().change()).isEqualTo(0.06, within(1e-3));
        assertThat(history.checks())
                .containsExactly(new FieldCheck(
                        LocalDate.of(2026, 3, 2),
                        FieldCheck.Moment.BEFORE,
                        "melting ice",
                        List.of(new FieldCheck.Pair(0, 0.02)),
                        0.2));
        assertThat(history.quarantines())
                .containsExactly(new Quarantine(
                        LocalDate.of(2025, 6, 1), Optional.of(LocalDate.of(2025, 6, 20)), "dropped on tiles"));
        Contribution noise = logger.contributions().get(0);
        assertThat(noise.isPerReading()).isTrue();
        assertThat(noise.correlation()).isEqualTo(Correlation.NONE);
        Contribution shared = logger.contributions().get(1);
        assertThat(shared.isPerReading()).isFalse();
        assertThat(shared.correlation()).isEqualTo(new Correlation("RT-1", 0.9));
    }

    private static void leak(VisitRun run, ReferenceInstrument gauge) {
        assertThat(run.number()).isEqualTo(1);
        assertThat(run.sterilizer()).isEqualTo("A");
        assertThat(run.machineCycle()).hasValue(4712);
        assertThat(run.machineVerdict()).isEqualTo("passed");
        assertThat(run.stage()).isEqualTo("with sensors");
        assertThat(run.startCondition()).isEqualTo("cold and dry");
        assertThat(run.test().id()).isEqualTo("run-1");
        assertThat(run.test().kind()).isEqualTo(TestKind.LEAK);
        assertThat(run.test().cycle().name()).isEqualTo("vacuum test");
        assertThat(run.test().ambient()).isEqualTo(Ambient.barometer(101.1));
        assertThat(run.test().leakPeriods()).contains(new LeakPeriods(2, 7, 17));
        assertThat(run.test().instruments()).isEqualTo(Map.of("PL-02", gauge));
        assertThat(run.test().trace().start()).contains(Instant.parse("2026-03-01T22:44:05Z"));
        assertThat(run.test().trace().zone()).isEqualTo(ZoneId.of("Australia/Adelaide"));
        Channel pressure = run.test().trace().channels().get(0);
        assertThat(pressure.role()).isEqualTo(ChannelRole.PRESSURE);
        assertThat(pressure.reference()).contains(PressureReference.ABSOLUTE);
        assertThat(pressure.instrument()).contains("PL-02");
        assertThat(pressure.column().at(1)).isEqualTo(5.01, within(1e-9));
    }

    private static void empty(VisitRun run, ReferenceInstrument logger) {
        assertThat(run.sterilizer()).isEqualTo("A");
        assertThat(run.test().cycle().name()).isEqualTo("121 wrapped");
        assertThat(run.test().kind()).isEqualTo(TestKind.EMPTY_CHAMBER);
        assertThat(run.test().ambient().basis()).isEqualTo(Ambient.Basis.BAROMETER);
        assertThat(run.test().ambient().pressure().kilopascal()).isEqualTo(101.2);
        assertThat(run.test().ambient().note()).isEqualTo("BA-2");
        assertThat(run.test().instruments()).isEqualTo(Map.of("TL-07", logger));
        assertThat(run.test().leakPeriods()).isEmpty();
        assertThat(run.test().trace().start())
                .as("moved by the clock check of TL-07: two seconds ahead")
                .contains(Instant.parse("2026-03-01T23:29:58Z"));
        Channel reference = run.test().trace().channels().get(0);
        assertThat(reference.position()).isEqualTo(new Position("A", "beside the drain"));
        assertThat(reference.column().at(0)).isEqualTo(121.5);
        assertThat(run.test().trace().find(ChannelRole.PRESSURE).orElseThrow().reference())
                .contains(PressureReference.ABSOLUTE);
    }

    private static void load(VisitRun run, CycleDefinition wrapped) {
        assertThat(run.test().kind()).isEqualTo(TestKind.LOADED);
        assertThat(run.test().cycle()).isEqualTo(wrapped);
        assertThat(run.load())
                .contains(new ReferenceLoad(
                        "five cassettes, the largest load in use",
                        List.of(
                                new ReferenceLoad.Item(
                                        "cassette with instruments",
                                        5,
                                        "solid",
                                        "wrapped twice",
                                        Optional.of(0.56),
                                        "upper"),
                                new ReferenceLoad.Item("hollow item", 1, "hollow A", "")),
                        "hollow item in double pouch",
                        "bottom rear, farthest from the inlet",
                        "pouches and wraps",
                        Optional.of(3.2),
                        "practice manager",
                        List.of("load.jpg"),
                        ReferenceLoad.Slowest.MEASURED,
                        List.of(new ReferenceLoad.PhotoFile(
                                "load.jpg", 18, "8edd7daf0eb75502845657a637ad9e62b78a8dcdb67a1c6861fb7c91752d519a")),
                        OptionalInt.of(3),
                        List.of(1, 2, 3)));
        assertThat(run.indicators())
                .containsExactly(
                        new IndicatorUse(
                                "BI-1",
                                false,
                                "spore strip",
                                "L-226",
                                Optional.of(LocalDate.of(2026, 12, 31)),
                                Optional.of(1.2e6),
                                "C",
                                Optional.of(false),
                                "2026-03-02 16:00 to 2026-03-04 16:00, 56 °C",
                                Optional.of(
                                        new Resistance(1.8, Optional.of(new ExpandedUncertainty(0.2, 2)), 121, 9.1)),
                                "T-pack",
                                SiteMoment.find("2026-03-04 16:00"),
                                SiteMoment.find("2026-03-04 16:05"),
                                "K. Sample (invented)"),
                        new IndicatorUse(
                                "BI-2", true, "", "", Optional.empty(), Optional.empty(), "", Optional.empty(), ""));
        assertThat(run.weighings()).containsExactly(new Weighing("pack 1", Weighing.Kind.POROUS, 512.3, 513.0));
        assertThat(run.after())
                .contains(new AfterRun(Optional.of(true), Optional.of(true), "10 min", "K. Sample (invented)"));
        assertThat(run.chemicalIndicators()).isEmpty();
        assertThat(run.chemicalEntries())
                .containsExactly(new ChemicalIndicator(
                        "CI-1",
                        ChemicalIndicator.Type.EMULATING,
                        "emulating strip",
                        "L-907",
                        Optional.of(LocalDate.of(2027, 3, 31)),
                        List.of(new ChemicalIndicator.StatedValue(134, 210)),
                        "C",
                        ChemicalIndicator.Result.REACHED));
        assertThat(run.note()).isEqualTo("second attempt");
        Trace trace = run.test().trace();
        assertThat(trace.start()).contains(Instant.parse("2026-03-02T00:30:00Z"));
        assertThat(trace.files()).extracting(Trace.SourceFile::name).containsExactly("load-1.csv", "load-2.csv");
        assertThat(trace.files()).extracting(Trace.SourceFile::isSimulated).containsExactly(false, true);
        Channel pack = trace.find(ChannelRole.CHALLENGE_PACK).orElseThrow();
        assertThat(pack.name()).isEqualTo("T-pack");
        assertThat(pack.position()).isEqualTo(new Position("C", "in the lumen"));
        assertThat(pack.axis().first()).isEqualTo(2.0);
        assertThat(trace.find(ChannelRole.REFERENCE_POINT).orElseThrow().axis().first())
                .isEqualTo(0.0);
        assertThat(trace.remarks()).extracting(Remark::id).doesNotContain("VISIT-051");
        assertThat(run.test().clocks().halfWidthBetween("T1", "T-pack")).isEqualTo(1.0);
        assertThat(trace.remarks())
                .contains(
                        new Remark(
                                "VISIT-050",
                                Rank.NOTE,
                                "load-2.csv",
                                "These columns have no role and were left out: T2. Name them under channels if they belong to the test."));
    }

    @Test
    void puts_the_earliest_recording_at_zero_whatever_the_order() throws Exception {
        Trace trace = tenLines(folder)
                .file("late.csv", stamped("2026-03-02", 10, "T5 [°C]", 134.0))
                .replace("recording: run-1.csv", "recording: [late.csv, run-1.csv]")
                .replace("P: pressure", "P: pressure, T5: load")
                .read()
                .runs()
                .get(0)
                .test()
                .trace();
        assertThat(trace.start()).contains(Instant.parse("2026-03-01T22:30:00Z"));
        assertThat(trace.find(ChannelRole.LOAD).orElseThrow().axis().first()).isEqualTo(3600.0);
        assertThat(trace.find(ChannelRole.PRESSURE).orElseThrow().axis().first())
                .isEqualTo(0.0);
    }

    @Test
    void keeps_elapsed_time_without_a_start_when_it_is_alone() throws Exception {
        Trace trace = tenLines(folder)
                .file("run-1.csv", VisitFixture.elapsed("T1 [°C],T2 [°C],P [kPa abs]", 134, 134, 310))
                .read()
                .runs()
                .get(0)
                .test()
                .trace();
        assertThat(trace.start()).isEmpty();
        assertThat(trace.channels()).hasSize(3);
    }

    @Test
    void takes_obvious_roles_and_says_so() throws Exception {
        Trace trace = tenLines(folder)
                .file("run-1.csv", stamped("2026-03-02", 9, "Probe [°C],P [kPa abs]", 134, 310))
                .replace("    channels: {T1: reference-point, T2: free-chamber, P: pressure}\n", "")
                .read()
                .runs()
                .get(0)
                .test()
                .trace();
        assertThat(trace.channels())
                .extracting(Channel::role)
                .containsExactlyInAnyOrder(ChannelRole.REFERENCE_POINT, ChannelRole.PRESSURE);
        assertThat(trace.remarks())
                .contains(new Remark(
                        "VISIT-054",
                        Rank.NOTE,
                        "run-1.csv",
                        "Nobody said what the columns stand for; the only temperature was taken as the reference measurement point and"
                                + " the only pressure as the chamber pressure."));
    }

    @Test
    void finds_a_column_with_its_unit_and_in_any_case() throws Exception {
        Trace trace = tenLines(folder)
                .replace("{T1: reference-point, T2: free-chamber", "{\"T1 [°C]\": reference-point, t2: free-chamber")
                .read()
                .runs()
                .get(0)
                .test()
                .trace();
        assertThat(trace.channels()).extracting(Channel::name).containsExactly("T1", "T2", "P");
    }

    @Test
    void estimates_ambient_from_the_altitude_without_a_barometer() throws Exception {
        Visit visit = tenLines(folder)
                .replace("runs:", "conditions: {altitude: 1600 m}\nruns:")
                .read();
        assertThat(visit.runs().get(0).test().ambient()).isEqualTo(Ambient.ofAltitude(1600));
        assertThat(visit.remarks()).isEmpty();
    }

    @Test
    void doubts_a_barometer_that_was_reduced_to_sea_level() throws Exception {
        Visit visit = tenLines(folder)
                .replace("runs:", "conditions: {altitude: 1600 m, barometer: 101.3 kPa}\nruns:")
                .read();
        assertThat(visit.remarks())
                .containsExactly(new Remark(
                        "VISIT-052",
                        Rank.DOUBT,
                        "visit.yaml, line 7, conditions",
                        "The barometer reading of 101.3 kPa is far from the usual 83.5 kPa at 1600 m. Was it reduced to sea level by a"
                                + " weather service? The pressure at the site itself is needed.",
                        List.of(List.of("conditions"))));
    }

    @Test
    void doubts_a_recording_of_another_day() throws Exception {
        assertThat(tenLines(folder)
                        .replace("runs:", "date: 2026-03-03\nruns:")
                        .read()
                        .remarks())
                .as("a visit may run into the next day")
                .isEmpty();
        assertThat(tenLines(folder)
                        .replace("runs:", "date: 2026-03-04\nruns:")
                        .read()
                        .remarks())
                .containsExactly(new Remark(
                        "VISIT-055",
                        Rank.DOUBT,
                        "runs[1]",
                        "The recording began on 2026-03-02, the visit was on 2026-03-04. Was the wrong file copied, or is the clock of"
                                + " the logger wrong?",
                        List.of(List.of("runs", "1"))));
    }

    @Test
    void doubts_a_photo_that_is_not_there() throws Exception {
        Visit visit = tenLines(folder)
                .replace("empty-chamber", "reference-load\n    load: {description: five cassettes, photos: load.jpg}")
                .read();
        assertThat(visit.remarks())
                .containsExactly(new Remark(
                        "VISIT-053",
                        Rank.DOUBT,
                        "visit.yaml, line 9, runs[1].load",
                        "The photo \"load.jpg\" is not in the visit folder. Copy it there before the report goes out.",
                        List.of(List.of("runs", "1", "load"))));
    }

    @Test
    void reads_a_criteria_set_that_lies_in_the_folder() throws Exception {
        Visit visit = tenLines(folder)
                .file("own/limits.yaml", "limits: mine")
                .replace("au-as5369", "own/limits.yaml")
                .read();
        assertThat(visit.criteriaSet().name()).isEqualTo("own/limits.yaml");
    }

    @Test
    void repeats_a_part_by_its_alias() throws Exception {
        Visit visit = tenLines(folder)
                .file("run-2.csv", stamped("2026-03-02", 10, "T1 [°C]", 134.1))
                .replace("empty-chamber", "reference-load\n    load: &tray {description: five cassettes}")
                .replace(
                        "P: pressure}\n",
                        "P: pressure}\n  - kind: reference-load\n    load: *tray\n    recording: run-2.csv\n")
                .read();
        assertThat(visit.runs())
                .extracting(VisitRun::load)
                .allMatch(load -> load.orElseThrow().description().equals("five cassettes"));
    }

    @Test
    void knows_every_distribution() throws Exception {
        Visit visit = tenLines(folder).replace("runs:", """
                        instruments:
                          - id: TL-1
                            measures: temperature
                            contributions:
                              - {name: a, size: 60 mK, distribution: triangular, origin: x}
                              - {name: b, size: +-0.06 °C, distribution: arcsine, origin: x}
                              - {name: c, size: 0.108 °F, distribution: rectangular, origin: x}
                        runs:""").read();
        List<Contribution> contributions = java.util.Objects.requireNonNull(
                        visit.instruments().get("TL-1"))
                .contributions();
        assertThat(contributions)
                .extracting(Contribution::distribution)
                .containsExactly(Distribution.TRIANGULAR, Distribution.ARCSINE, Distribution.RECTANGULAR);
        assertThat(contributions)
                .extracting(Contribution::standardUncertainty)
                .as("JCGM 100:2008, 4.3: half-width over √6, √2, √3")
                .satisfiesExactly(
                        first -> assertThat(first).isEqualTo(0.06 / Math.sqrt(6), within(1e-12)),
                        second -> assertThat(second).isEqualTo(0.06 / Math.sqrt(2), within(1e-12)),
                        third -> assertThat(third).isEqualTo(0.06 / Math.sqrt(3), within(1e-12)));
    }

    @Test
    void reading_profiles_may_lie_elsewhere() throws IOException, VisitFolderException, UnreadableFileException {
        Path visit = Files.createDirectory(folder.resolve("visit"));
        VisitFixture fixture = VisitFixture.tenLines(visit);
        Path recording = visit.resolve("run-1.csv");
        Files.writeString(recording, Files.readString(recording).replace("P [kPa abs]", "P"));
        assertThat(fixture.problems()).as("the unit is asked").hasSize(1);
        Path elsewhere = folder.resolve("profiles");
        ReadingProfiles.keep(elsewhere, "kitchen", recording, Map.of("unit:P", "kPa abs"));
        assertThat(VisitFolder.read(visit, VisitFixture.SETS, List.of(), List.of(elsewhere))
                        .runs())
                .hasSize(1);
    }
}
