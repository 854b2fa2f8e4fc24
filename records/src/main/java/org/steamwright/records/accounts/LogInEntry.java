package org.steamwright.records.accounts;

import java.time.Instant;

/**
 * One line of the log of log-ins.
 *
 * @param nr its place in the log, from 1
 * @param at when
 * @param account id of the account; empty if what was typed names none. What was typed is not kept: it may be a password
 * @param address from where
 * @param act what was attempted
 * @param result what came of it
 */
public record LogInEntry(long nr, Instant at, String account, String address, String act, String result) {}
