/**
 * The reader's language. The engine and the record speak English: what was signed is said in one language only. What a
 * screen or a document shows of it is put into the reader's language at its door, phrase by phrase, from catalogues that
 * stand beside this package. A phrase that no catalogue knows stays as it is and can be told apart.
 */
@NullMarked
package org.steamwright.report.language;

import org.jspecify.annotations.NullMarked;
