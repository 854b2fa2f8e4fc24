/**
 * What is due, when, and why: by time, by cycles, by condition, by event and by certificate, whichever comes first.
 *
 * <p>Decides days from rules that come with their source, and foretells counts with an interval or not at all. States facts,
 * not law: whether an overdue machine may be used is for the clinic and its jurisdiction. The day it is gets passed in.
 * Start at {@link org.steamwright.visit.due.DueList}.
 */
@NullMarked
package org.steamwright.visit.due;

import org.jspecify.annotations.NullMarked;
