/**
 * Photos and drawn signatures that belong to a visit, made ready to be kept and to be printed.
 *
 * <p>Nothing of a picture that somebody brought goes into a document as it is: it is decoded, turned upright, scaled and
 * encoded anew, so that neither what a camera writes beside it nor a damaged file comes along.
 */
@NullMarked
package org.steamwright.report.picture;

import org.jspecify.annotations.NullMarked;
