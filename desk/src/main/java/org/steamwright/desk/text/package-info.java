/**
 * Words and figures in the reader's language.
 *
 * <p>Every word of a page has a key, kept in one file per room and language; what a language lacks is said in English. Figures
 * come rounded and only get their decimal mark here, so that no page rounds for itself.
 */
@NullMarked
package org.steamwright.desk.text;

import org.jspecify.annotations.NullMarked;
