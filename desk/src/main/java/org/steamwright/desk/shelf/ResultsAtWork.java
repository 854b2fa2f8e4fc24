package org.steamwright.desk.shelf;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.steamwright.filing.KeptResults;
import org.steamwright.records.RecordsException;

/** Assesses visits that wait for it while the desk is open, one after the other, so that lists over all visits need not. */
public final class ResultsAtWork implements AutoCloseable {

    private static final Logger LOG = Logger.getLogger(ResultsAtWork.class.getName());
    private static final int AT_ONCE = 4;
    private static final long REST_MILLIS = 2_000;
    private static final long REST_AFTER_FAILURE_MILLIS = 30_000;

    private final KeptResults results;
    private final Thread thread = new Thread(this::work, "results");
    private final CountDownLatch closing = new CountDownLatch(1);

    private ResultsAtWork(KeptResults results) {
        this.results = results;
    }

    /** Begins. */
    public static ResultsAtWork start(KeptResults results) {
        ResultsAtWork work = new ResultsAtWork(results);
        work.thread.setDaemon(true);
        work.thread.start();
        return work;
    }

    private void work() {
        boolean isOpen = true;
        boolean isFailing = false;
        while (isOpen) {
            long rest = REST_MILLIS;
            try {
                rest = results.work(AT_ONCE) ? 0 : REST_MILLIS;
                isFailing = false;
            } catch (RecordsException failed) {
                if (!isFailing) {
                    LOG.log(Level.WARNING, "visits can't be assessed for the lists now; it is tried again", failed);
                }
                isFailing = true;
                rest = REST_AFTER_FAILURE_MILLIS;
            }
            try {
                isOpen = !closing.await(rest, TimeUnit.MILLISECONDS);
            } catch (InterruptedException stopped) {
                Thread.currentThread().interrupt();
                isOpen = false;
            }
        }
    }

    /** Ends when the visits that are being assessed are done. */
    @Override
    public void close() {
        closing.countDown();
        try {
            thread.join();
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }
}
