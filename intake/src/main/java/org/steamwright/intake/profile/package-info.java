/**
 * Answers that were given once for a kind of file and are found again for the next one.
 *
 * <p>A reading profile is a small YAML file of our own format: by what the kind is known again, and the answers. It never
 * overrules what is said for a file, and never the file itself: where both contradict each other the file is refused with
 * the evidence. Two profiles that fit are a question. No profile is ever overwritten. Start at {@link
 * org.steamwright.intake.profile.ReadingProfiles}.
 */
@NullMarked
package org.steamwright.intake.profile;

import org.jspecify.annotations.NullMarked;
