package org.steamwright.visit;

/**
 * A run and how it counts towards a qualification.
 *
 * @param run with its evaluation
 * @param count how it counts
 */
record CountedRun(AssessedRun run, Count count) {

    /** Ways in which a run counts. Only the first three decide anything. */
    enum Count {
        PASS("passed"),
        FAIL("failed"),
        /** Passes as recorded, an indicator is not read yet. */
        AWAITED("awaited"),
        /** Proves nothing; breaks no row. */
        INVALID("invalid"),
        /** Passes, but through a feed-through that leaked. */
        LEAKING("not counted because the feed-through leaked"),
        /** Made before the service; tells about the past. */
        AS_FOUND("as found");

        private final String words;

        Count(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }
    }

    static CountedRun of(AssessedRun run, LeakStanding leak) {
        return new CountedRun(run, count(run, leak));
    }

    int number() {
        return run.run().number();
    }

    private static Count count(AssessedRun run, LeakStanding leak) {
        if (run.run().isAsFound()) {
            return Count.AS_FOUND;
        }
        if (run.isFail()) {
            return Count.FAIL;
        }
        if (!run.isPass() && !run.isAwaited()) {
            return Count.INVALID;
        }
        if (leak.leaksAtTheSensors(run)) {
            return Count.LEAKING;
        }
        return run.isPass() ? Count.PASS : Count.AWAITED;
    }
}
