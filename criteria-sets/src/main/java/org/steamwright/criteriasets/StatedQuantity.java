package org.steamwright.criteriasets;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.steamwright.assessment.criteria.Unit;

/**
 * A number with its unit as a person writes it: '180 s', '3 min', '0.13 kPa/min'.
 *
 * <p>Minutes become seconds and millibar become kilopascal by decimal arithmetic, so that 1.3 mbar/min is exactly the
 * number that 0.13 kPa/min is.
 */
final class StatedQuantity {

    private static final BigDecimal SECONDS_PER_MINUTE = BigDecimal.valueOf(60);
    private static final BigDecimal KILOPASCAL_PER_MILLIBAR = new BigDecimal("0.1");

    /** Factor to the unit of the house, by unit as written. */
    private static final Map<Unit, Map<String, BigDecimal>> FACTORS = Map.of(
            Unit.CELSIUS, Map.of("°C", BigDecimal.ONE),
            Unit.KELVIN, Map.of("K", BigDecimal.ONE),
            Unit.SECONDS, Map.of("s", BigDecimal.ONE, "min", SECONDS_PER_MINUTE),
            Unit.KILOPASCAL, Map.of("kPa", BigDecimal.ONE, "mbar", KILOPASCAL_PER_MILLIBAR),
            Unit.KILOPASCAL_PER_MINUTE, Map.of("kPa/min", BigDecimal.ONE, "mbar/min", KILOPASCAL_PER_MILLIBAR),
            Unit.PERCENT, Map.of("%", BigDecimal.ONE),
            Unit.COUNT, Map.of("", BigDecimal.ONE));

    private StatedQuantity() {}

    /**
     * Reads a quantity.
     *
     * @param text as written
     * @param unit that is wanted
     * @param highest largest value that is held to be meant, in {@code unit}
     * @return the value in {@code unit}, above zero
     */
    static double read(YamlBlock.Text text, Unit unit, double highest) {
        String written = text.text();
        int end = 0;
        while (end < written.length() && "0123456789.,+-eE".indexOf(written.charAt(end)) >= 0) {
            end++;
        }
        String number = written.substring(0, end);
        String symbol = written.substring(end).strip();
        BigDecimal value = number(text, number, unit);
        BigDecimal factor = FACTORS.getOrDefault(unit, Map.of()).get(symbol);
        if (factor == null) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.WRONG_UNIT,
                    text.place(),
                    symbol.isEmpty() ? "'" + written + "' without a unit" : "'" + written + "' in '" + symbol + "'",
                    expected(unit),
                    "Write it as, for example, '" + example(unit) + "'."
                            + (unit == Unit.KELVIN && symbol.equals("°C")
                                    ? " A difference of temperatures is stated in K."
                                    : ""));
        }
        double converted = value.multiply(factor).doubleValue();
        if (!(converted > 0 && converted <= highest)) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.IMPLAUSIBLE_VALUE,
                    text.place(),
                    "'" + written + "'",
                    "more than 0 and at most " + withUnit(highest, unit),
                    "Check the number and its unit."
                            + (unit == Unit.KILOPASCAL_PER_MINUTE ? " 1.3 mbar/min is 0.13 kPa/min." : ""));
        }
        return converted;
    }

    private static BigDecimal number(YamlBlock.Text text, String number, Unit unit) {
        if (isPlainNumber(number)) {
            return new BigDecimal(number);
        }
        throw CriteriaFileException.ofPlace(
                CriteriaMessage.UNREADABLE_QUANTITY,
                text.place(),
                "'" + text.text() + "'",
                "a number with a decimal point and its unit",
                number.indexOf(',') >= 0
                        ? "Write the decimal mark as a point and leave out marks between thousands, as in '"
                                + example(unit) + "'."
                        : "Write it as, for example, '" + example(unit) + "'.");
    }

    /** Digits, with one point between digits at most and a sign in front at most. */
    private static boolean isPlainNumber(String number) {
        String unsigned = number.startsWith("+") || number.startsWith("-") ? number.substring(1) : number;
        int point = unsigned.indexOf('.');
        return point < 0
                ? isDigits(unsigned)
                : isDigits(unsigned.substring(0, point)) && isDigits(unsigned.substring(point + 1));
    }

    private static boolean isDigits(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) < '0' || text.charAt(i) > '9') {
                return false;
            }
        }
        return !text.isEmpty();
    }

    private static String expected(Unit unit) {
        return switch (unit) {
            case CELSIUS -> "a temperature in °C";
            case KELVIN -> "a difference of temperatures in K";
            case SECONDS -> "a time in s or min";
            case KILOPASCAL -> "a pressure in kPa or mbar";
            case KILOPASCAL_PER_MINUTE -> "a rate in kPa/min or mbar/min";
            case PERCENT -> "a share in %";
            case COUNT -> "a whole number without a unit";
        };
    }

    private static String example(Unit unit) {
        return switch (unit) {
            case CELSIUS -> "134 °C";
            case KELVIN -> "2 K";
            case SECONDS -> "180 s";
            case KILOPASCAL -> "2 kPa";
            case KILOPASCAL_PER_MINUTE -> "0.13 kPa/min";
            case PERCENT -> "0.2 %";
            case COUNT -> "3";
        };
    }

    /** A whole number above zero, written without a unit. */
    static int count(YamlBlock.Text text, int highest) {
        double value = read(text, Unit.COUNT, highest);
        if (value != Math.rint(value)) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.UNREADABLE_QUANTITY,
                    text.place(),
                    "'" + text.text() + "'",
                    expected(Unit.COUNT),
                    "Write it as, for example, '3'.");
        }
        return (int) value;
    }

    private static String withUnit(double value, Unit unit) {
        String number = BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
        return String.join(" ", unit.symbol().isEmpty() ? List.of(number) : List.of(number, unit.symbol()));
    }
}
