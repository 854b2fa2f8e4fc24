package org.steamwright.crosscheck;

import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.LongAdder;
import java.util.function.LongConsumer;
import java.util.stream.LongStream;

/** Many runs by seed on all cores, with counters that end up in the build's output. */
final class Campaign {

    private static final int SHOWN = 12;

    private final String title;
    private final Map<String, LongAdder> counts = new ConcurrentHashMap<>();
    private final ConcurrentLinkedQueue<String> complaints = new ConcurrentLinkedQueue<>();
    private final Map<String, Double> extremes = new ConcurrentHashMap<>();

    Campaign(String title) {
        this.title = title;
    }

    /** Number of runs: 1,000 unless the build was told otherwise. */
    static int runs() {
        return Integer.getInteger("campaign.runs", 1000);
    }

    /**
     * Calls with every seed from {@code campaign.first} on, 0 if the build was not told otherwise, on all cores. A model that
     * was made to fit one stretch of seeds is tested on another.
     */
    void forEachSeed(int runs, LongConsumer run) {
        long first = Long.getLong("campaign.first", 0);
        LongStream.range(first, first + runs).parallel().forEach(run);
    }

    /**
     * A generator for one run. Neighbouring seeds of {@link Random} begin with nearly equal numbers, so that a thousand runs in
     * a row would all have nearly the same first error; the seed is mixed before.
     *
     * @param purpose another number gives other draws for the same run
     */
    static Random random(long seed, long purpose) {
        return new Random(new SplittableRandom(seed * 31 + purpose).nextLong());
    }

    void count(String what) {
        counts.computeIfAbsent(what, key -> new LongAdder()).increment();
    }

    long counted(String what) {
        LongAdder adder = counts.get(what);
        return adder == null ? 0 : adder.sum();
    }

    /** Keeps the largest value seen. */
    void largest(String what, double value) {
        extremes.merge(what, value, Math::max);
    }

    /** Something that must not happen; in words that allow to repeat it. */
    void complain(String what) {
        complaints.add(what);
    }

    /** The first complaints, in a fixed order. */
    List<String> complaints() {
        return complaints.stream()
                .sorted()
                .limit(Integer.getInteger("campaign.shown", SHOWN))
                .toList();
    }

    /** One line for every counter, to the build's output. */
    void print() {
        StringBuilder text = new StringBuilder(title).append(System.lineSeparator());
        counts.keySet().stream()
                .sorted()
                .forEach(key -> text.append("  ")
                        .append(key)
                        .append(": ")
                        .append(counted(key))
                        .append(System.lineSeparator()));
        extremes.keySet().stream()
                .sorted()
                .forEach(key -> text.append("  largest ")
                        .append(key)
                        .append(": ")
                        .append(extremes.get(key))
                        .append(System.lineSeparator()));
        text.append("  complaints: ").append(complaints.size());
        System.out.println(text);
    }
}
