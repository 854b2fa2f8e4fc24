package org.steamwright.assessment.alignment;

/**
 * A moment of the air removal at which a signal turned: a pump began or steam came in.
 *
 * @param isRise whether it rose from then on
 * @param seconds middle of the two samples between which it turned, on the logger's own clock
 * @param width time between these samples
 */
record Turn(boolean isRise, double seconds, double width) {}
