package org.steamwright.report.result;

import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.trace.Quantity;

/** Last words of field names: the unit of the value, written out. */
final class UnitNames {
    private UnitNames() {}

    /** Unit of what a criterion measures. A pressure is absolute, a rise of pressure a plain difference. */
    static String of(CriterionId id, Unit unit) {
        return switch (unit) {
            case CELSIUS -> "Celsius";
            case KELVIN -> "Kelvin";
            case SECONDS -> "Seconds";
            case KILOPASCAL ->
                switch (id) {
                    case LEAK_START_PRESSURE, AIR_REMOVAL_PULSES -> "KilopascalAbsolute";
                    default -> "Kilopascal";
                };
            case KILOPASCAL_PER_MINUTE -> "KilopascalPerMinute";
            case PERCENT -> "Percent";
            case COUNT -> "Count";
        };
    }

    /** Unit of a corrected value of a channel. */
    static String corrected(Quantity quantity) {
        return quantity == Quantity.TEMPERATURE ? "Celsius" : "KilopascalAbsolute";
    }

    /** Unit of an indicated value of a channel; for a pressure the channel says whether it is absolute or gauge. */
    static String indicated(Quantity quantity) {
        return quantity == Quantity.TEMPERATURE ? "Celsius" : "Kilopascal";
    }

    /** Unit of a difference between two values of a channel. */
    static String difference(Quantity quantity) {
        return quantity == Quantity.TEMPERATURE ? "Kelvin" : "Kilopascal";
    }
}
