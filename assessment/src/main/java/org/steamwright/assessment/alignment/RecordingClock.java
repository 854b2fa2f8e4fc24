package org.steamwright.assessment.alignment;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * The clock that stamped one recording of a run.
 *
 * @param file name of the recording
 * @param clock name of the recording whose clock it shares: its own, unless one logger wrote several files
 * @param channels names of the run's channels that come from it
 * @param stamped moment of its first sample as the logger stamped it; empty if the file has elapsed time only
 * @param offset what was added; empty if the stamps were taken as they are
 * @param note why there is no offset although one was asked for; otherwise empty
 */
public record RecordingClock(
        String file,
        String clock,
        List<String> channels,
        Optional<Instant> stamped,
        Optional<ClockOffset> offset,
        String note) {

    private static final double NANOSECONDS = 1e9;

    public RecordingClock {
        channels = List.copyOf(channels);
    }

    /** Moment of the first sample on the clock of the run. */
    public Optional<Instant> aligned() {
        double seconds = offset.map(ClockOffset::secondsAtStart).orElse(0.0);
        return stamped.map(moment -> moment.plus(Duration.ofNanos(Math.round(seconds * NANOSECONDS))));
    }

    /** The same with another offset. */
    public RecordingClock withOffset(ClockOffset other) {
        return new RecordingClock(file, clock, channels, stamped, Optional.of(other), note);
    }
}
