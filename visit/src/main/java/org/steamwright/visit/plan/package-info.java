/**
 * The plan of a visit before it begins: which tests follow from its reason, how long they take, what goes along, and whether it may go.
 *
 * <p>Decides from an editable matrix with sources; how many loaded runs belongs to the criteria set, and what is judged to the
 * assessment. A plan binds nobody: on site the technician does what the machine asks for. Start at
 * {@link org.steamwright.visit.plan.Planning}.
 */
@NullMarked
package org.steamwright.visit.plan;

import org.jspecify.annotations.NullMarked;
