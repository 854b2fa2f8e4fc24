/**
 * What was done, read and agreed on site beside the test runs: each line a fact that somebody stands for.
 *
 * <p>Refuses facts that say nothing, such as 'not possible' without a reason or a condition without an owner. Judges
 * nothing but what a stated limit decides. Start at {@link org.steamwright.visit.job.TaskRecord}.
 */
@NullMarked
package org.steamwright.visit.job;

import org.jspecify.annotations.NullMarked;
