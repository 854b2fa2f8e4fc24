package org.steamwright.desk.web;

import java.time.Clock;
import java.time.Duration;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Holds an office's desk to its {@link Limit}s. A user is counted over all sessions, so that another log-in gains nothing.
 *
 * <p>May be used by several threads.
 */
public final class Limits {

    private static final long MEGABYTE = 1_000_000;
    private static final Duration HOUR = Duration.ofHours(1);
    private static final Duration MINUTE = Duration.ofMinutes(1);

    private final Buckets userChanges;
    private final Buckets addressChanges;
    private final Buckets userUploads;
    private final Buckets addressUploads;
    private final Buckets userBytes;
    private final Buckets addressBytes;
    private final Buckets sessions;
    private final Semaphore documents;
    private final AtomicInteger waiting = new AtomicInteger();
    private final long mayWait;
    private final long waitSeconds;

    /**
     * @param set values that differ from the usual ones
     * @param clock time
     */
    public Limits(Map<Limit, Long> set, Clock clock) {
        Map<Limit, Long> values = new EnumMap<>(Limit.class);
        for (Limit limit : Limit.values()) {
            values.put(limit, set.getOrDefault(limit, limit.usual()));
        }
        userChanges = new Buckets(
                of(values, Limit.CHANGES_AT_ONCE_PER_USER),
                of(values, Limit.CHANGES_PER_MINUTE_PER_USER),
                MINUTE,
                clock);
        addressChanges = new Buckets(
                of(values, Limit.CHANGES_AT_ONCE_PER_ADDRESS),
                of(values, Limit.CHANGES_PER_MINUTE_PER_ADDRESS),
                MINUTE,
                clock);
        userUploads = hourly(of(values, Limit.UPLOADS_PER_HOUR_PER_USER), clock);
        addressUploads = hourly(of(values, Limit.UPLOADS_PER_HOUR_PER_ADDRESS), clock);
        userBytes = hourly(of(values, Limit.MEGABYTES_PER_HOUR_PER_USER) * MEGABYTE, clock);
        addressBytes = hourly(of(values, Limit.MEGABYTES_PER_HOUR_PER_ADDRESS) * MEGABYTE, clock);
        sessions = hourly(of(values, Limit.SESSIONS_PER_HOUR_PER_ADDRESS), clock);
        documents = new Semaphore((int) of(values, Limit.DOCUMENTS_AT_ONCE), true);
        mayWait = of(values, Limit.DOCUMENTS_WAITING);
        waitSeconds = of(values, Limit.DOCUMENTS_WAIT_SECONDS);
    }

    private static long of(Map<Limit, Long> values, Limit limit) {
        return values.getOrDefault(limit, limit.usual());
    }

    private static Buckets hourly(long amount, Clock clock) {
        return new Buckets(amount, amount, HOUR, clock);
    }

    /**
     * Counts a change.
     *
     * @param user who makes it; empty for a stranger
     * @param address from where
     * @return how long to wait if there were too many
     */
    public Optional<Duration> change(String user, String address) {
        return first(user, userChanges, address, addressChanges, 1);
    }

    /**
     * Counts an upload before it is read.
     *
     * @param bytes of the whole request
     * @return how long to wait if there were too many, or too much
     */
    public Optional<Duration> upload(String user, String address, long bytes) {
        return first(user, userUploads, address, addressUploads, 1)
                .or(() -> first(user, userBytes, address, addressBytes, bytes));
    }

    /** Counts a session of a stranger; how long to wait if an address has begun too many. */
    public Optional<Duration> session(String address) {
        return sessions.take(address, 1);
    }

    private static Optional<Duration> first(
            String user, Buckets ofUsers, String address, Buckets ofAddresses, long amount) {
        Optional<Duration> wait = user.isEmpty() ? Optional.empty() : ofUsers.take(user, amount);
        return wait.or(() -> ofAddresses.take(address, amount));
    }

    /**
     * A turn at dear work, after waiting for it if need be.
     *
     * @return empty if too many wait already, or none came free in time
     */
    public Optional<Turn> turn() {
        if (documents.tryAcquire()) {
            return Optional.of(new Turn(documents));
        }
        if (waiting.incrementAndGet() > mayWait) {
            waiting.decrementAndGet();
            return Optional.empty();
        }
        try {
            return documents.tryAcquire(waitSeconds, TimeUnit.SECONDS)
                    ? Optional.of(new Turn(documents))
                    : Optional.empty();
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        } finally {
            waiting.decrementAndGet();
        }
    }

    /** How long somebody is told to wait who got no turn. */
    public Duration untilTurn() {
        return Duration.ofSeconds(Math.max(1, waitSeconds));
    }

    /** A turn at dear work, to be given back. */
    public static final class Turn {

        private final Semaphore documents;

        private Turn(Semaphore documents) {
            this.documents = documents;
        }

        /** Lets the next one work. */
        public void giveBack() {
            documents.release();
        }
    }
}
