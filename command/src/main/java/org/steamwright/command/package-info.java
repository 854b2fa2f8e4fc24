/**
 * The command line: the door through which a terminal or a script reaches the assessment.
 *
 * <p>Reads arguments, asks for what no file can tell, prints, writes the result and the report, and turns every
 * exception into a text and an exit status; nothing else in the program does that. It decides nothing about a
 * sterilizer. Start at {@link org.steamwright.command.Steamwright}.
 */
@NullMarked
package org.steamwright.command;

import org.jspecify.annotations.NullMarked;
