package org.steamwright.visit.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Part;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.SterilizerRecord.RegisteredCycle;

/**
 * Makes the plan of a visit from its reasons. Several reasons ask for the tests of each, once, and what loaded runs rest on
 * ({@link BesideLoads}) is planned with them whether or not a reason asks for it.
 *
 * <p>Each cycle in use is in scope, however seldom it is run. How many loaded runs in a row a cycle takes is the criteria
 * set's affair. While a cycle runs, work that needs no machine is put into the wait where it fits.
 */
public final class Planning {

    /** Chamber volume in litres from which a machine is no small sterilizer any more. */
    private static final double LARGE_LITRES = 60;

    private static final int LONG_DAY_MINUTES = 600;

    private final AfterChange after;
    private final SterilizerRecord machine;
    private final Register register;
    private final CriteriaSet criteria;
    private final Set<String> named;
    private final List<VisitPlan.Addition> additions = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();

    private Planning(
            AfterChange after, Register register, SterilizerRecord machine, CriteriaSet criteria, Set<String> named) {
        this.after = after;
        this.register = register;
        this.machine = machine;
        this.criteria = criteria;
        this.named = named;
    }

    /**
     * The plan.
     *
     * @param reasons words of rows of the matrix, at least one
     * @param named names of the cycles that a reason is about, such as a new one; may be empty
     * @throws IllegalArgumentException if a reason or a cycle is not known; the message says which there are
     */
    public static VisitPlan of(
            AfterChange after,
            Register register,
            SterilizerRecord machine,
            CriteriaSet criteria,
            List<String> reasons,
            List<String> named) {
        List<AfterChange.Row> rows = new ArrayList<>();
        for (String word : new LinkedHashSet<>(reasons)) {
            rows.add(after.find(word)
                    .orElseThrow(() -> new IllegalArgumentException(
                            "no reason is called " + word + "; there are " + String.join(", ", after.words()))));
        }
        if (rows.isEmpty()) {
            throw new IllegalArgumentException("a plan needs a reason; there are " + String.join(", ", after.words()));
        }
        List<String> known = machine.cycles().stream()
                .map(cycle -> cycle.definition().name())
                .toList();
        for (String name : named) {
            if (!known.contains(name)) {
                throw new IllegalArgumentException("steriliser " + machine.id() + " has no cycle called " + name
                        + "; it has " + String.join(", ", known));
            }
        }
        return new Planning(after, register, machine, criteria, new LinkedHashSet<>(named)).plan(rows);
    }

    private VisitPlan plan(List<AfterChange.Row> rows) {
        List<VisitPlan.Step> main = main(rows);
        List<VisitPlan.Step> steps = new Timetable(after.times()).of(main);
        addNotes(rows, steps);
        int minutes = steps.stream().mapToInt(VisitPlan.Step::ends).max().orElse(0);
        return new VisitPlan(
                machine,
                rows,
                additions,
                criteria.identity(),
                criteria.consecutiveRunsSource().map(List::of).orElse(List.<Source>of()),
                steps,
                minutes,
                needs(steps),
                notes);
    }

    /** All steps one after the other, not yet with a time of day. */
    private List<VisitPlan.Step> main(List<AfterChange.Row> rows) {
        Set<StepKind> checks = EnumSet.of(StepKind.ARRIVAL, StepKind.LOG_BOOK, StepKind.DRAFT, StepKind.HANDOVER);
        List<RegisteredCycle> penetration = new ArrayList<>();
        List<RegisteredCycle> empty = new ArrayList<>();
        List<RegisteredCycle> loaded = new ArrayList<>();
        for (AfterChange.Row row : rows) {
            checks.addAll(row.checks());
            choose(row.penetration(), penetration);
            choose(row.loaded(), loaded);
            if (row.empty() != AfterChange.Extent.ONE_RUN) {
                choose(row.empty(), empty);
            }
        }
        boolean isOneAsked = rows.stream().anyMatch(row -> row.empty() == AfterChange.Extent.ONE_RUN);
        if (isOneAsked && empty.isEmpty()) {
            choose(AfterChange.Extent.ONE_RUN, empty);
        }
        penetration.removeIf(cycle -> !cycle.drawsVacuum());
        List<RegisteredCycle> planned = new ArrayList<>(machine.cyclesInUse());
        planned.addAll(empty);
        planned.addAll(loaded);
        boolean isVacuumDrawn = planned.stream().anyMatch(RegisteredCycle::drawsVacuum);
        addBesideLoads(checks, empty, loaded, isVacuumDrawn);
        if (!empty.isEmpty() || !loaded.isEmpty()) {
            checks.addAll(EnumSet.of(StepKind.FIT_SENSORS, StepKind.REMOVE_SENSORS));
        }
        if (!loaded.isEmpty()) {
            checks.addAll(EnumSet.of(StepKind.DESCRIBE_LOAD, StepKind.STAFF));
        }
        withLeakTests(checks, isVacuumDrawn);
        List<VisitPlan.Step> steps = new ArrayList<>();
        for (StepKind kind : StepKind.values()) {
            switch (kind) {
                case PENETRATION -> runs(kind, penetration, 1, steps);
                case EMPTY_CHAMBER -> runs(kind, empty, after.times().emptyRuns(), steps);
                case LOADED -> runs(kind, loaded, criteria.consecutiveRuns(), steps);
                default -> {
                    if (checks.contains(kind)) {
                        steps.add(new VisitPlan.Step(
                                kind, "", 0, 0, 0, after.times().of(kind), false));
                    }
                }
            }
        }
        return steps;
    }

    /** Nobody does what a plan says and qualifies nothing by it: what loaded runs rest on is planned with them. */
    private void addBesideLoads(
            Set<StepKind> checks, List<RegisteredCycle> empty, List<RegisteredCycle> loaded, boolean isVacuumDrawn) {
        if (loaded.isEmpty()) {
            return;
        }
        boolean isLeakTestMissing = isVacuumDrawn
                && BesideLoads.isLeakTestAskedFor(criteria)
                && !checks.contains(StepKind.LEAK_WITHOUT_SENSORS);
        if (isLeakTestMissing) {
            checks.add(StepKind.LEAK_WITHOUT_SENSORS);
            additions.add(new VisitPlan.Addition(StepKind.LEAK_WITHOUT_SENSORS, "", BesideLoads.SOURCE));
        }
        for (RegisteredCycle cycle : loaded) {
            if (!empty.contains(cycle)) {
                empty.add(cycle);
                additions.add(new VisitPlan.Addition(
                        StepKind.EMPTY_CHAMBER, cycle.definition().name(), BesideLoads.SOURCE));
            }
        }
        empty.sort(Comparator.comparingInt(machine.cycles()::indexOf));
    }

    /** A leak test asked for is made without sensors, with them and after them; a machine without vacuum has none. */
    private void withLeakTests(Set<StepKind> checks, boolean isVacuumDrawn) {
        Set<StepKind> leaks = EnumSet.of(
                StepKind.LEAK_AS_FOUND, StepKind.LEAK_WITHOUT_SENSORS, StepKind.LEAK_WITH_SENSORS, StepKind.LEAK_AFTER);
        boolean isAsked = leaks.stream().anyMatch(checks::contains);
        if (!isVacuumDrawn) {
            checks.removeAll(leaks);
            if (isAsked) {
                notes.add("No cycle in use draws a vacuum: a leak test does not apply.");
            }
            return;
        }
        if (checks.contains(StepKind.FIT_SENSORS) && checks.contains(StepKind.LEAK_WITHOUT_SENSORS)) {
            checks.add(StepKind.LEAK_WITH_SENSORS);
            checks.add(StepKind.LEAK_AFTER);
        }
    }

    private void choose(AfterChange.Extent extent, List<RegisteredCycle> chosen) {
        List<RegisteredCycle> inUse = machine.cyclesInUse();
        List<RegisteredCycle> more = switch (extent) {
            case NONE -> List.of();
            case ONE_RUN ->
                inUse.stream()
                        .max(Comparator.comparing(Planning::hardness))
                        .map(List::of)
                        .orElse(List.of());
            case VACUUM -> inUse.stream().filter(RegisteredCycle::drawsVacuum).toList();
            case ALL -> inUse;
            case NAMED ->
                named.isEmpty()
                        ? inUse
                        : machine.cycles().stream()
                                .filter(cycle ->
                                        named.contains(cycle.definition().name()))
                                .toList();
        };
        for (RegisteredCycle cycle : machine.cycles()) {
            if (more.contains(cycle) && !chosen.contains(cycle)) {
                chosen.add(cycle);
            }
        }
        chosen.sort(Comparator.comparingInt(machine.cycles()::indexOf));
    }

    /** Which of the cycles in use asks most of the machine: vacuum first, then temperature. */
    private static double hardness(RegisteredCycle cycle) {
        return (cycle.drawsVacuum() ? 1000 : 0)
                + cycle.definition().sterilizingTemperature().celsius();
    }

    private void runs(StepKind kind, List<RegisteredCycle> cycles, int count, List<VisitPlan.Step> steps) {
        for (RegisteredCycle cycle : cycles) {
            for (int run = 1; run <= count; run++) {
                int minutes = after.times().of(kind, cycle.definition());
                steps.add(new VisitPlan.Step(kind, cycle.definition().name(), run, count, 0, minutes, false));
            }
        }
    }

    private void addNotes(List<AfterChange.Row> rows, List<VisitPlan.Step> steps) {
        int minutes = steps.stream().mapToInt(VisitPlan.Step::ends).max().orElse(0);
        if (minutes > LONG_DAY_MINUTES) {
            notes.add(
                    "Longer than a working day: spread it over two, each with its own check of clocks and instruments and"
                            + " its own control of the indicators; no run is dropped for it.");
        }
        if (!additions.isEmpty()) {
            notes.add(BesideLoads.WHY);
        } else if (steps.stream().noneMatch(step -> step.kind() == StepKind.LOADED)) {
            notes.add(
                    "No loaded run is planned, so this visit qualifies no cycle. What an earlier visit qualified stands as far"
                            + " as nothing speaks against it that is found here.");
        }
        for (AfterChange.Row row : rows) {
            if (!row.note().isBlank()) {
                notes.add(row.title() + ": " + row.note());
            }
        }
        if (machine.cyclesInUse().isEmpty()) {
            notes.add("The register names no cycle in use: ask which cycles the clinic runs, or no run is in scope.");
        }
        machine.identity()
                .chamberLitres()
                .filter(litres -> litres >= LARGE_LITRES)
                .ifPresent(litres -> notes.add(
                        "The chamber has 60 litres or more: standards for small sterilisers do not cover it, another criteria"
                                + " set is needed."));
        for (RegisteredCycle cycle : machine.cycles()) {
            String name = cycle.definition().name();
            boolean isPlanned = steps.stream().anyMatch(step -> step.cycle().equals(name));
            if (isPlanned && cycle.definition().type() == CycleType.N) {
                notes.add(
                        name + " is of type N: for unwrapped solid items only, nothing wrapped or hollow may be in its"
                                + " reference load.");
            }
            if (isPlanned && cycle.definition().type() == CycleType.S) {
                notes.add(name + " is of type S: for the loads that its maker lists; have the list at hand.");
            }
            if (isPlanned
                    && criteria.findCycle(
                                    cycle.definition().sterilizingTemperature().celsius())
                            .isEmpty()) {
                notes.add(
                        "The criteria set " + criteria.name() + " has no limits for the temperature of " + name + ".");
            }
        }
        for (List<SterilizerRecord> pair : register.lookalikes()) {
            if (pair.contains(machine)) {
                SterilizerRecord other = pair.get(pair.get(0).equals(machine) ? 1 : 0);
                notes.add("Easily taken for " + other.id() + " in the same room: compare the serial number "
                        + machine.identity().serial() + " with the plate before each run.");
            }
        }
        if (machine.isLoaner() && !steps.stream().anyMatch(step -> step.kind() == StepKind.LOADED)) {
            notes.add(
                    "A loaner: what it was tested with elsewhere was another clinic's load. Here it needs its own loaded"
                            + " runs; add the reason new-load.");
        }
        if (machine.status() != SterilizerRecord.Status.IN_USE) {
            notes.add("The register has it as " + machine.status().words() + ".");
        }
    }

    private List<VisitPlan.Need> needs(List<VisitPlan.Step> steps) {
        List<VisitPlan.Need> needs = new ArrayList<>();
        long loaded = count(steps, StepKind.LOADED);
        long empty = count(steps, StepKind.EMPTY_CHAMBER);
        long penetration = count(steps, StepKind.PENETRATION);
        boolean isLeak = steps.stream()
                .anyMatch(step -> step.kind().isCycle() && step.cycle().isBlank());
        if (empty + loaded > 0) {
            add(
                    needs,
                    VisitPlan.Need.Kind.TEMPERATURE,
                    0,
                    "temperature loggers for the reference measurement point and the places of the chamber"
                            + (loaded > 0 ? ", one for the challenge pack" : ""));
        }
        if (empty + loaded > 0 || isLeak) {
            add(needs, VisitPlan.Need.Kind.PRESSURE, 1, "pressure logger, absolute or with the barometer of the day");
        }
        if (steps.stream().anyMatch(step -> step.kind() == StepKind.ELECTRICAL)) {
            add(needs, VisitPlan.Need.Kind.ELECTRICAL, 1, "electrical safety tester");
        }
        if (penetration > 0) {
            add(
                    needs,
                    VisitPlan.Need.Kind.PENETRATION_DEVICE,
                    (int) penetration,
                    "steam penetration test devices, dry, one for each test");
        }
        if (loaded > 0) {
            int exposed = (int) loaded * after.times().indicatorsPerRun();
            add(
                    needs,
                    VisitPlan.Need.Kind.BIOLOGICAL,
                    exposed + 1,
                    "biological indicators of one lot: " + exposed + " to expose and 1 control for each day");
            add(needs, VisitPlan.Need.Kind.CHEMICAL, (int) loaded, "chemical indicators for the challenge pack");
            add(
                    needs,
                    VisitPlan.Need.Kind.CLINIC,
                    0,
                    "from the clinic: the largest and hardest load it intends to run, clean and dry, in its real packaging,"
                            + " hollow items too; somebody who agrees and signs it");
        }
        if (steps.stream().anyMatch(step -> step.kind() == StepKind.PRESSURE_PERSON)) {
            add(
                    needs,
                    VisitPlan.Need.Kind.PERSON,
                    1,
                    "competent person for pressure vessels; the validator re-sets no safety" + " valve");
        }
        boolean isService = steps.stream().anyMatch(step -> step.kind() == StepKind.SERVICE);
        for (Part part : register.parts()) {
            if (isService && part.fits(machine.identity())) {
                String kit = part.duties().contains(Duty.SERVICE) ? " (by interval)" : " (by condition)";
                add(needs, VisitPlan.Need.Kind.PART, 1, part.name() + " " + part.number() + kit + ", id " + part.id());
            }
        }
        return needs;
    }

    private static long count(List<VisitPlan.Step> steps, StepKind kind) {
        return steps.stream().filter(step -> step.kind() == kind).count();
    }

    private static void add(List<VisitPlan.Need> needs, VisitPlan.Need.Kind kind, int count, String words) {
        needs.add(new VisitPlan.Need(kind, count, words));
    }
}
