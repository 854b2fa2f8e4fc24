package org.steamwright.intake.certificate;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.quantity.TemperatureUnit;

/**
 * A unit in the spelling of digital certificates: {@code \degreecelsius}, {@code \milli\kelvin},
 * {@code \kilogram\metre\tothe{-1}\second\tothe{-2}}.
 *
 * @param asWritten the spelling of the file
 * @param kind what it measures
 * @param factor by which a value is multiplied to get kelvin, pascal, ohm or one; 1 for {@link MeasuredKind#OTHER}
 * @param isCelsius whether its zero is the freezing point of water
 * @source D-SI, brochure on the exchange of metrological data 2.x: macros of units and prefixes; SI brochure, 9th edition,
 *     tables 2, 4, 7 and 8, from memory
 */
record SiUnit(String asWritten, MeasuredKind kind, double factor, boolean isCelsius) {

    private static final Pattern TOKEN = Pattern.compile("\\\\([a-z]+)(?:\\{([^{}]{1,12})})?");
    private static final int KELVIN = 4;
    private static final double[] NONE = {0, 0, 0, 0, 0, 0, 0};
    private static final double[] PASCAL = {-1, 1, -2, 0, 0, 0, 0};
    private static final double[] OHM = {2, 1, -3, -2, 0, 0, 0};
    private static final double[] TEMPERATURE = {0, 0, 0, 0, 1, 0, 0};
    private static final double PASCAL_PER_KILOPASCAL = 1000;
    private static final double PERCENT = 100;

    /** A unit by itself: its size in base units and the powers of metre, kilogram, second, ampere, kelvin, mole, candela. */
    private static final class Part {

        private final double size;
        private final double[] powers;

        Part(double size, double[] powers) {
            this.size = size;
            this.powers = powers;
        }
    }

    private static final Map<String, Part> PARTS = new HashMap<>();
    private static final Map<String, Double> PREFIXES = new HashMap<>();

    static {
        part("metre", 1, 1);
        part("gram", 1e-3, 0, 1);
        part("kilogram", 1, 0, 1);
        part("tonne", 1e3, 0, 1);
        part("second", 1, 0, 0, 1);
        part("minute", 60, 0, 0, 1);
        part("hour", 3600, 0, 0, 1);
        part("day", 86400, 0, 0, 1);
        part("ampere", 1, 0, 0, 0, 1);
        part("kelvin", 1, TEMPERATURE);
        part("degreecelsius", 1, TEMPERATURE);
        part("mole", 1, 0, 0, 0, 0, 0, 1);
        part("candela", 1, 0, 0, 0, 0, 0, 0, 1);
        part("one", 1);
        part("percent", 0.01);
        part("ppm", 1e-6);
        part("radian", 1);
        part("hertz", 1, 0, 0, -1);
        part("newton", 1, 1, 1, -2);
        part("pascal", 1, PASCAL);
        part("bar", 1e5, PASCAL);
        part("mmhg", PASCAL_PER_KILOPASCAL * PressureUnit.MILLIMETRE_OF_MERCURY.toKilopascal(1), PASCAL);
        part("joule", 1, 2, 1, -2);
        part("watt", 1, 2, 1, -3);
        part("volt", 1, 2, 1, -3, -1);
        part("ohm", 1, OHM);
        part("siemens", 1, -2, -1, 3, 2);
        part("litre", 1e-3, 3);
        String[] names = {
            "quecto", "ronto", "yocto", "zepto", "atto", "femto", "pico", "nano", "micro", "milli", "centi", "deci",
            "deca", "hecto", "kilo", "mega", "giga", "tera", "peta", "exa", "zetta", "yotta", "ronna", "quetta"
        };
        int[] powers = {-30, -27, -24, -21, -18, -15, -12, -9, -6, -3, -2, -1, 1, 2, 3, 6, 9, 12, 15, 18, 21, 24, 27, 30
        };
        for (int i = 0; i < names.length; i++) {
            PREFIXES.put(names[i], Double.parseDouble("1e" + powers[i]));
        }
    }

    private static void part(String name, double size, double... powers) {
        PARTS.put(name, new Part(size, Arrays.copyOf(powers, NONE.length)));
    }

    /** The unit that a file names; empty if a part of it is unknown. */
    static Optional<SiUnit> parse(String text) {
        Matcher tokens = TOKEN.matcher(text.strip());
        double[] powers = NONE.clone();
        double factor = 1;
        double prefix = 1;
        double sign = 1;
        Optional<Part> last = Optional.empty();
        double lastPrefix = 1;
        double lastSign = 1;
        boolean isCelsius = false;
        int units = 0;
        int end = 0;
        while (tokens.find() && tokens.start() == end) {
            end = tokens.end();
            String word = tokens.group(1);
            String argument = tokens.group(2);
            if (word.equals("tothe") && argument != null && last.isPresent()) {
                if (!argument.matches("-?[0-9]{1,2}(\\.[0-9]{1,2})?")) {
                    return Optional.empty();
                }
                // the unit itself has been counted once already
                double more = lastSign * (Double.parseDouble(argument) - 1);
                factor *= StrictMath.pow(lastPrefix * last.get().size, more);
                add(powers, last.get(), more);
                last = Optional.empty();
                isCelsius = false;
            } else if (argument != null) {
                return Optional.empty();
            } else if (word.equals("per")) {
                sign = -1;
            } else if (PREFIXES.containsKey(word)) {
                prefix *= PREFIXES.get(word);
            } else if (PARTS.containsKey(word)) {
                Part part = PARTS.get(word);
                factor *= StrictMath.pow(prefix * part.size, sign);
                add(powers, part, sign);
                last = Optional.of(part);
                lastPrefix = prefix;
                lastSign = sign;
                prefix = 1;
                sign = 1;
                units++;
                isCelsius = word.equals("degreecelsius") && units == 1;
            } else {
                return Optional.empty();
            }
        }
        if (units == 0 || end != text.strip().length() || prefix != 1 || sign != 1) {
            return Optional.empty();
        }
        MeasuredKind kind = kind(powers);
        boolean isZeroShifted = isCelsius && units == 1 && powers[KELVIN] == 1;
        return Optional.of(new SiUnit(text.strip(), kind, kind == MeasuredKind.OTHER ? 1 : factor, isZeroShifted));
    }

    private static void add(double[] powers, Part part, double times) {
        for (int i = 0; i < powers.length; i++) {
            powers[i] += times * part.powers[i];
        }
    }

    private static MeasuredKind kind(double[] powers) {
        if (Arrays.equals(powers, Arrays.copyOf(TEMPERATURE, NONE.length))) {
            return MeasuredKind.TEMPERATURE;
        }
        if (Arrays.equals(powers, PASCAL)) {
            return MeasuredKind.PRESSURE;
        }
        if (Arrays.equals(powers, OHM)) {
            return MeasuredKind.RESISTANCE;
        }
        return Arrays.stream(powers).allMatch(power -> power == 0) ? MeasuredKind.HUMIDITY : MeasuredKind.OTHER;
    }

    /** A value in degree Celsius, kilopascal, ohm or per cent; another quantity stays as it is. */
    double inside(double value) {
        return switch (kind) {
            case TEMPERATURE -> isCelsius ? value * factor : TemperatureUnit.KELVIN.toCelsius(value * factor);
            case PRESSURE, RESISTANCE, HUMIDITY, OTHER -> difference(value);
        };
    }

    /** A difference or an uncertainty in kelvin, kilopascal, ohm or per cent; another quantity stays as it is. */
    double difference(double value) {
        return switch (kind) {
            case TEMPERATURE, RESISTANCE, OTHER -> value * factor;
            case PRESSURE -> value * factor / PASCAL_PER_KILOPASCAL;
            case HUMIDITY -> value * factor * PERCENT;
        };
    }

    /** How a value of that unit is printed: the usual symbol, or the spelling of the file. */
    String symbol() {
        return kind == MeasuredKind.OTHER ? asWritten : kind.unit();
    }
}
