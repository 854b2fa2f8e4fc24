/**
 * Signed issues of a visit's report.
 *
 * <p>Decides what a signature covers (facts, files, criteria set, algorithm version, result, name, role, meaning, time, head
 * of the journal) and that a signed visit changes no more: a correction is a new issue with its reason. Refuses simulated
 * visits, and anybody without the signer's own secret. Does not say who a person is: names come from the register. Start at
 * {@link org.steamwright.records.signing.Issues}, then {@link org.steamwright.records.signing.Keys}.
 */
@NullMarked
package org.steamwright.records.signing;

import org.jspecify.annotations.NullMarked;
