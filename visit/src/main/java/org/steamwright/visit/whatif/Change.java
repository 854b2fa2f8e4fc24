package org.steamwright.visit.whatif;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.visit.Visit;

/** One premise that is another one. */
public sealed interface Change {

    /** Whether the visit has anything that this change could touch. */
    boolean concerns(Visit visit);

    /** The visit with this premise changed and everything else as it is. */
    Visit applied(Visit visit);

    /** What is different, for people. */
    String words();

    /**
     * Other limits: another criteria set or another edition of the same.
     *
     * @param set to judge by
     */
    record OtherSet(CriteriaSet set) implements Change {
        @Override
        public boolean concerns(Visit visit) {
            return true;
        }

        @Override
        public Visit applied(Visit visit) {
            return visit.judgedBy(set);
        }

        @Override
        public String words() {
            return "judged by " + set.identity();
        }
    }

    /**
     * Another decision rule for everything that is held against a limit.
     *
     * @param rule in force
     */
    record OtherRule(DecisionRule rule) implements Change {
        @Override
        public boolean concerns(Visit visit) {
            return true;
        }

        @Override
        public Visit applied(Visit visit) {
            CriteriaSet set = visit.criteriaSet();
            Map<CriterionId, Requirement> requirements = new HashMap<>();
            set.requirements()
                    .forEach((id, asked) -> requirements.put(
                            id,
                            new Requirement(
                                    id, asked.use(), asked.limit(), asked.secondLimit(), rule, asked.source())));
            return visit.judgedBy(set.withRequirements(requirements));
        }

        @Override
        public String words() {
            return "decision rule " + rule.word();
        }
    }

    /**
     * Another formula of the theoretical temperature.
     *
     * @param curve to compute it by
     */
    record OtherFormula(SaturationCurve curve) implements Change {
        @Override
        public boolean concerns(Visit visit) {
            return true;
        }

        @Override
        public Visit applied(Visit visit) {
            return visit.judgedBy(visit.criteriaSet().withCurve(curve));
        }

        @Override
        public String words() {
            return "theoretical temperature by " + curve.title();
        }
    }

    /**
     * The clock of an instrument, of one channel or of one recording read wrong.
     *
     * @param name id of an instrument, name of a channel, or name of a recording beside another in the same run
     * @param seconds added to the times of its samples
     */
    record ClockMoved(String name, double seconds) implements Change {
        @Override
        public boolean concerns(Visit visit) {
            return visit.runs().stream()
                    .anyMatch(run ->
                            touches(run.test().trace()) || recording(run.test()).isPresent());
        }

        @Override
        public Visit applied(Visit visit) {
            return withTests(
                    visit,
                    test -> touches(test.trace())
                            ? test.withTrace(moved(test.trace()))
                            : recording(test)
                                    .map(file -> test.withClockMoved(file, seconds))
                                    .orElse(test));
        }

        private Optional<String> recording(TestRun test) {
            return test.clocks().recordings().stream()
                    .map(RecordingClock::file)
                    .filter(file -> file.equals(name) || file.endsWith("/" + name))
                    .findFirst();
        }

        @Override
        public String words() {
            return "clock of %s moved by %s s".formatted(name, Signed.of(seconds));
        }

        private boolean touches(Trace trace) {
            return trace.channels().stream().anyMatch(this::isMeant);
        }

        private boolean isMeant(Channel channel) {
            return channel.name().equals(name)
                    || channel.instrument().filter(name::equals).isPresent();
        }

        private Trace moved(Trace trace) {
            List<Channel> channels = trace.channels().stream()
                    .map(channel ->
                            isMeant(channel) ? channel.onAxis(channel.axis().shifted(seconds)) : channel)
                    .toList();
            return new Trace(trace.start(), trace.zone(), channels, trace.files(), trace.remarks());
        }
    }

    /**
     * An instrument read high by so much more than its certificate says: as found when it came back out of tolerance.
     *
     * @param instrument id
     * @param error indication less true value beyond what the certificate already corrects, in kelvin or kilopascal
     * @param quantity what the instrument measures
     */
    record InstrumentError(String instrument, double error, Quantity quantity) implements Change {
        @Override
        public boolean concerns(Visit visit) {
            return visit.runs().stream()
                    .flatMap(run -> run.test().instruments().values().stream())
                    .anyMatch(one -> one.id().equals(instrument)
                            && one.quantity() == quantity
                            && one.certificate().isPresent());
        }

        @Override
        public Visit applied(Visit visit) {
            return withTests(visit, this::erring);
        }

        @Override
        public String words() {
            return "%s reads %s %s too high"
                    .formatted(instrument, Signed.of(error), quantity == Quantity.TEMPERATURE ? "K" : "kPa");
        }

        private TestRun erring(TestRun test) {
            return Optional.ofNullable(test.instruments().get(instrument))
                    .map(one -> test.trace().lastDay().map(one::on).orElse(one))
                    .filter(one -> one.certificate().isPresent())
                    .map(one -> test.withInstrument(one.withError(error)))
                    .orElse(test);
        }
    }

    private static Visit withTests(Visit visit, UnaryOperator<TestRun> change) {
        return visit.withRuns(visit.runs().stream()
                .map(run -> run.withTest(change.apply(run.test())))
                .toList());
    }
}
