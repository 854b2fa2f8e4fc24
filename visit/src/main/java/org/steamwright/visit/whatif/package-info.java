/**
 * The same visit judged under other premises, and what would change.
 *
 * <p>Decides nothing: it shows which findings hang on a limit, a rule, a formula, a clock or an instrument. The look-back
 * after an instrument was found out of tolerance is the same question. Start at {@link
 * org.steamwright.visit.whatif.WhatIf}.
 */
@NullMarked
package org.steamwright.visit.whatif;

import org.jspecify.annotations.NullMarked;
