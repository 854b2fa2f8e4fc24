/**
 * Visits and registers into the record and out again: the one place where reading, assessing and keeping meet, used by every
 * door.
 *
 * <p>A visit goes in as the folder that it is: every file byte for byte, and beside it the facts that its file states. It
 * comes out as the same folder, so that whatever is computed from the record is computed from what was taken in. Nothing is
 * judged here. Start at {@link org.steamwright.filing.Filing}.
 */
@NullMarked
package org.steamwright.filing;

import org.jspecify.annotations.NullMarked;
