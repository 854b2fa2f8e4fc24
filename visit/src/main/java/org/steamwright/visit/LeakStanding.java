package org.steamwright.visit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Sterilizer;

/**
 * The air leakage tests of one sterilizer taken together: without sensors, with them, and after.
 *
 * <p>Of each stage the last test that passed or failed counts; what came before is named. A test that passes without
 * sensors and fails with them points to the gland or the cables, so runs made through that port are not counted
 * ({@link #leaksAtTheSensors}). A port that was opened is tight only when a test after it says so.
 *
 * @source draft of EN 285, 16.1.3 (seen) for the test with sensors fitted; the patterns are common practice, no source
 */
final class LeakStanding {

    private final Sterilizer sterilizer;
    private final List<AssessedRun> tests;

    LeakStanding(Sterilizer sterilizer, List<AssessedRun> runsOfVisit) {
        this.sterilizer = sterilizer;
        this.tests = runsOfVisit.stream()
                .filter(run -> run.run().sterilizer().equals(sterilizer.key()))
                .filter(run -> run.run().test().kind() == TestKind.LEAK)
                .toList();
    }

    /** Empty for a sterilizer that removes no air by vacuum and was not tested either. */
    Optional<Qualification> find() {
        if (tests.isEmpty() && !removesAirByVacuum(sterilizer)) {
            return Optional.empty();
        }
        return Optional.of(of());
    }

    /**
     * Whether a run was made while the feed-through of the sensors leaked: the last test with sensors before it failed,
     * or the first one after it if there was none before.
     */
    boolean leaksAtTheSensors(AssessedRun run) {
        if (run.run().test().cycle().type() == CycleType.N) {
            return false;
        }
        List<AssessedRun> with = tests.stream()
                .filter(test -> LeakStage.of(test.run()) == LeakStage.WITH_SENSORS)
                .filter(LeakStanding::isDecided)
                .toList();
        Optional<AssessedRun> before =
                last(with.stream().filter(test -> number(test) < number(run)).toList());
        return before.or(() -> with.stream().findFirst())
                .filter(AssessedRun::isFail)
                .isPresent();
    }

    /** Whether some cycle of it draws a vacuum, so that a leak would let air in. */
    static boolean removesAirByVacuum(Sterilizer sterilizer) {
        return sterilizer.cycles().stream()
                .anyMatch(cycle ->
                        cycle.type() == CycleType.B || cycle.airRemovalPulses().orElse(0) > 0);
    }

    private Qualification of() {
        LeakPattern pattern = pattern();
        boolean hasWith = state(stage -> stage == LeakStage.WITH_SENSORS) != State.NONE;
        return answer(standing(pattern), hasWith ? 2 : 1, sentence(pattern));
    }

    /** The three stages beside each other with the pattern they make; empty if there is no leak test but as found. */
    Optional<LeakTrio> trio() {
        LeakPattern pattern = pattern();
        return pattern == LeakPattern.NONE_MADE
                ? Optional.empty()
                : Optional.of(new LeakTrio(
                        sterilizer.key(),
                        stage(LeakStage::isWithoutSensors),
                        stage(stage -> stage == LeakStage.WITH_SENSORS),
                        stage(stage -> stage == LeakStage.AFTER),
                        pattern,
                        sentence(pattern)));
    }

    private LeakPattern pattern() {
        State without = state(LeakStage::isWithoutSensors);
        State with = state(stage -> stage == LeakStage.WITH_SENSORS);
        State after = state(stage -> stage == LeakStage.AFTER);
        if (without == State.NONE && with == State.NONE && after == State.NONE) {
            return LeakPattern.NONE_MADE;
        }
        if (without == State.FAIL) {
            return with == State.PASS ? LeakPattern.WET_OR_COOLING : LeakPattern.STERILIZER;
        }
        if (after == State.FAIL) {
            return LeakPattern.PORT;
        }
        if (with == State.FAIL) {
            return without == State.PASS ? LeakPattern.CABLES : LeakPattern.NOT_TOLD_APART;
        }
        if (with == State.PASS && after != State.PASS) {
            return LeakPattern.PORT_UNKNOWN;
        }
        return without == State.PASS || after == State.PASS ? LeakPattern.TIGHT : LeakPattern.UNDECIDED;
    }

    private static Standing standing(LeakPattern pattern) {
        return switch (pattern) {
            case TIGHT -> Standing.PASS;
            case NONE_MADE -> Standing.NOT_ASSESSED;
            case CABLES, PORT_UNKNOWN, UNDECIDED -> Standing.INCOMPLETE;
            case STERILIZER, WET_OR_COOLING, PORT, NOT_TOLD_APART -> Standing.FAIL;
        };
    }

    private String sentence(LeakPattern pattern) {
        return switch (pattern) {
            case NONE_MADE -> "No air leakage test was made." + asFound();
            case WET_OR_COOLING ->
                "Fails without sensors and passes with them. A leak does not close by itself: a wet or warm chamber in the first test, or one that cooled during the second, is likely. Dry and cool the chamber and repeat both.";
            case STERILIZER ->
                "The steriliser leaks without any sensor in it" + why(LeakStage::isWithoutSensors)
                        + " Door seal, valves, pipework and air filter are looked at first; a wet chamber looks the same.";
            case PORT ->
                "Fails after the sensors were taken out" + why(stage -> stage == LeakStage.AFTER)
                        + " The plug of the port and the door seal are looked at first.";
            case CABLES ->
                "Passes without sensors and fails with them: the air comes in at the gland or along the cables, not by the steriliser itself. Runs made through that port are not counted. Make the feed-through tight, then repeat the test with sensors and those runs.";
            case NOT_TOLD_APART ->
                "Fails with sensors, and no test without them tells the steriliser from the gland and the cables. Repeat it without sensors.";
            case PORT_UNKNOWN ->
                "Tight with the sensors in; the final test after they were taken out is missing, so nobody knows that the port is tight again.";
            case TIGHT -> passed(state(LeakStage::isWithoutSensors), state(stage -> stage == LeakStage.WITH_SENSORS));
            case UNDECIDED -> "No air leakage test could be decided" + why(stage -> true);
        };
    }

    /** The test of a stage that counts: the last that passed or failed, else the last at all. */
    private Optional<LeakTrio.Stage> stage(Predicate<LeakStage> stages) {
        List<AssessedRun> those = tests.stream()
                .filter(test -> stages.test(LeakStage.of(test.run())))
                .toList();
        List<AssessedRun> decided =
                those.stream().filter(LeakStanding::isDecided).toList();
        return last(decided.isEmpty() ? those : decided)
                .map(test -> new LeakTrio.Stage(
                        number(test), test.word(), test.evaluation().leakTest().map(LeakTest::rate), those.size()));
    }

    private String passed(State without, State with) {
        String stages = with == State.PASS
                ? (without == State.PASS
                        ? "without sensors, with them and after they were taken out"
                        : "with sensors and after they were taken out")
                : "as tested";
        return "The steriliser is tight " + stages + "." + earlierFailures() + asFound();
    }

    private String earlierFailures() {
        List<Integer> failed = tests.stream()
                .filter(test -> LeakStage.of(test.run()) != LeakStage.AS_FOUND)
                .filter(AssessedRun::isFail)
                .map(LeakStanding::number)
                .toList();
        return failed.isEmpty()
                ? ""
                : " " + Words.capital(Words.runs(failed)) + " had failed before; the cause belongs into the report.";
    }

    private String asFound() {
        return tests.stream()
                .filter(test -> LeakStage.of(test.run()) == LeakStage.AS_FOUND)
                .map(test -> " As found (run %s): %s."
                        .formatted(number(test), test.isPass() ? "pass" : test.isFail() ? "fail" : "invalid"))
                .reduce("", String::concat);
    }

    private String why(Predicate<LeakStage> stages) {
        List<AssessedRun> those = tests.stream()
                .filter(test -> stages.test(LeakStage.of(test.run())))
                .toList();
        List<AssessedRun> failed = those.stream().filter(AssessedRun::isFail).toList();
        return last(failed.isEmpty() ? those : failed)
                .map(test -> " (run %s): %s".formatted(number(test), Words.sentence(test.cause())))
                .orElse(".");
    }

    private State state(Predicate<LeakStage> stages) {
        State state = State.NONE;
        for (AssessedRun test : tests) {
            if (!stages.test(LeakStage.of(test.run()))) {
                continue;
            }
            if (test.isPass()) {
                state = State.PASS;
            } else if (test.isFail()) {
                state = State.FAIL;
            } else if (state == State.NONE) {
                state = State.UNDECIDED;
            }
        }
        return state;
    }

    private Qualification answer(Standing standing, int needed, String sentence) {
        List<Integer> numbers = new ArrayList<>();
        int row = 0;
        for (AssessedRun test : tests) {
            numbers.add(number(test));
            if (LeakStage.of(test.run()) != LeakStage.AS_FOUND && isDecided(test)) {
                row = test.isPass() ? row + 1 : 0;
            }
        }
        String cycle = tests.isEmpty() ? "" : tests.get(0).run().test().cycle().name();
        return new Qualification(Kind.LEAK, sterilizer.key(), cycle, standing, numbers, row, needed, sentence);
    }

    private static boolean isDecided(AssessedRun test) {
        return test.isPass() || test.isFail();
    }

    private static int number(AssessedRun run) {
        return run.run().number();
    }

    private static Optional<AssessedRun> last(List<AssessedRun> runs) {
        return runs.isEmpty() ? Optional.empty() : Optional.of(runs.get(runs.size() - 1));
    }

    /** What the tests of one stage say together. */
    private enum State {
        NONE,
        UNDECIDED,
        PASS,
        FAIL
    }
}
