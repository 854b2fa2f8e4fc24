package org.steamwright.crosscheck;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.steam.SaturationCurve;

/** Criteria sets that ask everything the slow evaluation answers; invented, no document stands behind their limits. */
final class InventedSets {

    static final Source SOURCE = new Source(
            "invented for a test",
            "",
            "",
            Provenance.COMMON_PRACTICE,
            Confidence.LOW,
            "not to be used on a sterilizer");

    /** Criteria that the slow evaluation answers. */
    static final List<CriterionId> ANSWERED = List.of(
            CriterionId.RECORDING_COMPLETE,
            CriterionId.SAMPLING_INTERVAL,
            CriterionId.SENSORS_ALIVE,
            CriterionId.CALIBRATION_VALID,
            CriterionId.CALIBRATION_RANGE,
            CriterionId.PRESSURE_KIND,
            CriterionId.MINIMUM_HOLDING_TIME,
            CriterionId.LOWEST_TEMPERATURE,
            CriterionId.HIGHEST_TEMPERATURE,
            CriterionId.EQUILIBRATION_TIME,
            CriterionId.PENETRATION_TIME,
            CriterionId.TEMPERATURE_SPREAD,
            CriterionId.TEMPERATURE_FLUCTUATION,
            CriterionId.SATURATION_DIFFERENCE);

    private InventedSets() {}

    /** A set in which all of these decide, by one rule. */
    static CriteriaSet allDeciding(
            DecisionRule rule,
            SaturationCurve curve,
            boolean isTheoreticalInBand,
            double sterilizingCelsius,
            double holdingSeconds,
            Optional<Double> bandWidth,
            List<CriterionId> deciding) {
        Map<CriterionId, Requirement> requirements = new EnumMap<>(CriterionId.class);
        for (CriterionId id : deciding) {
            requirements.put(id, new Requirement(id, Use.DECIDES, limit(id), rule, SOURCE));
        }
        CriteriaSet.CycleLimits cycle = new CriteriaSet.CycleLimits(
                sterilizingCelsius,
                new Limit(Comparison.AT_LEAST, holdingSeconds, Unit.SECONDS, SOURCE),
                bandWidth.map(width -> new Limit(Comparison.AT_MOST, width, Unit.KELVIN, SOURCE)));
        return new CriteriaSet(
                "invented",
                "1",
                "0".repeat(64),
                "Invented for a test",
                curve,
                SOURCE,
                isTheoreticalInBand,
                List.of(cycle),
                requirements,
                Optional.empty(),
                1);
    }

    private static Optional<Limit> limit(CriterionId id) {
        return switch (id) {
            case SAMPLING_INTERVAL -> atMost(2.5, Unit.SECONDS);
            case EQUILIBRATION_TIME -> atMost(15, Unit.SECONDS);
            case PENETRATION_TIME -> atMost(30, Unit.SECONDS);
            case TEMPERATURE_SPREAD, SATURATION_DIFFERENCE -> atMost(2, Unit.KELVIN);
            case TEMPERATURE_FLUCTUATION -> atMost(1, Unit.KELVIN);
            default -> Optional.empty();
        };
    }

    private static Optional<Limit> atMost(double value, Unit unit) {
        return Optional.of(new Limit(Comparison.AT_MOST, value, unit, SOURCE));
    }
}
