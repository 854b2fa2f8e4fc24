/**
 * One visit to a clinic: its facts, and what follows from them.
 *
 * <p>A visit is a set of facts and recordings; every result is a pure function of them. This package holds the facts and
 * {@link org.steamwright.visit.AssessedVisit} the results. It knows no file, database, page or document. Start at {@link org.steamwright.visit.Visit}.
 */
@NullMarked
package org.steamwright.visit;

import org.jspecify.annotations.NullMarked;
