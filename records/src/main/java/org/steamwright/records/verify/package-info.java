/**
 * The search for anything that is not as it was kept.
 *
 * <p>Decides whether files, journal, tree, facts, index and signatures still fit each other and the heads that were given
 * out, and names the place of every difference. Refuses to mend: what is damaged is restored from a backup. Recomputing
 * results is a port, since the record knows no assessment. Start at {@link org.steamwright.records.verify.Verifier}.
 */
@NullMarked
package org.steamwright.records.verify;

import org.jspecify.annotations.NullMarked;
