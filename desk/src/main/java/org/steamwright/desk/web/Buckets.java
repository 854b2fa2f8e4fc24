package org.steamwright.desk.web;

import io.github.bucket4j.Bandwidth;
import io.github.bucket4j.Bucket;
import io.github.bucket4j.ConsumptionProbe;
import io.github.bucket4j.TimeMeter;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * One bucket for each of those who ask, filled evenly over time. Those who have not asked for longest are forgotten when there
 * are too many.
 *
 * <p>May be used by several threads.
 */
public final class Buckets {

    private static final int MOST = 10_000;

    private final Bandwidth bandwidth;
    private final TimeMeter meter;
    private final Map<String, Bucket> buckets;

    /**
     * @param holds what a full bucket holds
     * @param fills what comes in within the time
     * @param within that time
     * @param clock time
     */
    public Buckets(long holds, long fills, Duration within, Clock clock) {
        this.bandwidth =
                Bandwidth.builder().capacity(holds).refillGreedy(fills, within).build();
        this.meter = new TimeMeter() {
            @Override
            public long currentTimeNanos() {
                Instant now = clock.instant();
                return Math.addExact(Math.multiplyExact(now.getEpochSecond(), 1_000_000_000L), now.getNano());
            }

            @Override
            public boolean isWallClockBased() {
                return true;
            }
        };
        this.buckets = new LinkedHashMap<>(16, 0.75f, true) {
            private static final long serialVersionUID = 1L;

            @Override
            protected boolean removeEldestEntry(Map.Entry<String, Bucket> eldest) {
                return size() > MOST;
            }
        };
    }

    private synchronized Bucket of(String who) {
        return buckets.computeIfAbsent(
                who,
                key -> Bucket.builder()
                        .addLimit(bandwidth)
                        .withCustomTimePrecision(meter)
                        .build());
    }

    /** Takes so much out of a bucket; how long to wait if there is not as much in it, and then nothing is taken. */
    public Optional<Duration> take(String who, long amount) {
        ConsumptionProbe probe = of(who).tryConsumeAndReturnRemaining(amount);
        return probe.isConsumed() ? Optional.empty() : Optional.of(Duration.ofNanos(probe.getNanosToWaitForRefill()));
    }
}
