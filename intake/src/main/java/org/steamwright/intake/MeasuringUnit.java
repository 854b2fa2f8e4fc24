package org.steamwright.intake;

import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.quantity.TemperatureUnit;
import org.steamwright.assessment.trace.Quantity;

/**
 * The unit of a measuring column, with absolute or gauge where the spelling says so ({@code barg}, {@code kPa(abs)}).
 *
 * <p>Torr is read as the conventional millimetre of mercury; the two differ by less than 2 in ten million.
 */
public final class MeasuringUnit {

    private final String symbol;
    private final Optional<TemperatureUnit> temperature;
    private final Optional<PressureUnit> pressure;
    private final Optional<PressureReference> reference;

    private MeasuringUnit(
            String symbol,
            Optional<TemperatureUnit> temperature,
            Optional<PressureUnit> pressure,
            Optional<PressureReference> reference) {
        this.symbol = symbol;
        this.temperature = temperature;
        this.pressure = pressure;
        this.reference = reference;
    }

    /** A unit of temperature. */
    public static MeasuringUnit of(TemperatureUnit unit) {
        return new MeasuringUnit(unit.symbol(), Optional.of(unit), Optional.empty(), Optional.empty());
    }

    /** A unit of pressure that leaves absolute or gauge open. */
    public static MeasuringUnit of(PressureUnit unit) {
        return new MeasuringUnit(unit.symbol(), Optional.empty(), Optional.of(unit), Optional.empty());
    }

    /** A unit of pressure, absolute or gauge. */
    public static MeasuringUnit of(PressureUnit unit, PressureReference reference) {
        return new MeasuringUnit(unit.symbol(), Optional.empty(), Optional.of(unit), Optional.of(reference));
    }

    /**
     * The unit as files and people spell it: {@code °C}, {@code degF}, {@code mbar abs}, {@code kPa(g)}, {@code psig}.
     *
     * @return empty if it is no unit of temperature or pressure that the program knows
     */
    public static Optional<MeasuringUnit> find(String text) {
        String spelled = text.strip();
        String plain = plain(spelled);
        if (plain.isEmpty() || plain.length() > 24) {
            return Optional.empty();
        }
        Optional<TemperatureUnit> temperature = temperature(spelled, plain);
        if (temperature.isPresent()) {
            return Optional.of(of(temperature.get()));
        }
        if (spelled.startsWith("mP")) {
            return Optional.empty();
        }
        Optional<MeasuringUnit> bare = pressure(plain);
        if (bare.isPresent()) {
            return bare;
        }
        Optional<MeasuringUnit> absolute = counted(plain, ABSOLUTE, PressureReference.ABSOLUTE);
        return absolute.isPresent() ? absolute : counted(plain, GAUGE, PressureReference.GAUGE);
    }

    private static Optional<MeasuringUnit> counted(String plain, String[] endings, PressureReference reference) {
        for (String ending : endings) {
            if (plain.endsWith(ending)) {
                Optional<MeasuringUnit> unit = pressure(plain.substring(0, plain.length() - ending.length()));
                return unit.isPresent() ? Optional.of(unit.get().with(reference)) : unit;
            }
        }
        return Optional.empty();
    }

    private static final String[] ABSOLUTE = {"absolute", "absolut", "abs", "a"};
    private static final String[] GAUGE = {"gauge", "gage", "relative", "relativ", "rel", "g"};

    /** Lower case, without blanks, brackets, dots, hyphens and underscores. */
    private static String plain(String spelled) {
        String lower = spelled.toLowerCase(Locale.ROOT);
        StringBuilder plain = new StringBuilder(lower.length());
        for (int i = 0; i < lower.length(); i++) {
            char c = lower.charAt(i);
            switch (c) {
                case ' ', '\u00a0', '(', ')', '[', ']', '_', '-', '.' -> {}
                case '\u00ba', '\u02da' -> plain.append('°');
                case '\u00e2' -> {
                    if (i + 1 >= lower.length() || lower.charAt(i + 1) != '°') {
                        plain.append(c);
                    }
                }
                default -> plain.append(c);
            }
        }
        return plain.toString();
    }

    private static Optional<TemperatureUnit> temperature(String spelled, String plain) {
        return switch (spelled) {
            case "C" -> Optional.of(TemperatureUnit.CELSIUS);
            case "F" -> Optional.of(TemperatureUnit.FAHRENHEIT);
            case "K" -> Optional.of(TemperatureUnit.KELVIN);
            default ->
                switch (plain) {
                    case "°c",
                            "degc",
                            "degreec",
                            "degreesc",
                            "celsius",
                            "degcelsius",
                            "degreecelsius",
                            "degreescelsius",
                            "°celsius",
                            "\u2103",
                            "gradc" -> Optional.of(TemperatureUnit.CELSIUS);
                    case "°f",
                            "degf",
                            "degreef",
                            "degreesf",
                            "fahrenheit",
                            "degfahrenheit",
                            "degreesfahrenheit",
                            "°fahrenheit",
                            "\u2109" -> Optional.of(TemperatureUnit.FAHRENHEIT);
                    case "kelvin", "degk", "°k" -> Optional.of(TemperatureUnit.KELVIN);
                    default -> Optional.empty();
                };
        };
    }

    private static Optional<MeasuringUnit> pressure(String plain) {
        PressureUnit unit = switch (plain) {
            case "pa", "pascal" -> PressureUnit.PASCAL;
            case "hpa" -> PressureUnit.HECTOPASCAL;
            case "kpa", "kilopascal" -> PressureUnit.KILOPASCAL;
            case "mpa", "megapascal" -> PressureUnit.MEGAPASCAL;
            case "mbar", "millibar" -> PressureUnit.MILLIBAR;
            case "bar" -> PressureUnit.BAR;
            case "psi", "lbf/in2", "lbf/in²" -> PressureUnit.PSI;
            case "mmhg", "torr" -> PressureUnit.MILLIMETRE_OF_MERCURY;
            case "inhg", "inchhg", "incheshg", "\"hg" -> PressureUnit.INCH_OF_MERCURY;
            case "kgf/cm2", "kgf/cm²", "kg/cm2", "kg/cm²" -> PressureUnit.KILOGRAM_FORCE_PER_SQUARE_CENTIMETRE;
            case "atm" -> PressureUnit.ATMOSPHERE;
            default -> null;
        };
        if (unit == null) {
            return Optional.empty();
        }
        String symbol = plain.equals("torr") ? "Torr" : unit.symbol();
        return Optional.of(new MeasuringUnit(symbol, Optional.empty(), Optional.of(unit), Optional.empty()));
    }

    /** The same unit, counted from there. */
    public MeasuringUnit with(PressureReference counted) {
        if (pressure.isEmpty()) {
            throw new IllegalArgumentException("a temperature in " + symbol + " is neither absolute nor gauge");
        }
        return new MeasuringUnit(symbol, temperature, pressure, Optional.of(counted));
    }

    /** As printed, without absolute or gauge. */
    public String symbol() {
        return symbol;
    }

    /** What it measures. */
    public Quantity quantity() {
        return pressure.isPresent() ? Quantity.PRESSURE : Quantity.TEMPERATURE;
    }

    /** Absolute or gauge if the spelling said so; always empty for temperatures. */
    public Optional<PressureReference> reference() {
        return reference;
    }

    /** A reading in this unit, in {@link Quantity#unit()}; NaN stays NaN. */
    public double toInside(double value) {
        return pressure.isPresent()
                ? pressure.get().toKilopascal(value)
                : temperature.orElseThrow().toCelsius(value);
    }

    /** A difference between readings in this unit, in {@link Quantity#unit()}. */
    public double differenceToInside(double difference) {
        return pressure.isPresent()
                ? pressure.get().toKilopascal(difference)
                : temperature.orElseThrow().differenceToKelvin(difference);
    }

    /** Whether both are the same unit, whatever absolute or gauge says. */
    public boolean isSameUnitAs(MeasuringUnit other) {
        return pressure.equals(other.pressure) && temperature.equals(other.temperature);
    }

    @Override
    public String toString() {
        return symbol
                + reference
                        .map(r -> r == PressureReference.ABSOLUTE ? " abs" : " gauge")
                        .orElse("");
    }
}
