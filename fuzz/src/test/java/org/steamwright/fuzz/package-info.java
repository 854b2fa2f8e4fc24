/**
 * Files that nobody would write, through every door by which files come in.
 *
 * <p>Decides one thing: whatever the bytes, a reader gives a result or refuses in its own words, within a second and 256
 * MB. The kept corpus runs with every build; the campaigns of millions are described in docs/how-to/run-the-campaigns.md.
 * Refuses to say whether a result is right: that is what the cases of intake are for. Start at {@link
 * org.steamwright.fuzz.Doors}.
 */
@org.jspecify.annotations.NullMarked
package org.steamwright.fuzz;
