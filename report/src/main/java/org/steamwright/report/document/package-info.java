/**
 * The report of a visit as one PDF/A file.
 *
 * <p>{@link org.steamwright.report.document.ReportPdf} is the way in. The pages are written as strict XHTML by a small
 * builder that escapes every text, laid out by a library, and carry the drawings of the {@code plot} package. The document
 * says what the assessment found and adds no judgement; the same visit gives the same bytes.
 */
@NullMarked
package org.steamwright.report.document;

import org.jspecify.annotations.NullMarked;
