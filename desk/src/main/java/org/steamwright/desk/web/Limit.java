package org.steamwright.desk.web;

import java.util.Locale;

/**
 * How much one user or one address may ask of an office's desk. The usual values are far above what a visit takes; they keep
 * one session from keeping the server busy for everybody else.
 */
public enum Limit {
    CHANGES_AT_ONCE_PER_USER(600, 10),
    CHANGES_PER_MINUTE_PER_USER(120, 1),
    CHANGES_AT_ONCE_PER_ADDRESS(3_000, 10),
    CHANGES_PER_MINUTE_PER_ADDRESS(600, 1),
    UPLOADS_PER_HOUR_PER_USER(300, 1),
    MEGABYTES_PER_HOUR_PER_USER(3_000, 300),
    UPLOADS_PER_HOUR_PER_ADDRESS(1_500, 1),
    MEGABYTES_PER_HOUR_PER_ADDRESS(15_000, 300),
    SESSIONS_PER_HOUR_PER_ADDRESS(1_000, 60),
    FREE_MEGABYTES(1_000, 0),
    DOCUMENTS_AT_ONCE(2, 1),
    DOCUMENTS_WAITING(6, 0),
    DOCUMENTS_WAIT_SECONDS(20, 0);

    private static final long MOST = 1_000_000;

    private final long usual;
    private final long least;

    Limit(long usual, long least) {
        this.usual = usual;
        this.least = least;
    }

    /** The key in the file of settings. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Value that holds where none is set. */
    public long usual() {
        return usual;
    }

    /** Smallest value that may be set: one request as large as the desk takes has to fit. */
    public long least() {
        return least;
    }

    /** Largest value that may be set. */
    public long most() {
        return MOST;
    }
}
