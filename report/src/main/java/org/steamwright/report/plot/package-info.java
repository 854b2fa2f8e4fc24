/**
 * Drawings of a run: the whole cycle, its plateau, a leak test, the margin ruler of a finding.
 *
 * <p>A {@link org.steamwright.report.plot.Drawing} is a list of marks in points, made once and written twice: as SVG for a
 * browser, by {@link org.steamwright.report.plot.SvgWriter}, and into the pages of the report. The same run gives the
 * same marks, byte for byte. Nothing here judges: what a title says was decided by the assessment.
 */
@NullMarked
package org.steamwright.report.plot;

import org.jspecify.annotations.NullMarked;
