package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Where on the trace a finding rests.
 *
 * @param channels names of the channels that decided; may be empty
 * @param fromSeconds start of the stretch looked at, seconds from the start of the run; empty if none
 * @param toSeconds end of that stretch
 * @param atSeconds moment of the deciding sample; empty if there is none
 */
public record Evidence(
        List<String> channels, OptionalDouble fromSeconds, OptionalDouble toSeconds, OptionalDouble atSeconds) {

    /** No place on the trace. */
    public static final Evidence NONE =
            new Evidence(List.of(), OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty());

    public Evidence {
        channels = List.copyOf(channels);
    }

    /** One moment of one channel inside a stretch. */
    public static Evidence at(String channel, double moment, double from, double to) {
        return new Evidence(
                List.of(channel), OptionalDouble.of(from), OptionalDouble.of(to), OptionalDouble.of(moment));
    }

    /** A stretch of some channels. */
    public static Evidence stretch(List<String> channels, double from, double to) {
        return new Evidence(channels, OptionalDouble.of(from), OptionalDouble.of(to), OptionalDouble.empty());
    }
}
