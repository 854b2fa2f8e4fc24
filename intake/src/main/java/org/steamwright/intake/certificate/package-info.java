/**
 * Digital calibration certificates: XML files of the open schema 3.x (DCC, with its units D-SI).
 *
 * <p>Decides what a certificate says: items, points, uncertainty, state before and after an adjustment, signature. What is
 * not understood is named, never dropped in silence; which item and which result are meant is asked where the file leaves
 * it open. Refuses to invent: no due date, no coverage factor, no sign. No schema is needed or fetched. Start at
 * {@link org.steamwright.intake.certificate.DigitalCertificates}.
 */
@NullMarked
package org.steamwright.intake.certificate;

import org.jspecify.annotations.NullMarked;
