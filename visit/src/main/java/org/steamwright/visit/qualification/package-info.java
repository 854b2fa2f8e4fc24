/**
 * From the verdicts of runs to qualifications: which cycle of which sterilizer is qualified, by which runs.
 *
 * <p>Decides what counts as consecutive and what is still open; judges no trace itself. Start at
 * {@link org.steamwright.visit.qualification.Qualification}.
 */
@NullMarked
package org.steamwright.visit.qualification;

import org.jspecify.annotations.NullMarked;
