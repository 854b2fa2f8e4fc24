/**
 * What follows when something failed: out of service, re-test, look-back, and the letters about it.
 *
 * <p>Supplies evidence and proposals. Decides nothing about patients and holds nothing about them: what becomes of loads
 * already used, the clinic decides. Start at {@link org.steamwright.visit.failure.FailurePath}.
 */
@NullMarked
package org.steamwright.visit.failure;

import org.jspecify.annotations.NullMarked;
