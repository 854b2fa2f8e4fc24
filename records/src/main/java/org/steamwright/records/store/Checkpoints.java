package org.steamwright.records.store;

import java.util.Timer;
import java.util.TimerTask;
import org.jspecify.annotations.Nullable;

/**
 * Brings what commits have left in the write-ahead log into the database file, beside the next commits instead of within one
 * of them: whoever saves waits for the log only. A checkpoint that fails leaves everything in the log, where it is as safe as
 * before; the next one, the bound of the writing connection, or the closing of the store does it.
 *
 * @source SQLite documentation, "Write-Ahead Logging", checkpoints (as read in earlier editions)
 */
final class Checkpoints implements AutoCloseable {

    /** Pages in the log from which a commit brings them over itself: 64 MB, when saving never pauses. */
    static final int PAGES_AT_MOST = 16_000;

    private static final long REST_MILLISECONDS = 2_000;
    /** When so many were committed the rest is cut short: some megabytes of log. */
    private static final int MANY = 64;

    private final Runnable checkpoint;
    private @Nullable Timer timer;
    /** Since the last checkpoint began. */
    private int commits;

    private boolean isClosed;
    /** Held while a checkpoint is made; closing waits for it. */
    private final Object work = new Object();

    Checkpoints(Runnable checkpoint) {
        this.checkpoint = checkpoint;
    }

    /** Something was committed. */
    synchronized void committed() {
        if (isClosed) {
            return;
        }
        if (timer == null) {
            timer = new Timer("checkpoints of the record", true);
        }
        commits++;
        if (commits == 1) {
            timer.schedule(task(), REST_MILLISECONDS);
        } else if (commits == MANY) {
            timer.schedule(task(), 0);
        }
    }

    private TimerTask task() {
        return new TimerTask() {
            @Override
            public void run() {
                make();
            }
        };
    }

    private void make() {
        synchronized (work) {
            synchronized (this) {
                if (isClosed || commits == 0) {
                    return;
                }
                commits = 0;
            }
            try {
                checkpoint.run();
            } catch (RuntimeException e) {
                // everything is in the log still; the timer would end with it
                return;
            }
        }
    }

    @Override
    public void close() {
        synchronized (this) {
            isClosed = true;
            if (timer != null) {
                timer.cancel();
            }
        }
        synchronized (work) {
            // a checkpoint that was under way has ended; closing the last connection brings the rest over
            return;
        }
    }
}
