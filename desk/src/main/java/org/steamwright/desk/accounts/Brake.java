package org.steamwright.desk.accounts;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * The wait between attempts that fail: none for the first few, then one that doubles. Kept in memory, by address or by a name
 * that nobody has; the oldest are forgotten when there are too many.
 */
public final class Brake {

    private static final int MOST = 10_000;
    private static final int LONGEST_KEY = 200;
    private static final Duration FIRST = Duration.ofMinutes(1);
    private static final Duration LONGEST = Duration.ofHours(1);

    private record Failures(int count, Instant last) {}

    private final Clock clock;
    private final int free;
    private final Map<String, Failures> failures;

    /**
     * @param clock time
     * @param free failures without a wait
     */
    public Brake(Clock clock, int free) {
        this.clock = clock;
        this.free = free;
        this.failures = new LinkedHashMap<>(16, 0.75f, true) {
            private static final long serialVersionUID = 1L;

            @Override
            protected boolean removeEldestEntry(Map.Entry<String, Failures> eldest) {
                return size() > MOST;
            }
        };
    }

    /**
     * How long to wait after so many failures in a row.
     *
     * @param count failures
     * @param free failures without a wait
     */
    static Duration waitAfter(int count, int free) {
        if (count < free) {
            return Duration.ZERO;
        }
        int doublings = Math.min(count - free, Integer.SIZE / 2);
        Duration wait = FIRST.multipliedBy(1L << doublings);
        return wait.compareTo(LONGEST) > 0 ? LONGEST : wait;
    }

    /** What strangers type may be as long as a request; only so much of it is kept. */
    private static String key(String who) {
        return who.length() <= LONGEST_KEY ? who : who.substring(0, LONGEST_KEY) + "#" + who.hashCode();
    }

    /** How many are remembered, and the longest text by which one is; for tests. */
    synchronized int longestKey() {
        return failures.keySet().stream().mapToInt(String::length).max().orElse(0);
    }

    /** Until when that one has to wait; empty if it need not. */
    public synchronized Optional<Instant> until(String who) {
        Failures found = failures.get(key(who));
        if (found == null) {
            return Optional.empty();
        }
        Instant until = found.last.plus(waitAfter(found.count, free));
        return clock.instant().isBefore(until) ? Optional.of(until) : Optional.empty();
    }

    /** One more attempt has failed. A day without one begins the count anew. */
    public synchronized void failed(String who) {
        Instant now = clock.instant();
        Failures found = failures.get(key(who));
        int count = found == null || found.last.plus(Duration.ofDays(1)).isBefore(now) ? 0 : found.count;
        failures.put(key(who), new Failures(count + 1, now));
    }

    /** The attempt counted last was none of those that fail: it leaves no trace, and those before it stay. */
    public synchronized void takeBack(String who) {
        Failures found = failures.get(key(who));
        if (found == null) {
            return;
        }
        if (found.count <= 1) {
            failures.remove(key(who));
        } else {
            failures.put(key(who), new Failures(found.count - 1, found.last));
        }
    }

    /** An attempt has succeeded. */
    public synchronized void succeeded(String who) {
        failures.remove(key(who));
    }
}
