/**
 * Users of an office, their recovery codes, and the log of log-ins, in tables beside the journal.
 *
 * <p>Decides that a log-in is noted once and never altered, and that a change of an account is made from its newest state.
 * Refuses to know what a good password is, or what a role may do: the desk does. Start at
 * {@link org.steamwright.records.accounts.AccountBook}.
 */
@NullMarked
package org.steamwright.records.accounts;

import org.jspecify.annotations.NullMarked;
