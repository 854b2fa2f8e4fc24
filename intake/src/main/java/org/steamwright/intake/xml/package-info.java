/**
 * The one door by which XML comes in.
 *
 * <p>Decides what may be parsed at all: no document type, no entity of one's own, no other file, no network, no schema
 * location, no inclusion, and limits on size, depth, elements and attributes. A test of the house forbids any other use of
 * an XML factory in the program. Refuses to say what the document means. Start at
 * {@link org.steamwright.intake.xml.SafeXml}.
 */
@NullMarked
package org.steamwright.intake.xml;

import org.jspecify.annotations.NullMarked;
