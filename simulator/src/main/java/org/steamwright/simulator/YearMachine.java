package org.steamwright.simulator;

/**
 * A steriliser of the invented year.
 *
 * @param clinic where it stands
 * @param serial number on the plate
 * @param isLarge whether it is the larger of the two models
 * @param counter that it showed four hundred days before the year ends
 * @param status word of the register
 */
record YearMachine(YearClinic clinic, String serial, boolean isLarge, int counter, String status) {

    private static final int CYCLES_PER_DAY = 4;
    private static final int FIRST_DAY = 400;

    static final YearMachine EX_1001 = new YearMachine(YearClinic.DENTAL, "EX-1001", false, 1_480, "in-use");
    static final YearMachine EX_2002 = new YearMachine(YearClinic.DENTAL, "EX-2002", true, 902, "in-use");
    static final YearMachine EX_3003 = new YearMachine(YearClinic.SURGERY, "EX-3003", false, 3_020, "in-use");
    static final YearMachine EX_4004 = new YearMachine(YearClinic.SURGERY, "EX-4004", false, 2_260, "out-of-service");
    static final YearMachine EX_5005 = new YearMachine(YearClinic.FOOT, "EX-5005", true, 410, "in-use");
    static final YearMachine EX_6006 = new YearMachine(YearClinic.FOOT, "EX-6006", false, 5_150, "in-use");

    CycleProgram cycle() {
        return isLarge ? DemoRun.CYCLE_B : DemoRun.CYCLE_A;
    }

    /** What the counter shows so many days before the year ends. */
    int counterAt(int daysAgo) {
        return counter + CYCLES_PER_DAY * (FIRST_DAY - daysAgo);
    }

    /** The lines of the name plate, as visit and register write them. */
    String plate(String indent) {
        return """
                maker: Example Works (invented)
                model: %s
                serial: %s
                year: %s
                chamber: %s
                chamber-size: %s
                tray-levels: %s
                """.formatted(
                        isLarge ? "Bench 22 (invented)" : "Bench 17 (invented)",
                        serial,
                        isLarge ? "2018" : "2021",
                        isLarge ? "22 L" : "17 L",
                        isLarge ? "250 x 450 mm" : "250 x 350 mm",
                        isLarge ? 5 : 3)
                .lines()
                .map(line -> indent + line + "\n")
                .reduce("", String::concat);
    }

    String declaredCycle() {
        CycleProgram cycle = cycle();
        return "{name: %s, type: %s, sterilizing-temperature: %s °C, holding-time: %s s, air-removal-pulses: %s, drying-time: %s s}"
                .formatted(
                        cycle.name(),
                        cycle.type(),
                        DemoText.plain(cycle.sterilizingCelsius()),
                        DemoText.plain(cycle.declaredHoldSeconds()),
                        cycle.vacuumPulses(),
                        cycle.definition().dryingTime().orElseThrow().toSeconds());
    }
}
