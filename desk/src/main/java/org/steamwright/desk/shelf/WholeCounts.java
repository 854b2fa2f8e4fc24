package org.steamwright.desk.shelf;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentMap;
import java.util.function.Supplier;
import org.steamwright.records.Records;

/**
 * What is counted over the whole record: how long a list is, the measures of a year, the band of a family. In a record of
 * usual size it is counted whenever it is asked for. In a nation's, where counting takes longer than the rest of a page, a
 * count is kept for half a minute; one visit more or less among a hundred thousand can wait that long.
 */
public final class WholeCounts {

    /** Entries of the journal from which a record is a large one. */
    private static final long LARGE = 200_000;

    private static final Duration KEPT = Duration.ofSeconds(30);
    /** Questions remembered at most; then all of them are forgotten. */
    private static final int MOST = 2_000;

    private record Counted(Object value, Instant at) {}

    private final Records records;
    private final long large;
    private final ConcurrentMap<Object, Counted> counted = new ConcurrentHashMap<>();

    WholeCounts(Records records) {
        this(records, LARGE);
    }

    WholeCounts(Records records, long large) {
        this.records = records;
        this.large = large;
    }

    /**
     * A count, or what it was within the last half minute.
     *
     * @param what is counted: equal for the same question only, and always asked with the same kind of answer
     * @param count does it
     */
    @SuppressWarnings("unchecked")
    public <T> T of(Object what, Supplier<T> count) {
        if (records.head().tree().size() < large) {
            return count.get();
        }
        Instant now = records.clock().instant();
        Optional<Counted> known = Optional.ofNullable(counted.get(what))
                .filter(one -> Duration.between(one.at(), now).abs().compareTo(KEPT) < 0);
        if (known.isEmpty()) {
            if (counted.size() >= MOST) {
                counted.clear();
            }
            known = Optional.of(new Counted(count.get(), now));
            counted.put(what, known.get());
        }
        return (T) known.get().value();
    }
}
