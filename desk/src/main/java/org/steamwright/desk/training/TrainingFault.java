package org.steamwright.desk.training;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.simulator.Fault;
import org.steamwright.simulator.Scenarios;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.simulator.Simulation;

/**
 * A kind of fault that training can plant in a run, and the run with it. The same kind and seed give the same run.
 *
 * @param kind of the simulator
 */
public record TrainingFault(Class<? extends Fault> kind) {

    private static final List<Double> TEMPERATURES = List.of(121.0, 134.0);

    /** Needs a test of its own, or two clocks that are compared first. */
    private static final List<Class<? extends Fault>> ELSEWHERE = List.of(Fault.Leak.class, Fault.ClockOffset.class);

    /** All of them, in the order of the simulator. */
    static List<TrainingFault> all() {
        return Scenarios.KINDS.stream()
                .filter(kind -> !ELSEWHERE.contains(kind))
                .map(TrainingFault::new)
                .toList();
    }

    /** The kind of that word. */
    static Optional<TrainingFault> find(String word) {
        return all().stream().filter(fault -> fault.word().equals(word)).findFirst();
    }

    /** The one that a seed draws, for somebody who wants to be surprised. */
    static TrainingFault drawn(long seed) {
        return all().get((int) Math.floorMod(seed, (long) all().size()));
    }

    /** Its name in small letters with strokes, such as {@code short-hold}. */
    public String word() {
        return kind.getSimpleName().replaceAll("(?<=[a-z])(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
    }

    /** Key of its words. */
    public String key() {
        return "training.fault." + word();
    }

    /** The run with this fault planted. */
    SimulatedRun run(long seed) {
        // the name stands on the files, and must not tell what a hidden fault is
        return Simulation.run(Scenarios.randomFaulty(seed, kind, TEMPERATURES).withId("training-" + seed), seed);
    }

    /** What the simulator planted, with its figures. */
    String planted(SimulatedRun run) {
        return run.scenario().faults().stream().map(TrainingFault::figures).collect(Collectors.joining("; "));
    }

    /** The simulator's own figures of a fault, such as {@code missing seconds 41.1}; nothing of it is parsed. */
    private static String figures(Fault fault) {
        String inside = String.valueOf(fault).replaceAll("^[A-Za-z]+\\[|\\]+$", "");
        String spoken = inside.replaceAll("[A-Za-z]+\\[", "")
                .replace("]", "")
                .replace('=', ' ')
                .replaceAll("(?<=[a-z])(?=[A-Z])", " ");
        return Pattern.compile("\\d+\\.\\d+")
                .matcher(spoken)
                .replaceAll(figure -> Figures.nearest(Double.parseDouble(figure.group()), 1))
                .toLowerCase(Locale.ROOT);
    }
}
