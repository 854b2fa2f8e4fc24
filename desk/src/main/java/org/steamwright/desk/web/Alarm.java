package org.steamwright.desk.web;

import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What is to be looked at by the clock, told on every page of the staff.
 *
 * @param now when this was put together
 * @param due visits of which something can be looked at now
 * @param soon moments at which that becomes true of others, the earliest first
 */
public record Alarm(Instant now, long due, List<Instant> soon) {

    /** Nothing is told. */
    public static final Alarm NONE = new Alarm(Instant.EPOCH, 0, List.of());

    public Alarm {
        soon = List.copyOf(soon);
    }

    /** The moments with a blank between them. */
    public String moments() {
        return soon.stream().map(Instant::toString).collect(Collectors.joining(" "));
    }
}
