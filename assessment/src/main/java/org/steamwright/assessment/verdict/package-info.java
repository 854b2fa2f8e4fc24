/**
 * From a trace and a criteria set to findings, and from findings to the verdict of a run.
 *
 * <p>Start at {@link org.steamwright.assessment.verdict.Assessment}.
 */
@NullMarked
package org.steamwright.assessment.verdict;

import org.jspecify.annotations.NullMarked;
