package org.steamwright.intake.folder;

import java.math.BigDecimal;
import java.util.OptionalDouble;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.quantity.TemperatureUnit;

/** The kinds of quantities in a visit file, each with the units that may stand beside its number and the unit used inside. */
public enum Measure {
    /** Inside in degree Celsius. */
    TEMPERATURE("a temperature", "°C", "°C, °F or K"),
    /** Inside in kelvin; never negative, may be written with ±. */
    TEMPERATURE_DIFFERENCE("a temperature difference", "K", "K, mK, °C or °F"),
    /** Inside in kilopascal, as the instrument shows it. */
    PRESSURE("a pressure", "kPa", "kPa, Pa, hPa, MPa, mbar, bar, psi, mmHg or inHg"),
    /** Inside in kilopascal, counted from vacuum; the text says so. */
    ABSOLUTE_PRESSURE(
            "an absolute pressure", "kPa absolute", "kPa, hPa, mbar, bar, psi, mmHg or inHg, then \"absolute\""),
    /** Ambient pressure, by nature absolute; inside in kilopascal. */
    BAROMETER("a barometer reading", "kPa", "kPa, hPa, mbar, mmHg or inHg"),
    /** Inside in kilopascal; never negative, may be written with ±. */
    PRESSURE_DIFFERENCE("a pressure difference", "kPa", "kPa, Pa, hPa, MPa, mbar, bar, psi, mmHg or inHg"),
    /** Inside in seconds. */
    DURATION("a time", "min", "s, min or h"),
    /** Inside in seconds; negative for a clock that is fast. */
    TIME_SHIFT("a time to add", "s", "s, min or h"),
    /** Inside in metres. */
    ALTITUDE("an altitude", "m", "m, km or ft"),
    /** Inside in litres. */
    VOLUME("a volume", "L", "L or mL"),
    /** Inside in kilograms. */
    LOAD_MASS("a mass", "kg", "kg or g"),
    /** Inside in grams. */
    PACK_MASS("a mass", "g", "g or kg"),
    /** Inside in volts. */
    VOLTAGE("a voltage", "V", "V"),
    /** Relative, inside in percent. */
    HUMIDITY("a relative humidity", "%", "%"),
    /** Inside in microsiemens per centimetre. */
    CONDUCTIVITY("a conductivity", "µS/cm", "µS/cm or mS/cm");

    private final String noun;
    private final String unit;
    private final String units;

    Measure(String noun, String unit, String units) {
        this.noun = noun;
        this.unit = unit;
        this.units = units;
    }

    /** What it is, with its article. */
    String noun() {
        return noun;
    }

    /** The unit that examples in messages use. */
    String unit() {
        return unit;
    }

    /** All units, for messages. */
    String units() {
        return units;
    }

    /** Whether it is the size of a doubt: never negative, the sign ± is welcome. */
    boolean isSize() {
        return this == TEMPERATURE_DIFFERENCE || this == PRESSURE_DIFFERENCE;
    }

    /** Whether a value below zero means anything. */
    boolean mayBeNegative() {
        return this == TEMPERATURE || this == PRESSURE || this == ALTITUDE || this == TIME_SHIFT;
    }

    /** The value in the unit used inside; empty if the unit is not one of this measure. */
    OptionalDouble toInside(BigDecimal number, String unitText) {
        return switch (this) {
            case TEMPERATURE -> temperature(number, unitText);
            case TEMPERATURE_DIFFERENCE -> difference(number, unitText);
            case PRESSURE, PRESSURE_DIFFERENCE -> pressure(number, unitText);
            case BAROMETER -> pressure(number, withoutAbsolute(unitText));
            case ABSOLUTE_PRESSURE ->
                withoutAbsolute(unitText).equals(unitText)
                        ? OptionalDouble.empty()
                        : pressure(number, withoutAbsolute(unitText));
            case DURATION, TIME_SHIFT ->
                switch (unitText) {
                    case "s", "sec" -> scaled(number, "1");
                    case "min" -> scaled(number, "60");
                    case "h" -> scaled(number, "3600");
                    default -> OptionalDouble.empty();
                };
            case ALTITUDE ->
                switch (unitText) {
                    case "m" -> scaled(number, "1");
                    case "km" -> scaled(number, "1000");
                    case "ft" -> scaled(number, "0.3048");
                    default -> OptionalDouble.empty();
                };
            case VOLUME ->
                switch (unitText) {
                    case "L", "l" -> scaled(number, "1");
                    case "mL", "ml" -> scaled(number, "0.001");
                    default -> OptionalDouble.empty();
                };
            case LOAD_MASS ->
                switch (unitText) {
                    case "kg" -> scaled(number, "1");
                    case "g" -> scaled(number, "0.001");
                    default -> OptionalDouble.empty();
                };
            case PACK_MASS ->
                switch (unitText) {
                    case "g" -> scaled(number, "1");
                    case "kg" -> scaled(number, "1000");
                    default -> OptionalDouble.empty();
                };
            case VOLTAGE -> unitText.equals("V") ? scaled(number, "1") : OptionalDouble.empty();
            case HUMIDITY -> unitText.equals("%") ? scaled(number, "1") : OptionalDouble.empty();
            case CONDUCTIVITY ->
                switch (unitText.replace('μ', 'µ')) {
                    case "µS/cm", "uS/cm" -> scaled(number, "1");
                    case "mS/cm" -> scaled(number, "1000");
                    default -> OptionalDouble.empty();
                };
        };
    }

    /** The unit without the word that says 'counted from vacuum'; unchanged if there is no such word. */
    private static String withoutAbsolute(String unitText) {
        for (String word : new String[] {"absolute", "(abs)", "abs"}) {
            if (unitText.endsWith(word) && unitText.length() > word.length()) {
                return unitText.substring(0, unitText.length() - word.length()).strip();
            }
        }
        return unitText;
    }

    private static OptionalDouble temperature(BigDecimal number, String unitText) {
        return switch (unitText) {
            case "°C", "ºC", "℃", "C", "degC" ->
                OptionalDouble.of(TemperatureUnit.CELSIUS.toCelsius(number.doubleValue()));
            case "°F", "ºF", "℉", "F", "degF" ->
                OptionalDouble.of(TemperatureUnit.FAHRENHEIT.toCelsius(number.doubleValue()));
            case "K" -> OptionalDouble.of(TemperatureUnit.KELVIN.toCelsius(number.doubleValue()));
            default -> OptionalDouble.empty();
        };
    }

    private static OptionalDouble difference(BigDecimal number, String unitText) {
        return switch (unitText) {
            case "K", "°C", "ºC", "℃", "C", "degC" -> OptionalDouble.of(number.doubleValue());
            case "mK" -> scaled(number, "0.001");
            case "°F", "ºF", "℉", "F", "degF" ->
                OptionalDouble.of(TemperatureUnit.FAHRENHEIT.differenceToKelvin(number.doubleValue()));
            default -> OptionalDouble.empty();
        };
    }

    private static OptionalDouble pressure(BigDecimal number, String unitText) {
        for (PressureUnit unit : PressureUnit.values()) {
            if (unit.symbol().equals(unitText)) {
                // in decimal, so that 1013 mbar is 101.3 kPa to the last digit
                return OptionalDouble.of(number.multiply(BigDecimal.valueOf(unit.toKilopascal(1)))
                        .doubleValue());
            }
        }
        return OptionalDouble.empty();
    }

    private static OptionalDouble scaled(BigDecimal number, String factor) {
        return OptionalDouble.of(number.multiply(new BigDecimal(factor)).doubleValue());
    }
}
