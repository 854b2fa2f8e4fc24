package org.steamwright.assessment.alignment;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.alignment.ClockOffset.Method;

/**
 * The clocks of all recordings of a run, and what a time between two of its channels is worth.
 *
 * @param base name of the recording with the reference measurement point, which a common event is compared with
 * @param recordings each with its clock; none if all channels share one clock
 */
public record Clocks(String base, List<RecordingClock> recordings) {

    /** All channels were stamped by one clock. */
    public static final Clocks ONE = new Clocks("", List.of());

    public Clocks {
        recordings = List.copyOf(recordings);
    }

    /** Whether more than one clock stamped the channels. */
    public boolean areSeveral() {
        return recordings.stream().map(RecordingClock::clock).distinct().count() > 1;
    }

    /** The recording that a channel comes from. */
    public Optional<RecordingClock> find(String channel) {
        return recordings.stream()
                .filter(recording -> recording.channels().contains(channel))
                .findFirst();
    }

    /**
     * Half-width of the time between two channels that their clocks leave, in seconds: 0 on one clock, infinite if the clocks
     * were never compared.
     */
    public double halfWidthBetween(String channel, String other) {
        Optional<RecordingClock> one = find(channel);
        Optional<RecordingClock> two = find(other);
        return one.isEmpty() || two.isEmpty() ? 0 : between(one.get(), two.get());
    }

    private double between(RecordingClock one, RecordingClock two) {
        if (one.clock().equals(two.clock())) {
            return 0;
        }
        if (isByEvent(one) && isByEvent(two)) {
            return halfWidth(one) + halfWidth(two);
        }
        if (isByEvent(one) || isByEvent(two)) {
            RecordingClock event = isByEvent(one) ? one : two;
            RecordingClock rest = isByEvent(one) ? two : one;
            return halfWidth(event)
                    + recording(base).map(its -> between(its, rest)).orElse(Double.POSITIVE_INFINITY);
        }
        return halfWidth(one) + halfWidth(two);
    }

    private Optional<RecordingClock> recording(String file) {
        return recordings.stream()
                .filter(recording -> recording.file().equals(file))
                .findFirst();
    }

    private static boolean isByEvent(RecordingClock recording) {
        return recording.offset().filter(o -> o.method() == Method.COMMON_EVENT).isPresent();
    }

    private static double halfWidth(RecordingClock recording) {
        return recording.offset().map(ClockOffset::halfWidth).orElse(Double.POSITIVE_INFINITY);
    }
}
