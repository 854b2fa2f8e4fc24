package org.steamwright.simulator;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.ReferenceInstrument;

/**
 * About a year of an invented office that ends on a day: three clinics, six machines and their visits. One machine has last
 * year's visit to compare with, one is being visited, one leaks a little more each time, one failed, one waits for its
 * indicators, one is overdue. A calibration, two lots and a competence run out about the day on which it ends.
 */
public final class InventedYear {

    private static final String MARK =
            "# Steamwright demo register - everything in it is invented: people, places, machines and figures\n";
    private static final List<YearMachine> MACHINES = List.of(
            YearMachine.EX_1001,
            YearMachine.EX_2002,
            YearMachine.EX_3003,
            YearMachine.EX_4004,
            YearMachine.EX_5005,
            YearMachine.EX_6006);
    private static final int[] READ_DAYS_AGO = {390, 240, 150, 90, 45, 14};
    private static final String VISITS = "DEMO-";

    private final LocalDate end;

    private InventedYear(LocalDate end) {
        this.end = end;
    }

    /** The year that ends on a day, its last visits a little before. */
    public static InventedYear endingOn(LocalDate end) {
        return new InventedYear(end);
    }

    /** Visits in the order of their days. */
    public List<YearVisit> visits() {
        return List.of(
                visit(101, YearMachine.EX_6006, 400, YearVisit.Done.YEARLY, 0.034),
                visit(102, YearMachine.EX_1001, 372, YearVisit.Done.YEARLY, 0.017),
                visit(103, YearMachine.EX_2002, 345, YearVisit.Done.YEARLY, 0.029),
                visit(104, YearMachine.EX_3003, 330, YearVisit.Done.YEARLY, 0.052),
                visit(105, YearMachine.EX_4004, 300, YearVisit.Done.YEARLY, 0.024),
                visit(106, YearMachine.EX_3003, 220, YearVisit.Done.LEAK_ONLY, 0.073),
                visit(107, YearMachine.EX_3003, 110, YearVisit.Done.LEAK_ONLY, 0.091),
                visit(108, YearMachine.EX_4004, 60, YearVisit.Done.FAILED, 0.031),
                visit(109, YearMachine.EX_3003, 25, YearVisit.Done.LEAK_ONLY, 0.108),
                visit(110, YearMachine.EX_1001, 12, YearVisit.Done.YEARLY, 0.021),
                visit(111, YearMachine.EX_5005, 7, YearVisit.Done.AWAITED, 0.027),
                visit(112, YearMachine.EX_2002, 1, YearVisit.Done.BEGUN, 0.035));
    }

    private YearVisit visit(int number, YearMachine machine, int daysAgo, YearVisit.Done done, double leakRate) {
        return new YearVisit(VISITS + number, machine, daysAgo, end.minusDays(daysAgo), done, leakRate);
    }

    /** What the office knows of clinics, machines, people and lots, in the format of the register. */
    public String register() {
        StringBuilder text =
                new StringBuilder(MARK).append("steamwright-register: 1\ninstruments: instruments.yaml\nclinics:\n");
        for (YearClinic clinic : YearClinic.values()) {
            text.append("""
                      - id: %s
                        name: %s
                        contact: practice manager, %s
                        sites:
                          - id: %s-main
                            address: %s
                            zone: %s
                            altitude: 50 m
                            rules: au
                            rooms: [{id: %s, name: Sterilising room}]
                    """.formatted(
                            clinic.id(),
                            clinic.title(),
                            clinic.manager(),
                            clinic.id(),
                            clinic.address(),
                            DemoVisit.ZONE.getId(),
                            clinic.room()));
        }
        text.append("sterilizers:\n");
        MACHINES.forEach(machine -> machine(machine, text));
        text.append("""
                technicians:
                  - id: KS
                    name: Kim Sample (invented)
                    competences:
                      - {families: [bench-17, bench-22], duties: [validation, service, electrical-test], from: %s, until: %s, document: training record 7 (invented)}
                  - id: RE
                    name: Robin Example (invented)
                    competences:
                      - {families: [bench-17], duties: [service], from: %s, until: %s, document: training record 9 (invented)}
                lots:
                  - {id: BI-2, kind: biological, product: "spore strip (invented)", number: LOT-0002, expires: %s, incubation: 168 h}
                  - {id: BI-3, kind: biological, product: "spore strip (invented)", number: LOT-0003, expires: %s, incubation: 168 h}
                  - {id: CI-7, kind: chemical, product: "indicator strip (invented)", number: LOT-0007, expires: %s}
                """.formatted(
                        end.minusDays(900),
                        end.plusDays(200),
                        end.minusDays(700),
                        end.plusDays(45),
                        end.minusDays(12),
                        end.plusDays(150),
                        end.plusDays(20)));
        return text.toString();
    }

    private void machine(YearMachine machine, StringBuilder text) {
        text.append("  - id: %s\n".formatted(machine.serial()));
        text.append(machine.plate("    "));
        text.append("""
                    family: %s
                    status: %s
                    room: %s
                    cycles:
                      - %s
                    counter:
                      readings:
                """.formatted(
                        machine.isLarge() ? "bench-22" : "bench-17",
                        machine.status(),
                        machine.clinic().room(),
                        machine.declaredCycle()));
        for (int daysAgo : READ_DAYS_AGO) {
            text.append("        - {on: %s, shows: %s, evidence: photo (invented)}\n"
                    .formatted(end.minusDays(daysAgo), machine.counterAt(daysAgo)));
        }
        text.append(
                "    pressure-papers:\n      - {document: PV-%s (invented), examined-on: %s, next-by: %s, by: Example Inspection (invented)}\n"
                        .formatted(machine.serial(), end.minusDays(420), end.plusDays(310)));
        text.append("    done:\n");
        for (YearVisit visit : visits()) {
            if (visit.machine().equals(machine) && visit.done() == YearVisit.Done.YEARLY) {
                for (String duty : List.of("validation", "service", "electrical-test")) {
                    text.append(
                            "      - {duty: %s, on: %s, evidence: %s}\n".formatted(duty, visit.day(), visit.number()));
                }
            }
        }
        if (machine.equals(YearMachine.EX_5005)) {
            for (String duty : List.of("validation", "service", "electrical-test")) {
                text.append("      - {duty: %s, on: %s, evidence: report of another office (invented)}\n"
                        .formatted(duty, end.minusDays(350)));
            }
        }
        if (machine.equals(YearMachine.EX_2002)) {
            text.append(
                    "    conditions:\n      - {what: note the lowest pressure of each evacuation with the weekly test, owner: practice manager, until: %s}\n"
                            .formatted(end.plusDays(30)));
        }
    }

    /** The reference instruments with all their certificates, in the format of the register of instruments. */
    public String instruments() {
        Map<String, ReferenceInstrument> instruments = new TreeMap<>();
        visits().get(0)
                .runs()
                .forEach(run -> instruments.putAll(run.simulated().testRun().instruments()));
        StringBuilder text = new StringBuilder(MARK).append("steamwright-instruments: 1\ninstruments:\n");
        instruments.values().forEach(instrument -> text.append(YearInstruments.ofRegister(instrument, end)));
        return text.toString();
    }
}
