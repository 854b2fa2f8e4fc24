package org.steamwright.criteriasets;

import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Unit;

/**
 * What a criteria set may say about a criterion: where its limit comes from, on which side of it the good lies, and in
 * which unit.
 *
 * @param origin where the limit comes from
 * @param comparison good side
 * @param unit of the limit and of what is measured
 * @param highest largest limit that is held to be meant; above it a slip of the unit is likelier
 * @param second the other limit, of the few criteria that take two
 */
record CriterionShape(Origin origin, Comparison comparison, Unit unit, double highest, Optional<Second> second) {

    /** Where a limit comes from. */
    enum Origin {
        /** The entry of the criterion. */
        ENTRY("the entry itself"),
        /** The entry, which may leave it to what was stated with each check. */
        ENTRY_OR_CHECK("the entry itself, or with each check; the smaller one counts"),
        /** The set's table of cycles. */
        CYCLE_TABLE("the set's list of cycles"),
        /** The definition of the cycle under test. */
        CYCLE_DEFINITION("the definition of the cycle under test"),
        /** Answered by yes or no. */
        NONE("no limit, the answer is yes or no");

        private final String words;

        Origin(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }
    }

    /**
     * A second limit, with the same side as the first.
     *
     * @param key in the file
     * @param unit of it
     * @param highest largest that is held to be meant
     */
    record Second(String key, Unit unit, double highest) {}

    /** Whether the entry of the criterion takes a limit. */
    boolean isStatedInEntry() {
        return origin == Origin.ENTRY || origin == Origin.ENTRY_OR_CHECK;
    }

    /** Key of the limit in the file. */
    String key() {
        return comparison == Comparison.AT_LEAST ? "at-least" : "at-most";
    }

    /** Key of the side that is not the good one. */
    String otherKey() {
        return comparison == Comparison.AT_LEAST ? "at-most" : "at-least";
    }

    static CriterionShape of(CriterionId id) {
        return switch (id) {
            case RECORDING_COMPLETE, SENSORS_ALIVE, CALIBRATION_VALID, CALIBRATION_RANGE, PRESSURE_KIND ->
                other(Origin.NONE, Comparison.AT_LEAST, Unit.COUNT);
            case FIELD_CHECK_AFTER ->
                new CriterionShape(
                        Origin.ENTRY_OR_CHECK,
                        Comparison.AT_MOST,
                        Unit.KELVIN,
                        5,
                        Optional.of(new Second("pressure-at-most", Unit.KILOPASCAL, 20)));
            case SAMPLING_INTERVAL -> atMost(Unit.SECONDS, 60);
            case AIR_REMOVAL_PULSES -> other(Origin.CYCLE_DEFINITION, Comparison.AT_LEAST, Unit.COUNT);
            case MINIMUM_HOLDING_TIME -> other(Origin.CYCLE_TABLE, Comparison.AT_LEAST, Unit.SECONDS);
            case LOWEST_TEMPERATURE -> other(Origin.CYCLE_TABLE, Comparison.AT_LEAST, Unit.CELSIUS);
            case HIGHEST_TEMPERATURE -> other(Origin.CYCLE_TABLE, Comparison.AT_MOST, Unit.CELSIUS);
            case EQUILIBRATION_TIME -> atMost(Unit.SECONDS, 600);
            case PENETRATION_TIME -> atMost(Unit.SECONDS, 3600);
            case TEMPERATURE_SPREAD, TEMPERATURE_FLUCTUATION, SATURATION_DIFFERENCE -> atMost(Unit.KELVIN, 10);
            case FREE_CHAMBER_EXCESS ->
                new CriterionShape(
                        Origin.ENTRY,
                        Comparison.AT_MOST,
                        Unit.KELVIN,
                        20,
                        Optional.of(new Second("first-minute-at-most", Unit.KELVIN, 20)));
            case PRESSURE_CHANGE_RATE -> atMost(Unit.KILOPASCAL_PER_MINUTE, 10_000);
            case DRYING_TIME -> other(Origin.CYCLE_DEFINITION, Comparison.AT_LEAST, Unit.SECONDS);
            case LEAK_RATE -> atMost(Unit.KILOPASCAL_PER_MINUTE, 1);
            case LEAK_START_PRESSURE -> atMost(Unit.KILOPASCAL, 60);
            case LEAK_SETTLING -> atMost(Unit.KILOPASCAL, 20);
            case LEAK_PERIOD ->
                new CriterionShape(
                        Origin.ENTRY,
                        Comparison.AT_LEAST,
                        Unit.SECONDS,
                        3600,
                        Optional.of(new Second("settling-at-least", Unit.SECONDS, 3600)));
            case LOAD_DRYNESS ->
                new CriterionShape(
                        Origin.ENTRY,
                        Comparison.AT_MOST,
                        Unit.PERCENT,
                        10,
                        Optional.of(new Second("porous-at-most", Unit.PERCENT, 10)));
            case BIOLOGICAL_INDICATORS ->
                new CriterionShape(Origin.ENTRY, Comparison.AT_LEAST, Unit.COUNT, 100, Optional.empty());
        };
    }

    private static CriterionShape atMost(Unit unit, double highest) {
        return new CriterionShape(Origin.ENTRY, Comparison.AT_MOST, unit, highest, Optional.empty());
    }

    private static CriterionShape other(Origin origin, Comparison comparison, Unit unit) {
        return new CriterionShape(origin, comparison, unit, Double.MAX_VALUE, Optional.empty());
    }
}
