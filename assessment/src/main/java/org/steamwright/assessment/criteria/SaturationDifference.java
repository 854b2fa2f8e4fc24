package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * The largest difference between a measured point and the saturation temperature of the measured pressure in the holding
 * time, either way.
 *
 * <p>Colder than theory is the sign of air or of a wet, slow sensor; hotter the sign of superheat; both can be a wrong
 * pressure.
 */
public final class SaturationDifference implements Criterion<RunEvidence> {

    private final SaturationCurve curve;

    /**
     * @param curve formula of the theoretical temperature
     */
    public SaturationDifference(SaturationCurve curve) {
        this.curve = curve;
    }

    @Override
    public CriterionId id() {
        return CriterionId.SATURATION_DIFFERENCE;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (evidence.corrected().pressure().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: no pressure was recorded.");
        }
        if (evidence.holding().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: there was no holding time.");
        }
        Optional<SteamCondition> condition = condition(evidence, curve);
        if (condition.isEmpty()) {
            return Findings.invalid(
                    requirement,
                    Evidence.stretch(
                            evidence.judgedNames(),
                            evidence.holding().get().fromSeconds(),
                            evidence.holding().get().toSeconds()),
                    "No pressure was recorded at the moments of the temperatures.");
        }
        SteamCondition steam = condition.get();
        boolean isCold = steam.isColdWorse();
        String name = isCold ? steam.coldestChannel() : steam.hottestChannel();
        double moment = isCold ? steam.coldestSeconds() : steam.hottestSeconds();
        Figure figure = figure(evidence, steam);
        Evidence place = Evidence.at(
                name,
                moment,
                evidence.holding().get().fromSeconds(),
                evidence.holding().get().toSeconds());
        String sentence = "Channel %s was %s %s than the theoretical temperature at %s (%s)."
                .formatted(
                        name,
                        Figures.shown(steam.largestDifference(), Unit.KELVIN, Comparison.AT_MOST),
                        isCold ? "colder" : "hotter",
                        Figures.moment(moment),
                        curve.id());
        return requirement.limit().isEmpty()
                ? Findings.reported(requirement, figure, place, sentence)
                : Findings.judged(requirement, requirement.limit().get(), figure, place, sentence);
    }

    /** The largest difference, with the worst end of any point: each has its own doubt beside the theoretical one. */
    private Figure figure(RunEvidence evidence, SteamCondition steam) {
        CorrectedChannel theoretical =
                evidence.corrected().find(ChannelRole.THEORETICAL).orElseThrow();
        CorrectedChannel pressure = evidence.corrected().pressure().orElseThrow();
        double low = Double.NEGATIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (CorrectedChannel point : evidence.measured()) {
            double doubt = DifferenceDoubt.of(point, theoretical);
            double smallest = Double.POSITIVE_INFINITY;
            for (double shift : ClockDoubt.shifts(evidence.clockHalfWidth(point, pressure))) {
                Optional<SteamCondition> own = SteamCondition.of(
                        List.of(point),
                        theoretical.delayed(shift),
                        pressure.delayed(shift),
                        curve,
                        within(evidence.holding().orElseThrow(), shift));
                if (own.isPresent()) {
                    smallest = Math.min(smallest, own.get().largestDifference());
                    high = Math.max(high, own.get().largestDifference() + doubt);
                }
            }
            if (Double.isFinite(smallest)) {
                low = Math.max(low, smallest - doubt);
            }
        }
        String decided = steam.isColdWorse() ? steam.coldestChannel() : steam.hottestChannel();
        return new Figure(
                        steam.largestDifference(),
                        Math.min(low, steam.largestDifference()),
                        high,
                        Unit.KELVIN,
                        DifferenceDoubt.BASIS)
                .withBudget(evidence.measured().stream()
                        .filter(point -> point.name().equals(decided))
                        .findFirst()
                        .flatMap(point -> DifferenceDoubt.budget(point, theoretical)));
    }

    /** The part of a stretch that stays inside it when a clock is moved. */
    private static Stretch within(Stretch stretch, double shift) {
        double from = Math.max(stretch.fromSeconds(), stretch.fromSeconds() + shift);
        double to = Math.min(stretch.toSeconds(), stretch.toSeconds() + shift);
        return from <= to ? new Stretch(from, to) : stretch;
    }

    /** Measured against theoretical temperature in the holding time; empty without pressure or holding time. */
    public static Optional<SteamCondition> condition(RunEvidence evidence, SaturationCurve curve) {
        Optional<CorrectedChannel> pressure = evidence.corrected().pressure();
        Optional<CorrectedChannel> theoretical = evidence.corrected().find(ChannelRole.THEORETICAL);
        if (pressure.isEmpty() || theoretical.isEmpty() || evidence.holding().isEmpty()) {
            return Optional.empty();
        }
        return SteamCondition.of(
                evidence.measured(),
                theoretical.get(),
                pressure.get(),
                curve,
                evidence.holding().get());
    }
}
