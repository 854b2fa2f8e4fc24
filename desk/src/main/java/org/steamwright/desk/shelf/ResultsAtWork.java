package org.steamwright.desk.shelf;

import java.io.IOException;
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
    private volatile boolean isClosing;

    private ResultsAtWork(KeptResults results) {
        this.results = results;
    }

    /** Begins. */
    public static ResultsAtWork start(KeptResults results) {
        ResultsAtWork work = new ResultsAtWork(results);
        work.thread.setDaemon(true);
        work.thread.setPriority(Thread.MIN_PRIORITY);
        work.thread.start();
        return work;
    }

    private void work() {
        try {
            while (!isClosing) {
                if (!results.work(AT_ONCE)) {
                    rest();
                }
            }
        } catch (IOException | RecordsException | OutOfMemoryError failed) {
            LOG.log(Level.WARNING, "visits are assessed for the lists no more until the desk is opened again", failed);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }

    private synchronized void rest() throws InterruptedException {
        if (!isClosing) {
            wait(REST_MILLIS);
        }
    }

    /** Ends when the visit that is being assessed is done. */
    @Override
    public void close() {
        synchronized (this) {
            isClosing = true;
            notifyAll();
        }
        try {
            thread.join();
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }
}
