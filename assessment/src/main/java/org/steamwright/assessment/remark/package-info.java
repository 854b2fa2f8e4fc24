/**
 * What was odd about a recording or a certificate, kept with the run it belongs to.
 *
 * <p>A remark states facts; it judges nothing. A finding answers a criterion, a verdict closes a run; a
 * remark is what intake saw on the way in. Start at {@link org.steamwright.assessment.remark.Remark}.
 */
@NullMarked
package org.steamwright.assessment.remark;

import org.jspecify.annotations.NullMarked;
