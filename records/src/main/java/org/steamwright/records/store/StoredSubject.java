package org.steamwright.records.store;

import org.steamwright.records.Kind;

/**
 * A subject's place in the tables.
 *
 * @param number row
 * @param kind what it is
 */
record StoredSubject(long number, Kind kind) {}
