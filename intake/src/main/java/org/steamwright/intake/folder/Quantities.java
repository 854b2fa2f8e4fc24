package org.steamwright.intake.folder;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.intake.folder.Flaw.Sort;

/** Reads numbers and quantities as people write them into a visit file: decimal point, then the unit. */
final class Quantities {

    private Quantities() {}

    /** The quantity in its inside unit; empty after a problem was added. */
    static Optional<Double> parse(String written, Measure measure, Spot spot) {
        String text = calm(written);
        boolean isPlusMinus = text.startsWith("±") || text.startsWith("+-") || text.startsWith("+/-");
        if (isPlusMinus && measure.isSize()) {
            text = text.substring(text.startsWith("±") ? 1 : text.startsWith("+/-") ? 3 : 2)
                    .strip();
        }
        if (hasComma(text)) {
            boolean isThousands = text.indexOf('.') >= 0 || text.indexOf(',') != text.lastIndexOf(',');
            spot.problem(
                    Mistake.DECIMAL_COMMA,
                    Flaw.of(
                            "found \"" + written + "\" with a comma, expected a decimal point.",
                            (isThousands
                                    ? "Write the number without a mark for thousands, for example: " + example(measure)
                                    : "Write: " + written.replace(',', '.'))));
            return Optional.empty();
        }
        double sum = 0;
        int parts = 0;
        int at = 0;
        while (at < text.length()) {
            int end = numberEnd(text, at);
            if (end == at) {
                return notAQuantity(written, measure, spot);
            }
            BigDecimal number = new BigDecimal(text.substring(at, end));
            int unitEnd = end;
            while (unitEnd < text.length() && !(measure == Measure.DURATION && isNumberStart(text, unitEnd))) {
                unitEnd++;
            }
            String unit = text.substring(end, unitEnd).strip();
            if (unit.isEmpty()) {
                if (parts > 0) {
                    return notAQuantity(written, measure, spot);
                }
                spot.problem(
                        Mistake.NO_UNIT,
                        Flaw.quantity(
                                Sort.NO_UNIT,
                                "found %s without a unit, expected %s in %s.",
                                written,
                                measure.noun(),
                                measure.units(),
                                text + " " + measure.unit()));
                return Optional.empty();
            }
            if (measure == Measure.ABSOLUTE_PRESSURE
                    && Measure.PRESSURE.toInside(number, unit).isPresent()) {
                spot.problem(
                        Mistake.PRESSURE_UNSTATED,
                        Flaw.found(
                                        Sort.NOT_ABSOLUTE,
                                        "found \"%s\", expected the word absolute after it, since a gauge shows about 101 kPa less.",
                                        written)
                                .expecting(text + " absolute")
                                .with("Write for example: " + text + " absolute"));
                return Optional.empty();
            }
            OptionalDouble value = measure.toInside(number, unit);
            if (value.isEmpty() || (number.signum() < 0 && (!measure.mayBeNegative() || parts > 0))) {
                return notAQuantity(written, measure, spot);
            }
            if (measure == Measure.TEMPERATURE && value.getAsDouble() < -Temperature.ZERO_CELSIUS_IN_KELVIN) {
                return notAQuantity(written, measure, spot);
            }
            sum += value.getAsDouble();
            parts++;
            at = unitEnd;
        }
        return parts == 0 ? notAQuantity(written, measure, spot) : Optional.of(sum);
    }

    private static Optional<Double> notAQuantity(String written, Measure measure, Spot spot) {
        boolean isSize = measure.isSize() || !measure.mayBeNegative();
        spot.problem(
                Mistake.NOT_A_QUANTITY,
                Flaw.quantity(
                        Sort.NOT_A_QUANTITY,
                        isSize
                                ? "found \"%s\", expected %s that is not negative in %s."
                                : "found \"%s\", expected %s in %s.",
                        written,
                        measure.noun(),
                        measure.units(),
                        example(measure)));
        return Optional.empty();
    }

    /** A quantity as it should be written. */
    static String example(Measure measure) {
        return switch (measure) {
            case TEMPERATURE -> "134 °C";
            case TEMPERATURE_DIFFERENCE -> "±0.15 K";
            case PRESSURE -> "304.2 kPa";
            case ABSOLUTE_PRESSURE -> "15 kPa absolute";
            case BAROMETER -> "101.2 kPa";
            case PRESSURE_DIFFERENCE -> "±0.5 kPa";
            case DURATION -> "3 min 30 s";
            case TIME_SHIFT -> "-41 s";
            case ALTITUDE -> "450 m";
            case VOLUME -> "17 L";
            case LOAD_MASS -> "3.2 kg";
            case PACK_MASS -> "512.3 g";
            case VOLTAGE -> "231 V";
            case HUMIDITY -> "45 %";
            case CONDUCTIVITY -> "12 µS/cm";
        };
    }

    /** A plain number; empty after a problem was added. */
    static Optional<Double> number(String written, Spot spot) {
        String text = calm(written);
        if (hasComma(text)) {
            spot.problem(
                    Mistake.DECIMAL_COMMA,
                    Flaw.of(
                            "found \"" + written + "\" with a comma, expected a decimal point.",
                            "Write: " + written.replace(',', '.')));
            return Optional.empty();
        }
        if (text.isEmpty() || numberEnd(text, 0) != text.length()) {
            spot.problem(
                    Mistake.NOT_A_NUMBER,
                    Flaw.found(Sort.NOT_A_NUMBER, "found \"%s\", expected a number without a unit.", written)
                            .with("Write for example: 2"));
            return Optional.empty();
        }
        return Optional.of(new BigDecimal(text).doubleValue());
    }

    /** A whole number from 0; empty after a problem was added. */
    static OptionalInt count(String written, Spot spot) {
        boolean isDigits = !written.isEmpty() && written.length() <= 9;
        for (int i = 0; i < written.length(); i++) {
            isDigits &= written.charAt(i) >= '0' && written.charAt(i) <= '9';
        }
        if (!isDigits) {
            spot.problem(
                    Mistake.NOT_A_NUMBER,
                    Flaw.found(Sort.NOT_A_COUNT, "found \"%s\", expected a whole number from 0 to 999999999.", written)
                            .expecting("0", "999999999")
                            .with("Write for example: 3"));
            return OptionalInt.empty();
        }
        return OptionalInt.of(Integer.parseInt(written));
    }

    /** The typographic minus and the unbreakable blanks of word processors, as plain signs. */
    private static String calm(String text) {
        return text.replace('−', '-')
                .replace('\u00a0', ' ')
                .replace('\u202f', ' ')
                .strip();
    }

    private static boolean hasComma(String text) {
        int comma = text.indexOf(',');
        return comma > 0
                && comma + 1 < text.length()
                && isDigit(text.charAt(comma - 1))
                && isDigit(text.charAt(comma + 1));
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    private static boolean isNumberStart(String text, int at) {
        return isDigit(text.charAt(at))
                || (text.charAt(at) == '-' && at + 1 < text.length() && isDigit(text.charAt(at + 1)));
    }

    /** End of the number that begins here; the beginning itself if there is none. Exponents have at most two digits. */
    private static int numberEnd(String text, int start) {
        int at = start;
        if (at < text.length() && (text.charAt(at) == '-' || text.charAt(at) == '+')) {
            at++;
        }
        int digits = at;
        while (at < text.length() && isDigit(text.charAt(at))) {
            at++;
        }
        if (at == digits || at - digits > 15) {
            return start;
        }
        if (at + 1 < text.length() && text.charAt(at) == '.' && isDigit(text.charAt(at + 1))) {
            at++;
            while (at < text.length() && isDigit(text.charAt(at))) {
                at++;
            }
        }
        if (at < text.length() && (text.charAt(at) == 'e' || text.charAt(at) == 'E')) {
            int exponent = at + 1;
            if (exponent < text.length() && (text.charAt(exponent) == '-' || text.charAt(exponent) == '+')) {
                exponent++;
            }
            int exponentEnd = exponent;
            while (exponentEnd < text.length() && isDigit(text.charAt(exponentEnd))) {
                exponentEnd++;
            }
            if (exponentEnd > exponent && exponentEnd - exponent <= 2) {
                at = exponentEnd;
            }
        }
        return at;
    }
}
