package org.steamwright.assessment.criteria;

import java.util.Optional;

/** Units of limits and measured figures inside findings, with the number of decimals that limits usually carry. */
public enum Unit {
    CELSIUS("°C", 1),
    KELVIN("K", 1),
    SECONDS("s", 0),
    KILOPASCAL("kPa", 1),
    KILOPASCAL_PER_MINUTE("kPa/min", 2),
    PERCENT("%", 1),
    COUNT("", 0);

    private final String symbol;
    private final int decimals;

    Unit(String symbol, int decimals) {
        this.symbol = symbol;
        this.decimals = decimals;
    }

    public String symbol() {
        return symbol;
    }

    /** Decimals of a usual limit; figures are printed with one more. */
    public int decimals() {
        return decimals;
    }

    /** Decimals with which figures are printed: one more than a usual limit has, none for a count. */
    public int shownDecimals() {
        return this == COUNT ? 0 : decimals + 1;
    }

    /** The unit of that symbol; {@code min} is not one of them, limits in time are stated in seconds. */
    public static Optional<Unit> find(String symbol) {
        for (Unit unit : values()) {
            if (unit.symbol.equals(symbol)) {
                return Optional.of(unit);
            }
        }
        return Optional.empty();
    }
}
