/**
 * Who may come in: passwords, second factors, lock-out, and the owner of a laptop.
 *
 * <p>Decides whether a log-in is granted, and notes every attempt. Refuses to decide what a role may see: the routes say
 * that. Keeps no password and no code, only what proves them. Start at {@link org.steamwright.desk.accounts.LogIns}.
 */
@NullMarked
package org.steamwright.desk.accounts;

import org.jspecify.annotations.NullMarked;
