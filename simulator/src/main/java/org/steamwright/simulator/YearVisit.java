package org.steamwright.simulator;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.steamwright.assessment.verdict.TestKind;

/**
 * A visit of the invented year: one machine, one day, and what came of it.
 *
 * @param number of the report
 * @param machine that was visited
 * @param daysAgo how long before the end of the year
 * @param day at the site
 * @param done what was done
 * @param leakRate of the first leak test in kPa/min
 */
public record YearVisit(String number, YearMachine machine, int daysAgo, LocalDate day, Done done, double leakRate) {

    private static final long INSTRUMENTS = 20_260_302L;
    private static final LocalTime ARRIVAL = LocalTime.of(8, 30);
    private static final double SENSORS_LEAK = 0.006;
    private static final int INCUBATION_DAYS = 7;

    /** What was done on a visit, and what came of it. */
    public enum Done {
        /** Everything of a yearly visit, indicators read, fit to be signed. */
        YEARLY,
        /** The same, indicators still in the incubator. */
        AWAITED,
        /** Begun and not finished. */
        BEGUN,
        /** A leak test after a smaller job. */
        LEAK_ONLY,
        /** A loaded run failed and the visit was ended there. */
        FAILED
    }

    /** Whether somebody signed it within the year. */
    public boolean isSigned() {
        return done != Done.AWAITED && done != Done.BEGUN;
    }

    /** Day on which it was finished and could be signed. */
    public LocalDate finished() {
        return done == Done.LEAK_ONLY ? day : day.plusDays(INCUBATION_DAYS + 1L);
    }

    /** Serial number of the machine. */
    public String serial() {
        return machine.serial();
    }

    LocalDate incubatedUntil() {
        return day.plusDays(INCUBATION_DAYS);
    }

    /** Zone of the sites. */
    public static ZoneId zone() {
        return DemoVisit.ZONE;
    }

    /** All files of the visit by their names, the description last; the same bytes on every machine. */
    public Map<String, byte[]> files() {
        YearText text = new YearText(this);
        Map<String, byte[]> files = new LinkedHashMap<>();
        for (DemoRun run : runs()) {
            for (LoggerFile file : run.simulated().files()) {
                files.put("recordings/" + file.name(), file.bytes());
            }
            text.add(run);
        }
        files.put(DemoVisit.VISIT_FILE, text.write().getBytes(StandardCharsets.UTF_8));
        return files;
    }

    List<DemoRun> runs() {
        CycleProgram cycle = machine.cycle();
        List<DemoRun> runs = new ArrayList<>();
        add(runs, "without-sensors", DemoRun.leak(leakRate, false));
        if (done == Done.LEAK_ONLY) {
            return runs;
        }
        add(runs, "with-sensors", DemoRun.leak(leakRate + SENSORS_LEAK, true));
        add(runs, "", DemoRun.empty(cycle));
        switch (done) {
            case FAILED ->
                add(
                        runs,
                        "",
                        DemoRun.loaded(cycle)
                                .withFaults(
                                        new Fault.ShallowPulse(2, 62),
                                        new Fault.ResidualAir("T5", new MeasuringPoint.Air(0.22, 0.018, 45))));
            case BEGUN -> add(runs, "", DemoRun.loaded(cycle));
            default -> {
                for (int i = 0; i < 3; i++) {
                    add(runs, "", DemoRun.loaded(cycle));
                }
                add(runs, "after", DemoRun.leak(leakRate + 0.002, false));
            }
        }
        return runs;
    }

    private void add(List<DemoRun> runs, String stage, Scenario scenario) {
        int run = runs.size() + 1;
        Instant start =
                day.atTime(ARRIVAL).atZone(DemoVisit.ZONE).toInstant().plusSeconds(DemoRun.SECONDS_BETWEEN * run);
        String what = scenario.kind() == TestKind.LEAK
                ? "leak-" + stage
                : scenario.kind() == TestKind.LOADED ? "loaded" : "empty";
        Scenario ready = scenario.withId(String.format(Locale.ROOT, "%02d-a-%s", run, what))
                .withLogging(scenario.logging().withStart(start, DemoVisit.ZONE))
                .withSurroundings(Surroundings.of(DemoRun.BAROMETER));
        runs.add(new DemoRun(
                run,
                "A",
                machine.counterAt(daysAgo) + run,
                stage,
                Simulation.run(ready, number.hashCode() + (long) run, INSTRUMENTS)));
    }
}
