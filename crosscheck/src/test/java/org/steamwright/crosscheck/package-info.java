/**
 * A second, slow evaluation and the campaigns that hold the engine against it and against known truth.
 *
 * <p>Tests only. Nothing here may call the engine's own steps, only its front door and the shapes it returns;
 * otherwise an error would be compared with itself. Start at {@code SlowEvaluation}.
 */
@NullMarked
package org.steamwright.crosscheck;

import org.jspecify.annotations.NullMarked;
