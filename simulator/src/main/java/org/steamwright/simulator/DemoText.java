package org.steamwright.simulator;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Distribution;
import org.steamwright.assessment.verdict.LeakPeriods;
import org.steamwright.assessment.verdict.TestKind;

/** The description of the demo visit, in the format of the visit folder. */
final class DemoText {
    private static final String MARK =
            "# Steamwright demo visit - everything in it is invented: people, places, machines and figures\n";
    private static final String CERTIFICATES = "certificates";
    private static final double MIDDLE_OF_PLATEAU = 110;

    private static final String INCUBATED = "2026-03-02 17:00 to 2026-03-09 17:00, 57 °C";

    private static final String EARLIER = """
              evidence:
                - {sterilizer: B, kind: thermometric, on: 2025-03-03, cycle: 412, reference: "report R-2025-009 (invented), three loaded runs"}
                - {sterilizer: B, kind: biological, on: 2026-02-23, cycle: 884, reference: "log book of the clinic (invented), weekly indicator with control"}
                - {sterilizer: B, kind: steam-penetration, on: 2026-02-27, cycle: 893, reference: "log book of the clinic (invented), daily test"}

            """;

    private final DemoStory story;
    private final List<DemoRun> runs = new ArrayList<>();
    private final Map<String, ReferenceInstrument> instruments = new TreeMap<>();
    private final StringBuilder runText = new StringBuilder();
    private boolean isLoadWritten;

    DemoText(DemoStory story) {
        this.story = story;
    }

    /** Adds a run; runs are added in the order of their numbers. */
    void add(DemoRun run, String recordings) {
        runs.add(run);
        instruments.putAll(run.simulated().testRun().instruments());
        describe(run, recordings);
    }

    String write() {
        return MARK + head() + sterilizers() + instrumentList() + checklists() + jobSheet() + "runs:\n" + runText
                + tail();
    }

    private String head() {
        return """
                steamwright-visit: 1
                report-number: %s
                purpose: %s
                date: %s
                zone: %s
                company: "Example Steriliser Service (invented), 1 Sample Street, Sampleton SA"
                criteria-set: au-as5369

                clinic:
                  name: Example Dental Practice (invented)
                  address: 2 Example Road, Sampleton SA
                  room: sterilising room, first floor
                  contact: practice manager, Lee Placeholder (invented)
                  reference: C-0000

                people:
                  - name: Kim Sample (invented)
                    role: technician
                    organisation: Example Steriliser Service (invented)
                    authorisation: T-00 (invented)
                    confirms: made the measurements and this assessment
                  - name: Robin Example (invented)
                    role: reviewer
                    organisation: Example Steriliser Service (invented)
                    confirms: reviewed the record
                  - name: Lee Placeholder (invented)
                    role: practice manager
                    organisation: Example Dental Practice (invented)
                    confirms: agreed to the reference load

                conditions:
                  barometer: %s kPa
                  barometer-source: BA-01 (invented), read on site at 08:40
                  altitude: 50 m
                  room-temperature: 22.5 °C
                  room-humidity: 45 %%
                  supply-voltage: 232 V
                  water-conductivity: 8 µS/cm

                """.formatted(
                        story.number(), story.purpose(), story.day(), DemoVisit.ZONE.getId(), plain(DemoRun.BAROMETER));
    }

    private String sterilizers() {
        String machines = sterilizerB() + "\n";
        return "sterilizers:\n" + (story == DemoStory.RETEST ? machines : sterilizerA() + machines);
    }

    private String sterilizerA() {
        return sterilizer(
                "A",
                "Bench 17 (invented)",
                "EX-1001",
                "2021",
                "17 L",
                "250 x 350 mm",
                3,
                "2.4",
                "bench by the window",
                "PV-1001 (invented), next 2027-01",
                DemoRun.COUNTER_A,
                DemoRun.CYCLE_A);
    }

    private String sterilizerB() {
        return sterilizer(
                "B",
                "Bench 22 (invented)",
                "EX-2002",
                "2018",
                "22 L",
                "250 x 450 mm",
                5,
                "1.9",
                "bench by the door",
                "PV-2002 (invented), next 2026-09",
                story == DemoStory.RETEST ? DemoRun.COUNTER_B_AGAIN : DemoRun.COUNTER_B,
                DemoRun.CYCLE_B);
    }

    private String sterilizer(
            String key,
            String model,
            String serial,
            String year,
            String chamber,
            String size,
            int levels,
            String firmware,
            String location,
            String papers,
            int counter,
            CycleProgram cycle) {
        int departure = runs.stream()
                .filter(run -> run.sterilizer().equals(key))
                .mapToInt(DemoRun::machineCycle)
                .max()
                .orElse(counter);
        return """
                  - key: %s
                    maker: Example Works (invented)
                    model: %s
                    serial: %s
                    year: %s
                    chamber: %s
                    chamber-size: %s
                    tray-levels: %s
                    firmware: "%s"
                    location: %s
                    pressure-papers: %s
                    counter-at-arrival: %s
                    counter-at-departure: %s
                    name-plate: {serial: %s}
                    cycles:
                      - name: %s
                        type: %s
                        sterilizing-temperature: %s °C
                        holding-time: %s s
                        air-removal-pulses: %s
                        pulse-depth: %s kPa absolute
                        drying-time: %s s
                """.formatted(
                        key,
                        model,
                        serial,
                        year,
                        chamber,
                        size,
                        levels,
                        firmware,
                        location,
                        papers,
                        counter,
                        departure,
                        serial,
                        cycle.name(),
                        cycle.type(),
                        plain(cycle.sterilizingCelsius()),
                        plain(cycle.declaredHoldSeconds()),
                        cycle.vacuumPulses(),
                        plain(cycle.definition().pulseDepth().orElseThrow()),
                        cycle.definition().dryingTime().orElseThrow().toSeconds());
    }

    private String instrumentList() {
        StringBuilder text = new StringBuilder("instruments:\n");
        for (ReferenceInstrument instrument : instruments.values()) {
            String unit = instrument.quantity() == Quantity.TEMPERATURE ? "°C" : "kPa";
            String difference = instrument.quantity() == Quantity.TEMPERATURE ? "K" : "kPa";
            CalibrationCertificate certificate = instrument.certificate().orElseThrow();
            CalibrationPoint first = certificate.points().get(0);
            text.append("  - id: ").append(instrument.id()).append('\n');
            text.append("    description: ").append(instrument.description()).append('\n');
            text.append("    measures: ")
                    .append(instrument.quantity().name().toLowerCase(Locale.ROOT))
                    .append('\n');
            text.append("    range: {from: %s %s, to: %s %s}\n"
                    .formatted(plain(instrument.rangeLow()), unit, plain(instrument.rangeHigh()), unit));
            if (instrument.id().equals(digital().id())) {
                text.append("    certificate: {file: ")
                        .append(certificateFile())
                        .append("}\n");
                text.append(contributions(instrument, difference));
                continue;
            }
            text.append("    certificate:\n");
            text.append("      number: ").append(certificate.number()).append('\n');
            text.append("      laboratory: ").append(certificate.laboratory()).append('\n');
            text.append("      calibrated-on: ")
                    .append(certificate.calibratedOn())
                    .append('\n');
            text.append("      due-on: ").append(certificate.dueOn()).append('\n');
            text.append("      U: %s %s\n".formatted(plain(first.expandedUncertainty()), difference));
            text.append("      k: ").append(plain(first.coverageFactor())).append('\n');
            text.append("      points:\n");
            for (CalibrationPoint point : certificate.points()) {
                text.append("        - [%s %s, %s %s]\n"
                        .formatted(plain(point.reference()), unit, plain(point.indicated()), unit));
            }
            text.append(contributions(instrument, difference));
        }
        return text + "\n";
    }

    private static String contributions(ReferenceInstrument instrument, String difference) {
        StringBuilder text = new StringBuilder();
        for (Contribution contribution : instrument.contributions()) {
            if (contribution.distribution() == Distribution.RECTANGULAR) {
                text.append("    drift: ±%s %s\n".formatted(plain(contribution.stated()), difference));
            } else {
                text.append(
                        "    contributions:\n      - {name: %s, size: %s %s, distribution: standard, per-reading: yes, origin: %s}\n"
                                .formatted(
                                        contribution.name(),
                                        plain(contribution.stated()),
                                        difference,
                                        contribution.origin()));
            }
        }
        return text.toString();
    }

    /** The instrument whose certificate lies in the folder as a file: the first that measures temperature. */
    ReferenceInstrument digital() {
        return instruments.values().stream()
                .filter(instrument -> instrument.quantity() == Quantity.TEMPERATURE)
                .findFirst()
                .orElseThrow();
    }

    /** Where that certificate lies in the folder. */
    String certificateFile() {
        return CERTIFICATES + "/" + digital().id() + ".xml";
    }

    private String checklists() {
        if (story == DemoStory.RETEST) {
            return "checklists:\n"
                    + asFound("B", "0.3 kPa in 10 min", "seal clean", "134.9 °C", "right")
                    + list(
                            "maintenance",
                            "B",
                            item("Vacuum valve", "done", "replaced, part VV-22 (invented), lot 0004 (invented)"),
                            item("Drain strainer", "done", "scale removed"),
                            item("Door interlock under pressure", "good", "door stays locked"))
                    + safety("B", "0.11 Ω", "240 µA", "> 200 MΩ")
                    + verification("B", DemoRun.CYCLE_B)
                    + penetration("B")
                    + "\n";
        }
        return "checklists:\n"
                + asFound("A", "0.2 kPa in 10 min", "seal clean, slight wear", "135.4 °C", "minus 2 min")
                + asFound("B", "0.4 kPa in 10 min", "seal clean", "135.0 °C", "right")
                + maintenance("A", "done", "replaced, lot 0000 (invented)", "strainer cleaned")
                + maintenance("B", "not-applicable", "not due, fitted 2025-09", "strainer cleaned, some scale found")
                + installation("A")
                + installation("B")
                + safety("A", "0.09 Ω", "210 µA", "> 200 MΩ")
                + safety("B", "0.11 Ω", "240 µA", "> 200 MΩ")
                + verification("A", DemoRun.CYCLE_A)
                + verification("B", DemoRun.CYCLE_B)
                + penetration("A")
                + penetration("B")
                + "\n";
    }

    /** What is written beside the runs. */
    private String jobSheet() {
        return switch (story) {
            case YEARLY_INTERIM -> """
                job-sheet:
                  interim-until: 2026-03-16
                """ + EARLIER;
            case YEARLY -> "job-sheet:\n" + EARLIER;
            case RETEST -> """
                job-sheet:
                  changes:
                    - {sterilizer: B, moved: no, added: no, changed: yes, note: "vacuum valve replaced on 2026-03-20 (invented)"}
                  evidence:
                    - {sterilizer: B, kind: biological, on: 2026-02-23, cycle: 884, reference: "log book of the clinic (invented), weekly indicator with control"}
                    - {sterilizer: B, kind: steam-penetration, on: 2026-02-27, cycle: 893, reference: "log book of the clinic (invented), daily test"}
                  failures:
                    - sterilizer: B
                      kind: thermometric
                      cause: the vacuum valve stuck and cut an evacuation short
                      action: vacuum valve replaced, strainer cleaned
                      closed-on: 2026-03-24
                      closed-by: Kim Sample (invented)
                      effect: leak tests, one empty and three loaded runs of this visit

                """;
        };
    }

    static String list(String section, String sterilizer, String... items) {
        StringBuilder text =
                new StringBuilder("  - section: %s\n    sterilizer: %s\n    items:\n".formatted(section, sterilizer));
        for (String item : items) {
            text.append("      - ").append(item).append('\n');
        }
        return text.toString();
    }

    static String item(String title, String result, String remark) {
        return "{title: \"%s\", result: \"%s\"%s}".formatted(title, result, key("remark", remark));
    }

    static String reading(String title, String result, String asFound, String asLeft, String limit, String instrument) {
        return "{title: \"%s\", result: \"%s\"%s%s%s%s}"
                .formatted(
                        title,
                        result,
                        key("as-found", asFound),
                        key("as-left", asLeft),
                        key("limit", limit),
                        key("instrument", instrument));
    }

    private static String key(String name, String value) {
        return value.isEmpty() ? "" : ", %s: \"%s\"".formatted(name, value);
    }

    static String asFound(String key, String leak, String seal, String display, String clock) {
        return list(
                "as-found",
                key,
                reading("Air leakage by the steriliser's own test", "good", leak, "", "1.3 kPa in 10 min", ""),
                reading("Highest temperature shown in the last clinic cycle", "good", display, "", "134 to 138 °C", ""),
                item("Door seal", "good", seal),
                reading(
                        "Clock against reference time",
                        clock.equals("right") ? "good" : "done",
                        clock,
                        "right",
                        "1 min, own quality system",
                        ""),
                item("Log book of the clinic", "good", "daily tests present, no gap found (invented)"));
    }

    static String maintenance(String key, String seal, String lot, String strainer) {
        return list(
                "maintenance",
                key,
                item("Door seal and its face", seal, lot),
                item("Bacteria-retentive air filter", "done", "replaced, lot 0001 (invented), by interval"),
                item("Chamber, trays and drain strainer", "done", strainer),
                item("Vacuum pump", "good", "quiet, reaches 4.6 kPa absolute"),
                item("Reservoirs", "done", "drained and cleaned"),
                item("Door interlock under pressure", "good", "door stays locked"),
                item("Safety valve", "good", "seal intact, not lifted: left to the pressure examination"));
    }

    static String installation(String key) {
        return list(
                "installation",
                key,
                item("Place, clearances and level", "good", "not moved since the last visit"),
                item("Electrical supply", "good", "own socket, 232 V"),
                item("Feed water", "good", "8 µS/cm"),
                item("Drain with air gap", "good", ""),
                item("Instructions for use and papers on site", "good", ""),
                item("Accessories as validated", "good", "three trays"));
    }

    static String safety(String key, String earth, String leakage, String insulation) {
        return list(
                "safety",
                key,
                reading("Protective earth with cord", "good", earth, "", "0.2 Ω, local code", "ET-01 (invented)"),
                reading("Earth leakage current", "good", leakage, "", "5 mA, local code", "ET-01 (invented)"),
                reading("Insulation at 500 V", "good", insulation, "", "1 MΩ, local code", "ET-01 (invented)"));
    }

    private String verification(String key, CycleProgram cycle) {
        return verification(key, cycle, runs);
    }

    static String verification(String key, CycleProgram cycle, List<DemoRun> runs) {
        SimulatedRun run = runs.stream()
                .filter(r -> r.sterilizer().equals(key))
                .map(DemoRun::simulated)
                .filter(r -> r.scenario().kind() == TestKind.EMPTY_CHAMBER)
                .findFirst()
                .orElseThrow();
        double moment = run.truth().steamReachedSeconds().orElseThrow() + MIDDLE_OF_PLATEAU;
        double celsius = run.truth().celsiusAt("T1", moment);
        double kilopascal = run.truth().kilopascalAt(moment);
        return list(
                "verification",
                key,
                reading(
                        "Temperature shown in the middle of the hold",
                        "good",
                        "%s °C against %s °C measured".formatted(fixed(celsius + 0.2), fixed(celsius)),
                        "",
                        "1 K, own quality system",
                        "TL-01"),
                reading(
                        "Pressure shown in the middle of the hold",
                        "good",
                        "%s kPa absolute against %s kPa absolute measured"
                                .formatted(fixed(kilopascal + 1.2), fixed(kilopascal)),
                        "",
                        "5 kPa, own quality system",
                        Simulation.PRESSURE_INSTRUMENT),
                reading(
                        "Timer of the hold",
                        "good",
                        "%s s against %s s measured"
                                .formatted(plain(cycle.plateauSeconds() - 1), plain(cycle.plateauSeconds())),
                        "",
                        "2.5 s, own quality system",
                        ""));
    }

    static String penetration(String key) {
        return list(
                "steam-penetration",
                key,
                item(
                        "Hollow load test device with indicator",
                        "good",
                        "uniform change, lot 0002 (invented), expires 2027-05"));
    }

    private void describe(DemoRun run, String recordings) {
        SimulatedRun simulated = run.simulated();
        TestKind kind = simulated.scenario().kind();
        StringBuilder text = runText;
        text.append("  - kind: ")
                .append(
                        kind == TestKind.LEAK
                                ? "air-leakage"
                                : kind == TestKind.LOADED ? "reference-load" : "empty-chamber")
                .append('\n');
        text.append("    sterilizer: ").append(run.sterilizer()).append('\n');
        text.append("    cycle: ").append(simulated.testRun().cycle().name()).append('\n');
        if (!run.stage().isEmpty()) {
            text.append("    stage: ").append(run.stage()).append('\n');
        }
        text.append("    start-condition: ")
                .append(kind == TestKind.LEAK ? "cool and dry" : "dry, door open before the start")
                .append('\n');
        text.append("    machine-cycle: ").append(run.machineCycle()).append('\n');
        text.append("    machine-verdict: ")
                .append(kind == TestKind.LEAK ? "passed" : "cycle complete")
                .append('\n');
        recordings(simulated.files(), recordings, text);
        text.append("    channels:\n");
        for (Channel channel : simulated.testRun().trace().channels()) {
            text.append("      %s: {role: %s, position: %s, place: \"%s\", instrument: %s}\n"
                    .formatted(
                            channel.name(),
                            role(channel.role()),
                            channel.position().letter(),
                            channel.position().description(),
                            channel.instrument().orElseThrow()));
        }
        simulated.testRun().leakPeriods().ifPresent(periods -> leakPeriods(text, periods));
        if (kind == TestKind.LOADED) {
            loaded(run, text);
        }
        text.append('\n');
    }

    private static void recordings(List<LoggerFile> files, String folder, StringBuilder text) {
        if (files.size() == 1) {
            text.append("    recording: %s/%s\n".formatted(folder, files.get(0).name()));
            return;
        }
        text.append("    recording:\n");
        for (LoggerFile file : files) {
            long fast = file == files.get(0) ? 0 : Math.round(DemoRun.SECOND_CLOCK_FAST);
            text.append("      - file: %s/%s\n".formatted(folder, file.name()));
            text.append(
                    "        clock: {before: {logger: \"08:20:%02d\", reference: \"08:20:00\"}, after: {logger: \"14:40:%02d\", reference: \"14:40:00\"}, by: Kim Sample (invented)}\n"
                            .formatted(fast, fast));
        }
    }

    static void leakPeriods(StringBuilder text, LeakPeriods periods) {
        text.append("    leak-periods: {isolation: %s s, settled: %s s, end: %s s}\n"
                .formatted(
                        plain(periods.isolationSeconds()),
                        plain(periods.settledSeconds()),
                        plain(periods.endSeconds())));
    }

    /** The largest and hardest load, under a name by which later runs have it too. */
    static String referenceLoad(String manager) {
        return """
                    load: &reference-load
                      description: "three trays: two of pouches, one with cassette and gauze, the largest and hardest load the practice intends to run"
                      items:
                        - {name: mirror and probe set, count: 6, family: solid, packaging: single pouch}
                        - {name: extraction forceps, count: 4, family: solid, packaging: single pouch}
                        - {name: instrument cassette, count: 1, family: solid, packaging: double wrap}
                        - {name: surgical handpiece, count: 2, family: hollow-a, packaging: double pouch}
                        - {name: suction tube, count: 2, family: hollow-b, packaging: single pouch}
                        - {name: gauze pack, count: 1, family: porous, packaging: single pouch}
                      challenge-pack: handpiece with indicator and sensor in a double pouch
                      challenge-place: bottom tray, centre; farthest from the inlet and among the densest items
                      packaging: paper and film pouches, sheet wrap
                      mass: 2.4 kg
                      agreed-by: %s, practice manager
                """.formatted(manager);
    }

    private void loaded(DemoRun run, StringBuilder text) {
        if (isLoadWritten) {
            text.append("    load: *reference-load\n");
        } else {
            text.append(referenceLoad("Lee Placeholder (invented)"));
            isLoadWritten = true;
        }
        boolean isFailing = !run.simulated().scenario().faults().isEmpty();
        text.append("    indicators:\n");
        String[] places = {"B", "C", "D"};
        for (int i = 0; i < places.length; i++) {
            text.append(
                    "      - {id: BI-%02d-%s, product: \"spore strip, G. stearothermophilus (invented)\", lot: LOT-0003, expires: 2026-12-31, population: 2.1e6, d-value: 1.9 min, d-value-U: 0.2 min, z: 8.9 K, position: %s, result: %s, incubation: \"%s\"%s}\n"
                            .formatted(run.number(), i + 1, places[i], result("no-growth"), incubated(), readOut()));
        }
        text.append(
                "      - {id: BI-%02d-K, control: yes, product: \"spore strip, G. stearothermophilus (invented)\", lot: LOT-0003, expires: 2026-12-31, population: 2.1e6, result: %s, incubation: \"%s\"%s}\n"
                        .formatted(run.number(), result("growth"), incubated(), readOut()));
        text.append("    weighings:\n");
        text.append("      - {item: instrument cassette, kind: solid, before: 1240.0 g, after: %s g}\n"
                .formatted(plain(1240.6 + run.number() % 4 * 0.2)));
        text.append("      - {item: gauze pack, kind: porous, before: 118.0 g, after: %s g}\n"
                .formatted(plain(118.5 + run.number() % 3 * 0.1)));
        text.append("    chemical-indicators: ")
                .append(
                        isFailing
                                ? "changed in all pouches, incomplete in the challenge pack"
                                : "changed in all pouches and in the challenge pack")
                .append('\n');
        if (isFailing) {
            text.append("    note: stopped after this run; to be repeated after repair\n");
        }
    }

    /** Nobody knows an indicator before it was read. */
    private String result(String read) {
        return story == DemoStory.YEARLY_INTERIM ? "awaited" : read;
    }

    private String incubated() {
        return switch (story) {
            case YEARLY_INTERIM -> "from 2026-03-02 17:00, 57 °C";
            case YEARLY -> INCUBATED;
            case RETEST -> "2026-03-24 17:00 to 2026-03-31 17:00, 57 °C";
        };
    }

    /** The end that the maker of the strips asks for, and when and by whom they were read. */
    private String readOut() {
        return switch (story) {
            case YEARLY_INTERIM -> ", incubated-until: 2026-03-09 17:00";
            case YEARLY ->
                ", incubated-until: 2026-03-09 17:00, read-on: 2026-03-09 17:25, read-by: Kim Sample (invented)";
            case RETEST ->
                ", incubated-until: 2026-03-31 17:00, read-on: 2026-04-01 09:10, read-by: Kim Sample (invented)";
        };
    }

    static String role(ChannelRole role) {
        return role.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private String tail() {
        if (story == DemoStory.RETEST) {
            return """
                recommendations:
                  - "Steriliser B: note the lowest pressure of each evacuation with the weekly test for the next three months."
                next-due:
                  - "requalification of A and B: 2027-03"
                  - "pressure examination of B: 2026-09"
                not-tested:
                  - "steriliser A: in use since the yearly visit, not part of this visit"
                """;
        }
        return """
                deviations:
                  - "Steriliser B, run 13: one evacuation was cut short, the challenge pack came late and stayed the coldest point. The series was stopped and the practice told to take B out of use."
                recommendations:
                  - "Steriliser B: have the air removal examined (valves, pump, drain strainer), then repeat all loaded runs."
                  - "Keep the photo of the reference load beside steriliser A."
                next-due:
                  - "requalification of A: 2027-03"
                  - "pressure examination of B: 2026-09"
                not-tested:
                  - "121 °C cycles: not in use at this practice"
                  - "further loaded runs of B: stopped after the first one"
                """;
    }

    /** A figure without exponent and needless zeros. */
    static String plain(double figure) {
        BigDecimal exact = BigDecimal.valueOf(Math.rint(figure * 1e6) / 1e6).stripTrailingZeros();
        return exact.setScale(Math.max(0, exact.scale())).toPlainString();
    }

    private static String fixed(double figure) {
        return String.format(Locale.ROOT, "%.1f", figure);
    }
}
