package org.steamwright.records;

import java.time.Clock;
import java.util.UUID;
import java.util.random.RandomGenerator;

/**
 * Makes identities that sort by the time of their making, also within one millisecond and when the clock goes back.
 *
 * @source RFC 9562, section 5.7 (UUID version 7), and 6.2, method 1 (a counter below the time)
 */
public final class Identities {

    private static final int COUNTER_BITS = 12;

    private final Clock clock;
    private final RandomGenerator random;
    private long last;

    /**
     * @param clock time of making
     * @param random unguessable, or seeded in tests
     */
    public Identities(Clock clock, RandomGenerator random) {
        this.clock = clock;
        this.random = random;
    }

    /** A new identity. */
    public synchronized UUID next() {
        long now = clock.millis() << COUNTER_BITS;
        last = Math.max(last + 1, now);
        long high = (last >> COUNTER_BITS << 16) | 0x7000L | (last & 0xFFFL);
        long low = 0x8000_0000_0000_0000L | (random.nextLong() >>> 2);
        return new UUID(high, low);
    }

    /** A new identity of a subject. */
    public SubjectId nextSubject() {
        return new SubjectId(next());
    }
}
