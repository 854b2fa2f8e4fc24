/**
 * The documents of a visit as PDF/A files: the report, and the certificate of one steriliser on one page.
 *
 * <p>Start at {@link org.steamwright.report.document.ReportPdf}, for the page on the wall at
 * {@link org.steamwright.report.document.CertificatePdf}. The pages are written as strict XHTML by a small
 * builder that escapes every text, laid out by a library, and carry the drawings of the {@code plot} package. A document
 * says what the assessment found and adds no judgement; the same visit gives the same bytes.
 */
@NullMarked
package org.steamwright.report.document;

import org.jspecify.annotations.NullMarked;
