/**
 * The result of an assessed visit as JSON: every figure that an auditor needs to compute it again.
 *
 * <p>Decides nothing: it writes down what the assessment found, unrounded, in a fixed order, with the unit in the name
 * of every field that has one. The same assessed visit gives the same bytes; no clock is asked. What was not
 * found is left out and named with its reason, so that an absent figure is never mistaken for a zero. The format is
 * laid down by the JSON Schema beside this package. Start at {@link org.steamwright.report.result.ResultJson}.
 */
@NullMarked
package org.steamwright.report.result;

import org.jspecify.annotations.NullMarked;
