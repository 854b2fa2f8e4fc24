package org.steamwright.assessment.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.calibration.TraceCorrection;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSet.CycleLimits;
import org.steamwright.assessment.criteria.Criterion;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Findings;
import org.steamwright.assessment.criteria.LeakCriteria;
import org.steamwright.assessment.criteria.LeakEvidence;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.LowestTemperature;
import org.steamwright.assessment.criteria.OpenDoubt;
import org.steamwright.assessment.criteria.RunCriteria;
import org.steamwright.assessment.criteria.RunEvidence;
import org.steamwright.assessment.criteria.SaturationDifference;
import org.steamwright.assessment.criteria.SensorsAlive;
import org.steamwright.assessment.cycle.Band;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.PhaseFinder;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.PlateauFinder;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.leakage.LeakTestFinder;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.plausibility.Plausibility;
import org.steamwright.assessment.trace.ChannelRole;

/** The way from a run and a criteria set to an evaluation: the one engine behind every door. */
public final class Assessment {

    /** Version of the rules and algorithms, printed on every result. Changes whenever a verdict could. */
    public static final String ALGORITHM_VERSION = "3";

    /** Absolute pressure for which the budgets of a leak test are made, in kilopascal. */
    private static final double LEAK_NOMINAL_KILOPASCAL = 5.0;

    private static final double ROOM_CELSIUS = 20.0;

    private final TestRun run;
    private final CriteriaSet criteriaSet;

    private Assessment(TestRun run, CriteriaSet criteriaSet) {
        this.run = run;
        this.criteriaSet = criteriaSet;
    }

    /**
     * Assesses one run.
     *
     * @param run what was recorded and declared
     * @param criteriaSet limits to judge it by
     * @throws IllegalArgumentException if a leak test has no pressure channel or a thermometric run no temperature channel
     *     in the chamber; intake refuses such a run earlier, with the place in the file
     */
    public static RunEvaluation evaluate(TestRun run, CriteriaSet criteriaSet) {
        Assessment assessment = new Assessment(run, criteriaSet);
        return run.kind() == TestKind.LEAK ? assessment.leak() : assessment.thermometric();
    }

    private CorrectedTrace corrected(double nominalCelsius, double nominalKilopascal) {
        TraceCorrection correction = new TraceCorrection(
                run.instruments(),
                run.ambient().pressure().kilopascal(),
                run.ambient().halfWidthKilopascal(),
                criteriaSet.curve());
        return correction.correct(run.trace(), nominalCelsius, nominalKilopascal);
    }

    /**
     * The phases of a thermometric run, found and stated, without judging anything.
     *
     * @param run what was recorded and declared
     * @param criteriaSet whose band the plateau is looked for in
     * @throws IllegalArgumentException if no temperature was recorded in the chamber
     */
    public static Phases phases(TestRun run, CriteriaSet criteriaSet) {
        Assessment assessment = new Assessment(run, criteriaSet);
        Points points = assessment.points();
        return assessment.phases(points, points.plateau());
    }

    /** The points of a thermometric run and the band that they have to stand in. */
    private record Points(
            CorrectedTrace corrected,
            List<CorrectedChannel> measured,
            List<CorrectedChannel> judged,
            Optional<CorrectedChannel> declaredReference,
            Optional<CycleLimits> limits,
            Band band) {

        CorrectedChannel reference() {
            return declaredReference.orElse(measured.get(0));
        }

        Optional<Plateau> plateau() {
            return new PlateauFinder(reference(), judged, band).find();
        }
    }

    private Points points() {
        double sterilizing = run.cycle().sterilizingTemperature().celsius();
        CorrectedTrace corrected = corrected(sterilizing, criteriaSet.curve().kilopascalAt(sterilizing));
        List<CorrectedChannel> measured = corrected.measuredInChamber();
        if (measured.isEmpty()) {
            throw new IllegalArgumentException("run %s has no temperature channel in the chamber".formatted(run.id()));
        }
        List<CorrectedChannel> judged = new ArrayList<>(measured);
        if (criteriaSet.isTheoreticalInBand()) {
            corrected.find(ChannelRole.THEORETICAL).ifPresent(judged::add);
        }
        Optional<CycleLimits> limits = criteriaSet.findCycle(sterilizing);
        double width = limits.flatMap(CycleLimits::bandWidth).map(Limit::value).orElse(Double.POSITIVE_INFINITY);
        return new Points(
                corrected,
                measured,
                judged,
                corrected.find(ChannelRole.REFERENCE_POINT),
                limits,
                new Band(sterilizing, sterilizing + width));
    }

    private Phases phases(Points points, Optional<Plateau> plateau) {
        return new PhaseFinder(
                        points.reference(),
                        points.corrected().pressure(),
                        run.ambient().pressure().kilopascal(),
                        run.cycle().sterilizingTemperature().celsius())
                .find(plateau)
                .withStated(
                        run.statedBorders(),
                        run.trace().firstSeconds(),
                        run.trace().lastSeconds());
    }

    private RunEvaluation thermometric() {
        double sterilizing = run.cycle().sterilizingTemperature().celsius();
        Points points = points();
        CorrectedTrace corrected = points.corrected();
        List<CorrectedChannel> measured = points.measured();
        List<CorrectedChannel> judged = points.judged();
        CorrectedChannel reference = points.reference();
        Band band = points.band();
        Optional<Plateau> asRead = points.plateau();
        List<CorrectedChannel> loweredPoints = shifted(judged, -1);
        Optional<Plateau> lowered = plateau(loweredPoints, judged.indexOf(reference), band);
        Optional<Plateau> raised = plateau(shifted(judged, 1), judged.indexOf(reference), band);
        Phases phases = phases(points, asRead);
        RunEvidence evidence = new RunEvidence(
                run.cycle(),
                points.limits(),
                corrected,
                judged,
                reference,
                points.declaredReference().isPresent(),
                band,
                asRead,
                lowered,
                raised,
                LowestTemperature.lowestTogether(loweredPoints, lowered),
                phases,
                run.ambient().pressure().kilopascal(),
                run.ambient().halfWidthKilopascal(),
                run.ambient().basis().words(),
                run.clocks());
        List<Finding> answers = ClockTrust.revised(judge(RunCriteria.all(criteriaSet.curve()), evidence), evidence);
        List<Oddity> oddities = new Plausibility(
                        corrected,
                        asRead.map(plateau -> new Stretch(plateau.reachedSeconds(), plateau.endSeconds())),
                        sterilizing,
                        run.ambient().pressure().kilopascal(),
                        criteriaSet.curve())
                .look();
        List<Finding> findings =
                Spoilt.revised(Trust.revised(answers, () -> SensorsAlive.untrusted(evidence)), oddities, evidence)
                        .stream()
                        .map(OpenDoubt::told)
                        .toList();
        Optional<SteamCondition> steam = SaturationDifference.condition(evidence, criteriaSet.curve());
        RunVerdict verdict = Verdicts.of(findings, Finding::outcome);
        return new RunEvaluation(
                run,
                criteriaSet,
                corrected,
                Optional.of(phases),
                asRead,
                lowered,
                raised,
                statistics(corrected, evidence.holding()),
                steam,
                lethality(measured),
                measured.stream().map(CorrectedChannel::name).toList(),
                Optional.empty(),
                findings,
                verdict,
                Verdicts.of(findings, Verdicts::simple),
                Verdicts.of(findings, Verdicts::guarded),
                verdict.isPass() ? List.of() : Hints.of(findings, evidence, steam),
                oddities);
    }

    private static Optional<Plateau> plateau(List<CorrectedChannel> points, int reference, Band band) {
        return new PlateauFinder(points.get(reference), points, band).find();
    }

    private static List<CorrectedChannel> shifted(List<CorrectedChannel> points, int sign) {
        return points.stream()
                .map(point -> point.shifted(sign * point.expanded().value()))
                .toList();
    }

    private RunEvaluation leak() {
        CorrectedTrace corrected = corrected(ROOM_CELSIUS, LEAK_NOMINAL_KILOPASCAL);
        CorrectedChannel pressure = corrected
                .pressure()
                .orElseThrow(() -> new IllegalArgumentException(
                        "run %s is a leak test without a pressure channel".formatted(run.id())));
        Optional<CorrectedChannel> temperature =
                corrected.measuredInChamber().stream().findFirst();
        Optional<LeakTest> test = run.leakPeriods()
                .map(periods -> LeakTestFinder.declared(
                        pressure,
                        temperature,
                        periods.isolationSeconds(),
                        periods.settledSeconds(),
                        periods.endSeconds()))
                .orElseGet(() -> LeakTestFinder.find(pressure, temperature));
        LeakEvidence evidence = new LeakEvidence(
                corrected,
                pressure,
                test,
                run.ambient().pressure().kilopascal(),
                run.ambient().halfWidthKilopascal(),
                run.ambient().basis().words());
        List<Finding> findings = Trust.revised(judge(LeakCriteria.all(), evidence), Set::of).stream()
                .map(OpenDoubt::told)
                .toList();
        RunVerdict verdict = Verdicts.of(findings, Finding::outcome);
        return new RunEvaluation(
                run,
                criteriaSet,
                corrected,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                List.of(),
                List.of(),
                test,
                findings,
                verdict,
                Verdicts.of(findings, Verdicts::simple),
                Verdicts.of(findings, Verdicts::guarded),
                verdict.isPass() ? List.of() : Hints.ofLeak(findings));
    }

    private <E> List<Finding> judge(List<Criterion<E>> criteria, E evidence) {
        List<Finding> findings = new ArrayList<>();
        for (Criterion<E> criterion : criteria) {
            findings.add(criteriaSet
                    .find(criterion.id())
                    .map(requirement -> criterion.judge(evidence, requirement))
                    .orElseGet(() -> Findings.notAsked(criterion.id(), criteriaSet)));
        }
        return findings;
    }

    private static List<ChannelStatistics> statistics(CorrectedTrace corrected, Optional<Stretch> holding) {
        List<ChannelStatistics> statistics = new ArrayList<>();
        if (holding.isPresent()) {
            for (CorrectedChannel channel : corrected.channels()) {
                ChannelStatistics.find(channel, holding.get()).ifPresent(statistics::add);
            }
        }
        return statistics;
    }

    private List<Lethality> lethality(List<CorrectedChannel> channels) {
        return channels.stream()
                .map(channel -> Lethality.of(
                        channel,
                        run.lethality().referenceCelsius(),
                        run.lethality().z(),
                        Math.max(channel.axis().first(), run.lethality().fromSeconds()),
                        channel.axis().last()))
                .toList();
    }
}
