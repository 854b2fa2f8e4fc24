/**
 * What a visit leaves behind: which cycles are qualified, with what, until when, and whether a load of today is covered.
 *
 * <p>Pure functions of an assessed visit, a day and a load; asks no clock. What is not known is never covered. Decides
 * nothing about loads already used. Start at {@link org.steamwright.visit.validity.ValidatedState}.
 */
@NullMarked
package org.steamwright.visit.validity;

import org.jspecify.annotations.NullMarked;
