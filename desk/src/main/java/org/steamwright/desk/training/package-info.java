/**
 * Training visits on simulated machines with a planted fault, in a record and a desk of their own.
 *
 * <p>Decides which faults can be planted, makes the recordings on demand as if loggers were read out, and tells at the end what
 * was planted and which findings named it. Refuses to mix with real visits: nothing here is signed, and all of it is deleted in
 * one act. Start at {@link org.steamwright.desk.training.TrainingGround}.
 */
@NullMarked
package org.steamwright.desk.training;

import org.jspecify.annotations.NullMarked;
