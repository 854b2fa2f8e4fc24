package org.steamwright.report.plot;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.report.language.Sentence;

/** What a picture has to say, in one sentence: its title. */
final class Message {

    private static final int SHORT_NAME = 22;

    private Message() {}

    /** A name short enough for a picture; the tables carry it in full. */
    static String shortName(String name) {
        int[] points = name.codePoints().toArray();
        return points.length <= SHORT_NAME ? name : new String(points, 0, SHORT_NAME - 1) + "…";
    }

    /** The channel drawn heavy: the coldest of the holding time, or the one that came last or never. */
    static Optional<CorrectedChannel> coldest(RunEvaluation evaluation) {
        List<CorrectedChannel> chamber = evaluation.corrected().measuredInChamber();
        Optional<String> byStatistics = evaluation.statistics().stream()
                .filter(figures -> chamber.stream().anyMatch(c -> c.name().equals(figures.channel())))
                .min(Comparator.comparingDouble(ChannelStatistics::minimum))
                .map(ChannelStatistics::channel);
        Optional<String> name = byStatistics.or(() -> evaluation
                .plateau()
                .flatMap(plateau -> plateau.latecomers().stream()
                        .findFirst()
                        .or(() -> last(plateau).map(Crossing::channel))));
        return name.flatMap(wanted ->
                        chamber.stream().filter(c -> c.name().equals(wanted)).findFirst())
                .or(() -> chamber.stream().min(Comparator.comparingDouble(Message::highest)));
    }

    static String wholeCycle(RunEvaluation evaluation) {
        double limit = evaluation.run().cycle().sterilizingTemperature().celsius();
        String temperature = Figures.plain(limit, Unit.CELSIUS) + " °C";
        Optional<Plateau> found = evaluation.plateau();
        if (found.isEmpty()) {
            Optional<CorrectedChannel> reference = evaluation.corrected().find(ChannelRole.REFERENCE_POINT);
            return reference
                    .map(channel -> Sentence.of(
                            "%s never reached %s; its highest was %s °C",
                            shortName(channel.name()), temperature, Figures.lowSide(highest(channel), 2)))
                    .orElseGet(() -> Sentence.of("No plateau at %s was found", temperature));
        }
        Plateau plateau = found.get();
        if (!plateau.latecomers().isEmpty()) {
            return Sentence.of(
                    "%s never reached %s", shortName(plateau.latecomers().get(0)), temperature);
        }
        return last(plateau)
                .filter(crossing -> crossing.sampleSeconds() > plateau.reachedSeconds())
                .map(crossing -> Sentence.of(
                        "%s reached %s last, %s s after the reference point",
                        shortName(crossing.channel()),
                        temperature,
                        number(crossing.sampleSeconds() - plateau.reachedSeconds())))
                .orElseGet(() -> Sentence.of("Every point stood at %s when the reference point did", temperature));
    }

    static String plateau(RunEvaluation evaluation, Plateau plateau, Optional<Double> upper) {
        double lower = evaluation.run().cycle().sterilizingTemperature().celsius();
        String band = upper.map(high -> Sentence.of(
                        "between %s and %s °C", Figures.plain(lower, Unit.CELSIUS), Figures.plain(high, Unit.CELSIUS)))
                .orElseGet(() -> Sentence.of("at or above %s °C", Figures.plain(lower, Unit.CELSIUS)));
        if (plateau.holding().isEmpty()) {
            return Sentence.of("There was no moment at which every point stood %s", band);
        }
        String held = Moments.length(plateau.holdingSeconds());
        if (!plateau.dips().isEmpty()) {
            Plateau.Excursion dip = plateau.dips().get(0);
            return Sentence.of(
                    "%s fell below the band at %s: the longest unbroken hold is %s",
                    shortName(dip.channel()), Moments.minutes(dip.fromSeconds()), held);
        }
        Plateau.StretchEnd end = plateau.holdingEnd();
        return switch (end.reason()) {
            case ABOVE ->
                Sentence.of(
                        "%s rose above the band at %s: the longest unbroken hold is %s",
                        shortName(end.channel()), Moments.minutes(end.atSeconds()), held);
            case GAP, MISSING ->
                Sentence.of(
                        "The recording has a hole at %s: the longest unbroken hold is %s",
                        Moments.minutes(end.atSeconds()), held);
            case END_OF_RECORDING -> Sentence.of("The recording ends in the hold, after %s", held);
            case BELOW, NONE ->
                Sentence.of(
                        isTooShort(evaluation) ? "Every point stood %s for only %s" : "Every point stood %s for %s",
                        band,
                        held);
        };
    }

    private static boolean isTooShort(RunEvaluation evaluation) {
        return evaluation.findings().stream()
                .anyMatch(finding ->
                        finding.id() == CriterionId.MINIMUM_HOLDING_TIME && finding.outcome() == Outcome.FAIL);
    }

    static String leak(LeakTest leak) {
        double rise = leak.endKilopascal() - leak.settledKilopascal();
        return Sentence.of(
                "The pressure rose by %s kPa in %s: %s kPa/min",
                Figures.highSide(rise, 2),
                Moments.length(leak.measuringPeriodSeconds()),
                Figures.highSide(leak.rate().kilopascalPerMinute(), 3));
    }

    static double highest(CorrectedChannel channel) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < channel.size(); i++) {
            highest = channel.at(i) > highest ? channel.at(i) : highest;
        }
        return highest;
    }

    private static Optional<Crossing> last(Plateau plateau) {
        return plateau.crossings().stream().max(Comparator.comparingDouble(Crossing::sampleSeconds));
    }

    private static String number(double seconds) {
        return Figures.plain(Figures.cleaned(seconds), Unit.SECONDS);
    }
}
