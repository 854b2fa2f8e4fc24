/**
 * The runs of a visit: how recordings were read, which sensor sat where, whose clock is whose, and what became of the run, on
 * one page with curves that move. Nothing is judged here; every figure comes from the assessment, every entry goes to the
 * draft. Begin with {@link org.steamwright.desk.runs.RunsRoutes}.
 */
@NullMarked
package org.steamwright.desk.runs;

import org.jspecify.annotations.NullMarked;
