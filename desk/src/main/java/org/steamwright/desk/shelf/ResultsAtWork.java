package org.steamwright.desk.shelf;

import java.io.IOException;
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
        try {
            boolean isOpen = true;
            while (isOpen) {
                boolean isMore = results.work(AT_ONCE);
                isOpen = !closing.await(isMore ? 0 : REST_MILLIS, TimeUnit.MILLISECONDS);
            }
        } catch (IOException | RecordsException | OutOfMemoryError failed) {
            LOG.log(Level.WARNING, "visits are assessed for the lists no more until the desk is opened again", failed);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
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
