package org.steamwright.intake.folder;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Optional;
import org.steamwright.assessment.alignment.ClockCheck;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.ClockReading;

/** What somebody wrote about the clock of a logger, at a recording or at an instrument. */
sealed interface ClockStatement {

    /** Longest difference that is taken for a difference of clocks and not of days, in seconds: half a day. */
    double HALF_DAY_SECONDS = 43_200;

    /** This clock is the one that the others were compared with. */
    record IsReference() implements ClockStatement {}

    /** The logger of another recording wrote this one too. */
    record SameAs(String file, Spot spot) implements ClockStatement {}

    /** Put it on the clock of the recording with the reference measurement point, by the evacuations that both saw. */
    record ByEvent(String author) implements ClockStatement {}

    /** Somebody states the offset. */
    record ByStatement(double seconds, double halfWidth, String author, String because) implements ClockStatement {

        ClockOffset offset() {
            return ClockOffset.stated(seconds, halfWidth, author, because);
        }
    }

    /** The clock was read against the reference clock. */
    record ByCheck(Optional<Pair> before, Optional<Pair> after, String author, Spot spot) implements ClockStatement {

        /**
         * The readings as moments; empty after a problem was added.
         *
         * @param clock zone of the logger's clock
         * @param site zone of the reference clock
         * @param first stamp of the recording's first sample; its day is meant where only a time of day was written
         */
        Optional<ClockCheck> check(ZoneId clock, ZoneId site, Instant first) {
            LocalDate day = first.atZone(clock).toLocalDate();
            Optional<ClockReading> early = before.map(pair -> pair.reading(clock, site, day));
            Optional<ClockReading> late = after.map(pair -> pair.reading(clock, site, day));
            if (early.isPresent()
                    && late.isPresent()
                    && !early.get().logger().isBefore(late.get().logger())) {
                spot.problem(
                        Mistake.OUT_OF_RANGE,
                        Flaw.of(
                                "found the reading \"after\" no later than the one before, expected the logger's clock to go on.",
                                "Write the day too if the visit went past midnight, for example: 2026-03-02T10:00:41"));
                return Optional.empty();
            }
            return Optional.of(new ClockCheck(early, late));
        }
    }

    /**
     * Two clocks read at one moment.
     *
     * @param logger what the logger showed
     * @param reference what the reference clock showed
     */
    record Pair(Shown logger, Shown reference) {

        private ClockReading reading(ZoneId clock, ZoneId site, LocalDate day) {
            Instant onLogger = logger.at(day, clock);
            Instant onReference = reference.at(day, site);
            if (logger.day().isEmpty() || reference.day().isEmpty()) {
                // of two times of day the nearer pair is meant, also across midnight
                while (onReference.getEpochSecond() - onLogger.getEpochSecond() > HALF_DAY_SECONDS) {
                    onReference = onReference.minusSeconds((long) (2 * HALF_DAY_SECONDS));
                }
                while (onLogger.getEpochSecond() - onReference.getEpochSecond() > HALF_DAY_SECONDS) {
                    onReference = onReference.plusSeconds((long) (2 * HALF_DAY_SECONDS));
                }
            }
            return new ClockReading(onLogger, logger.step(), onReference, reference.step());
        }
    }

    /**
     * What a clock showed.
     *
     * @param day empty if only the time of day was written
     * @param time as written
     * @param step smallest step that was written, in seconds
     */
    record Shown(Optional<LocalDate> day, LocalTime time, double step) {

        private Instant at(LocalDate usual, ZoneId zone) {
            return day.orElse(usual).atTime(time).atZone(zone).toInstant();
        }
    }
}
