package org.steamwright.intake;

import java.util.Locale;
import java.util.Optional;

/** Unit of a time column that holds plain numbers. */
public enum ElapsedUnit {
    MILLISECOND("ms", 0.001, false),
    SECOND("s", 1, false),
    MINUTE("min", 60, false),
    HOUR("h", 3600, false),
    /** Seconds since 1970-01-01T00:00Z: a full time stamp. */
    UNIX_SECOND("unix-s", 1, true),
    /** Milliseconds since 1970-01-01T00:00Z: a full time stamp. */
    UNIX_MILLISECOND("unix-ms", 0.001, true);

    private final String symbol;
    private final double seconds;
    private final boolean isMoment;

    ElapsedUnit(String symbol, double seconds, boolean isMoment) {
        this.symbol = symbol;
        this.seconds = seconds;
        this.isMoment = isMoment;
    }

    /** As an answer is written. */
    public String symbol() {
        return symbol;
    }

    /** Length of one unit in seconds. */
    public double seconds() {
        return seconds;
    }

    /** Whether the number tells the moment itself, not the time since the start. */
    public boolean isMoment() {
        return isMoment;
    }

    /** The unit as files and people spell it; empty if it is none. */
    public static Optional<ElapsedUnit> find(String text) {
        return switch (text.strip().toLowerCase(Locale.ROOT)) {
            case "ms", "msec", "millisecond", "milliseconds" -> Optional.of(MILLISECOND);
            case "s", "sec", "secs", "second", "seconds", "sek" -> Optional.of(SECOND);
            case "min", "mins", "minute", "minutes" -> Optional.of(MINUTE);
            case "h", "hr", "hrs", "hour", "hours" -> Optional.of(HOUR);
            case "unix-s", "unix", "epoch" -> Optional.of(UNIX_SECOND);
            case "unix-ms" -> Optional.of(UNIX_MILLISECOND);
            default -> Optional.empty();
        };
    }
}
