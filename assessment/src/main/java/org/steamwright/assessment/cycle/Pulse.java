package org.steamwright.assessment.cycle;

import org.steamwright.assessment.trace.Quantity;

/**
 * One air removal pulse: down to a depth, up to a height.
 *
 * @param quantity pressure in kPa absolute, or temperature in °C where no pressure was recorded
 * @param depth lowest value
 * @param depthSeconds its moment
 * @param height highest value afterwards, before the next pulse or the plateau
 * @param heightSeconds its moment
 */
public record Pulse(Quantity quantity, double depth, double depthSeconds, double height, double heightSeconds) {}
