package org.steamwright.intake;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.Optional;

/**
 * One end of the time for which a long file is read, in one of the three ways in which a file can tell time: a moment, a
 * date and time by the file's own clock, or hours, minutes and seconds as in a file without dates.
 */
public final class TimeMark {

    private final String written;
    private final Optional<Instant> moment;
    private final Optional<LocalDateTime> local;
    private final Optional<Double> seconds;

    private TimeMark(
            String written, Optional<Instant> moment, Optional<LocalDateTime> local, Optional<Double> seconds) {
        this.written = written;
        this.moment = moment;
        this.local = local;
        this.seconds = seconds;
    }

    /**
     * Reads {@code 2026-03-02T09:00:00Z}, {@code 2026-03-02T09:00:00+11:00}, {@code 2026-03-02T09:00} or {@code 09:00:00};
     * a blank may stand for the T, seconds may be left out.
     *
     * @return empty if it is none of them
     */
    public static Optional<TimeMark> find(String text) {
        String said = text.strip();
        String iso = said.length() > 10 && said.charAt(10) == ' ' ? said.replaceFirst(" ", "T") : said;
        try {
            if (iso.indexOf('T') < 0) {
                Optional<Double> clock = clock(said);
                return clock.isEmpty()
                        ? Optional.empty()
                        : Optional.of(new TimeMark(said, Optional.empty(), Optional.empty(), clock));
            }
            boolean isMoment = iso.endsWith("Z") || iso.indexOf('+') > 0 || iso.lastIndexOf('-') > 10;
            return Optional.of(
                    isMoment
                            ? new TimeMark(
                                    said,
                                    Optional.of(OffsetDateTime.parse(iso).toInstant()),
                                    Optional.empty(),
                                    Optional.empty())
                            : new TimeMark(
                                    said, Optional.empty(), Optional.of(LocalDateTime.parse(iso)), Optional.empty()));
        } catch (DateTimeException unread) {
            return Optional.empty();
        }
    }

    /** Hours may exceed 23: they may be elapsed. */
    private static Optional<Double> clock(String said) {
        String[] parts = said.split(":", -1);
        if (parts.length < 2 || parts.length > 3) {
            return Optional.empty();
        }
        double seconds = 0;
        for (int i = 0; i < parts.length; i++) {
            String part = parts[i];
            boolean isSecond = i == 2;
            if (!part.matches(isSecond ? "\\d{1,2}(\\.\\d{1,9})?" : i == 0 ? "\\d{1,4}" : "\\d{1,2}")) {
                return Optional.empty();
            }
            double number = Double.parseDouble(part);
            if (i > 0 && number >= 60) {
                return Optional.empty();
            }
            seconds = seconds * 60 + number;
        }
        return Optional.of(parts.length == 2 ? seconds * 60 : seconds);
    }

    /** A moment, wherever one is. */
    public Optional<Instant> moment() {
        return moment;
    }

    /** Date and time by the clock of the file. */
    public Optional<LocalDateTime> local() {
        return local;
    }

    /** Seconds since midnight, or since the file's zero. */
    public Optional<Double> seconds() {
        return seconds;
    }

    /** As it was written. */
    @Override
    public String toString() {
        return written;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof TimeMark mark && mark.written.equals(written);
    }

    @Override
    public int hashCode() {
        return written.hashCode();
    }
}
