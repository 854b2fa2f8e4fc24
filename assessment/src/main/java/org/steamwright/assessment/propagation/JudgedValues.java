package org.steamwright.assessment.propagation;

import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.verdict.RunEvaluation;

/** The figures of a thermometric run as the criteria judge them, whether or not the criteria set asks for them. */
final class JudgedValues {

    private final RunEvaluation evaluation;
    private final Readings readings;

    JudgedValues(RunEvaluation evaluation, Readings readings) {
        this.evaluation = evaluation;
        this.readings = readings;
    }

    Optional<Double> of(Measurand measurand) {
        return switch (measurand) {
            case HOLDING_TIME -> readings.plateau().map(Plateau::holdingSeconds);
            case EQUILIBRATION_TIME -> readings.plateau().flatMap(Plateau::equilibrationSeconds);
            case PENETRATION_TIME -> penetration();
            case LOWEST_TEMPERATURE ->
                readings.plateau().flatMap(Plateau::together).flatMap(this::lowest);
            case TEMPERATURE_SPREAD -> readings.holding().flatMap(this::spread);
            case SATURATION_DIFFERENCE -> evaluation.steam().map(steam -> steam.largestDifference());
            case LEAK_RATE -> evaluation.leakTest().map(test -> test.rate().kilopascalPerMinute());
            case LETHALITY -> Optional.empty();
        };
    }

    private Optional<Double> penetration() {
        double latest = Double.NEGATIVE_INFINITY;
        for (int pack : readings.packs()) {
            Optional<Double> arrival = readings.plateau()
                    .flatMap(
                            plateau -> plateau.findCrossing(readings.point(pack).name())
                                    .map(crossing -> crossing.sampleSeconds() - plateau.reachedSeconds()));
            if (arrival.isEmpty()) {
                return Optional.empty();
            }
            latest = Math.max(latest, arrival.get());
        }
        return readings.packs().isEmpty() ? Optional.empty() : Optional.of(Math.max(0, latest));
    }

    private Optional<Double> lowest(Stretch stretch) {
        double lowest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < readings.judged(); i++) {
            CorrectedChannel point = readings.point(i);
            int to = point.axis().indexAtOrBefore(stretch.toSeconds());
            for (int k = point.axis().indexAtOrAfter(stretch.fromSeconds()); k <= to; k++) {
                lowest = point.at(k) < lowest ? point.at(k) : lowest;
            }
        }
        return Optional.of(lowest).filter(Double::isFinite);
    }

    private Optional<Double> spread(Stretch stretch) {
        double widest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < readings.judged(); i++) {
            CorrectedChannel point = readings.point(i);
            int to = point.axis().indexAtOrBefore(stretch.toSeconds());
            for (int k = point.axis().indexAtOrAfter(stretch.fromSeconds()); k <= to; k++) {
                for (int j = 0; j < readings.judged(); j++) {
                    if (i != j) {
                        double apart = Math.abs(point.at(k)
                                - readings.point(j).valueAt(point.axis().at(k)));
                        widest = apart > widest ? apart : widest;
                    }
                }
            }
        }
        return Optional.of(widest).filter(Double::isFinite);
    }
}
