/**
 * What the rooms of the desk share: the record with its clock, rules and reviews, and visits as they follow from their facts, kept
 * at hand as long as the facts stay the same. Start at {@link org.steamwright.desk.shelf.Office}.
 *
 * <p>A result is a pure function of facts and files, so that the facts are the key: nothing has to be thrown away when a fact
 * changes, it is just not found any more.
 */
@NullMarked
package org.steamwright.desk.shelf;

import org.jspecify.annotations.NullMarked;
