package org.steamwright.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.verdict.TestKind;

/** The description of a visit of the invented year, in the format of the visit folder. */
final class YearText {

    private static final String MARK =
            "# Steamwright demo visit - everything in it is invented: people, places, machines and figures\n";

    private final YearVisit visit;
    private final List<DemoRun> runs = new ArrayList<>();
    private final Map<String, ReferenceInstrument> instruments = new TreeMap<>();
    private final StringBuilder runText = new StringBuilder();
    private boolean isLoadWritten;

    YearText(YearVisit visit) {
        this.visit = visit;
    }

    void add(DemoRun run) {
        runs.add(run);
        instruments.putAll(run.simulated().testRun().instruments());
        describe(run);
    }

    String write() {
        StringBuilder instrumentText = new StringBuilder("instruments:\n");
        instruments
                .values()
                .forEach(instrument -> instrumentText.append(YearInstruments.ofVisit(
                        instrument, visit.day(), visit.day().plusDays(visit.daysAgo()))));
        return MARK + head() + sterilizer() + instrumentText + checklists() + jobSheet() + "runs:\n" + runText + tail();
    }

    private String purpose() {
        return switch (visit.done()) {
            case YEARLY, AWAITED, BEGUN, FAILED -> "yearly requalification (invented)";
            case LEAK_ONLY -> "leak test after a new door seal (invented)";
        };
    }

    private String head() {
        YearClinic clinic = visit.machine().clinic();
        return """
                steamwright-visit: 1
                report-number: %s
                purpose: %s
                date: %s
                zone: %s
                company: "Example Steriliser Service (invented), 1 Sample Street, Sampleton SA"
                criteria-set: au-as5369
                clinic:
                  name: %s
                  address: %s
                  room: sterilising room
                  contact: practice manager, %s
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
                  - name: %s
                    role: practice manager
                    organisation: %s
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
                        visit.number(),
                        purpose(),
                        visit.day(),
                        DemoVisit.ZONE.getId(),
                        clinic.title(),
                        clinic.address(),
                        clinic.manager(),
                        clinic.manager(),
                        clinic.title(),
                        DemoText.plain(DemoRun.BAROMETER));
    }

    private String sterilizer() {
        YearMachine machine = visit.machine();
        int arrival = machine.counterAt(visit.daysAgo());
        return "sterilizers:\n  - key: A\n" + machine.plate("    ")
                + """
                    firmware: "2.4"
                    counter-at-arrival: %s
                    counter-at-departure: %s
                    name-plate: {serial: %s}
                    cycles:
                      - %s
                """.formatted(arrival, arrival + runs.size(), machine.serial(), machine.declaredCycle());
    }

    private String checklists() {
        if (visit.done() == YearVisit.Done.LEAK_ONLY) {
            return "checklists:\n"
                    + DemoText.list(
                            "maintenance", "A", DemoText.item("Door seal", "done", "replaced, lot 0000 (invented)"));
        }
        String asFound =
                "checklists:\n" + DemoText.asFound("A", "0.4 kPa in 10 min", "seal clean", "135.0 °C", "right");
        if (visit.done() == YearVisit.Done.BEGUN) {
            return asFound;
        }
        return asFound
                + DemoText.maintenance("A", "not-applicable", "not due, fitted in the year before", "strainer cleaned")
                + DemoText.installation("A")
                + DemoText.safety("A", "0.09 Ω", "210 µA", "> 200 MΩ")
                + DemoText.verification("A", visit.machine().cycle(), runs)
                + DemoText.penetration("A");
    }

    private String jobSheet() {
        return visit.done() == YearVisit.Done.FAILED
                ? """
                job-sheet:
                  evidence:
                    - {sterilizer: A, kind: biological, on: %s, cycle: %s, reference: "log book of the clinic (invented), weekly indicator with control"}
                    - {sterilizer: A, kind: steam-penetration, on: %s, cycle: %s, reference: "log book of the clinic (invented), daily test"}
                """.formatted(
                                visit.day().minusDays(7),
                                visit.machine().counterAt(visit.daysAgo() + 7),
                                visit.day().minusDays(3),
                                visit.machine().counterAt(visit.daysAgo() + 3))
                : "";
    }

    private void describe(DemoRun run) {
        SimulatedRun simulated = run.simulated();
        TestKind kind = simulated.scenario().kind();
        StringBuilder text = runText;
        text.append("  - kind: %s\n"
                .formatted(
                        kind == TestKind.LEAK
                                ? "air-leakage"
                                : kind == TestKind.LOADED ? "reference-load" : "empty-chamber"));
        text.append("    sterilizer: A\n");
        text.append("    cycle: ").append(simulated.testRun().cycle().name()).append('\n');
        if (!run.stage().isEmpty()) {
            text.append("    stage: ").append(run.stage()).append('\n');
        }
        text.append("    start-condition: %s\n"
                .formatted(kind == TestKind.LEAK ? "cool and dry" : "dry, door open before the start"));
        text.append("    machine-cycle: ").append(run.machineCycle()).append('\n');
        text.append("    machine-verdict: %s\n".formatted(kind == TestKind.LEAK ? "passed" : "cycle complete"));
        text.append("    recording: recordings/%s\n"
                .formatted(simulated.files().get(0).name()));
        text.append("    channels:\n");
        for (Channel channel : simulated.testRun().trace().channels()) {
            text.append("      %s: {role: %s, position: %s, place: \"%s\", instrument: %s}\n"
                    .formatted(
                            channel.name(),
                            DemoText.role(channel.role()),
                            channel.position().letter(),
                            channel.position().description(),
                            channel.instrument().orElseThrow()));
        }
        simulated.testRun().leakPeriods().ifPresent(periods -> DemoText.leakPeriods(text, periods));
        if (kind == TestKind.LOADED) {
            loaded(run, text);
        }
    }

    private void loaded(DemoRun run, StringBuilder text) {
        if (isLoadWritten) {
            text.append("    load: *reference-load\n");
        } else {
            text.append(DemoText.referenceLoad(visit.machine().clinic().manager()));
            isLoadWritten = true;
        }
        boolean isRead = visit.done() == YearVisit.Done.YEARLY || visit.done() == YearVisit.Done.FAILED;
        String incubation = isRead
                ? "incubation: \"%s 17:00 to %s 17:00, 57 °C\", incubated-until: %s 17:00, read-on: %s 17:25, read-by: Kim Sample (invented)"
                        .formatted(visit.day(), visit.incubatedUntil(), visit.incubatedUntil(), visit.incubatedUntil())
                : "incubation: \"from %s 17:00, 57 °C\", incubated-until: %s 17:00"
                        .formatted(visit.day(), visit.incubatedUntil());
        text.append("    indicators:\n");
        String[] places = {"B", "C", "D"};
        for (int i = 0; i < places.length; i++) {
            text.append(
                    "      - {id: BI-%02d-%s, product: \"spore strip, G. stearothermophilus (invented)\", lot: LOT-0003, expires: %s, population: 2.1e6, d-value: 1.9 min, d-value-U: 0.2 min, z: 8.9 K, position: %s, result: %s, %s}\n"
                            .formatted(
                                    run.number(),
                                    i + 1,
                                    YearInstruments.lotExpires(visit),
                                    places[i],
                                    isRead ? "no-growth" : "awaited",
                                    incubation));
        }
        text.append(
                "      - {id: BI-%02d-K, control: yes, product: \"spore strip, G. stearothermophilus (invented)\", lot: LOT-0003, expires: %s, population: 2.1e6, result: %s, %s}\n"
                        .formatted(
                                run.number(),
                                YearInstruments.lotExpires(visit),
                                isRead ? "growth" : "awaited",
                                incubation));
        text.append("    weighings:\n");
        text.append("      - {item: instrument cassette, kind: solid, before: 1240.0 g, after: %s g}\n"
                .formatted(DemoText.plain(1240.6 + run.number() % 4 * 0.2)));
        text.append("      - {item: gauze pack, kind: porous, before: 118.0 g, after: %s g}\n"
                .formatted(DemoText.plain(118.5 + run.number() % 3 * 0.1)));
        text.append("    chemical-indicators: %s\n"
                .formatted(
                        visit.done() == YearVisit.Done.FAILED
                                ? "changed in all pouches, incomplete in the challenge pack"
                                : "changed in all pouches and in the challenge pack"));
    }

    private String tail() {
        return switch (visit.done()) {
            case FAILED -> """
                deviations:
                  - "The loaded run: one evacuation was cut short, the challenge pack came late and stayed the coldest point. The series was stopped and the practice told to take the steriliser out of use."
                recommendations:
                  - "Have the air removal examined (valves, pump, drain strainer), then repeat all loaded runs."
                not-tested:
                  - "further loaded runs: stopped after the first one"
                """;
            case LEAK_ONLY -> """
                not-tested:
                  - "empty and loaded cycles: not part of this visit"
                """;
            default -> """
                not-tested:
                  - "121 °C cycles: not in use at this practice"
                """;
        };
    }
}
