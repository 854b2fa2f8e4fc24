package org.steamwright.desk.accounts;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A clock that is set by hand. */
public final class HandClock extends Clock {

    private Instant now = Instant.parse("2026-03-02T09:00:00Z");

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        return Clock.fixed(now, zone);
    }

    @Override
    public Instant instant() {
        return now;
    }

    public void forward(Duration time) {
        now = now.plus(time);
    }
}
