package org.steamwright.simulator;

/** What the office of the demo knows of the two machines after the re-test, in the format of the register. */
final class DemoRegister {

    /** Everything in it is invented. */
    static final String TEXT = """
            # Steamwright demo register - everything in it is invented: people, places, machines and figures
            steamwright-register: 1

            clinics:
              - id: example-dental
                name: Example Dental Practice (invented)
                reference: C-0000
                contact: practice manager, Lee Placeholder (invented)
                sites:
                  - id: example-main
                    address: 2 Example Road, Sampleton SA
                    zone: Australia/Adelaide
                    altitude: 50 m
                    rules: au
                    working-days: [monday, tuesday, wednesday, thursday, friday]
                    rooms:
                      - {id: steri, name: Sterilising room}

            sterilizers:
              - id: EX-1001
                maker: Example Works (invented)
                model: Bench 17 (invented)
                family: bench
                serial: EX-1001
                year: 2021
                chamber: 17 L
                chamber-size: 250 x 350 mm
                tray-levels: 3
                room: steri
                cycles:
                  - {name: 134 wrapped, type: B, sterilizing-temperature: 134 °C, holding-time: 3 min 30 s, air-removal-pulses: 3}
                counter:
                  readings:
                    - {on: 2025-09-01, shows: 980, evidence: photo}
                    - {on: 2025-11-03, shows: 1150, evidence: photo}
                    - {on: 2026-01-12, shows: 1340, evidence: telephone}
                    - {on: 2026-02-09, shows: 1419, evidence: photo}
                    - {on: 2026-03-02, shows: 1489, evidence: DEMO-2026-001}
                pressure-papers:
                  - {document: PV-1001, examined-on: 2025-11-20, next-by: 2027-01-20, by: Example Inspection (invented)}
                intervals:
                  - {duty: service, every: 12 months, cycles: 1000, because: instructions for use of the maker}
                done:
                  - {duty: validation, on: 2026-03-02, evidence: DEMO-2026-001}
                  - {duty: service, on: 2026-03-02, evidence: DEMO-2026-001}
                  - {duty: electrical-test, on: 2026-03-02, evidence: DEMO-2026-001}
              - id: EX-2002
                maker: Example Works (invented)
                model: Bench 22 (invented)
                family: bench
                serial: EX-2002
                year: 2018
                chamber: 22 L
                chamber-size: 250 x 450 mm
                tray-levels: 5
                room: steri
                cycles:
                  - {name: 134 universal, type: B, sterilizing-temperature: 134 °C, holding-time: 3 min 30 s, air-removal-pulses: 4}
                counter:
                  readings:
                    - {on: 2026-03-02, shows: 907, evidence: DEMO-2026-001}
                    - {on: 2026-03-24, shows: 918, evidence: DEMO-2026-002}
                pressure-papers:
                  - {document: PV-2002, examined-on: 2025-07-10, next-by: 2026-09-10, by: Example Inspection (invented)}
                changes:
                  - {on: 2026-03-20, reason: vacuum-system, what: vacuum valve replaced, settled-on: 2026-03-24}
                conditions:
                  - {what: note the lowest pressure of each evacuation with the weekly test, owner: practice manager, until: 2026-06-30}
                done:
                  - {duty: validation, on: 2026-03-24, evidence: DEMO-2026-002}
                  - {duty: service, on: 2026-03-02, evidence: DEMO-2026-001}
                  - {duty: electrical-test, on: 2026-03-24, evidence: DEMO-2026-002}

            technicians:
              - id: KS
                name: Kim Sample (invented)
                competences:
                  - {families: [bench], duties: [validation, service, electrical-test], from: 2024-01-01, until: 2026-12-31, document: training record 7}

            lots:
              - {id: BI-3, kind: biological, product: "spore strip (invented)", number: LOT-0003, expires: 2026-12, incubation: 168 h}
            """;

    private DemoRegister() {}
}
