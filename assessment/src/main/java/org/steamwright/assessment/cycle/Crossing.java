package org.steamwright.assessment.cycle;

/**
 * When one channel reached the sterilization temperature.
 *
 * @param channel name
 * @param sampleSeconds first sample at or above it; this one decides
 * @param interpolatedSeconds straight line between that sample and the one before; for information
 */
public record Crossing(String channel, double sampleSeconds, double interpolatedSeconds) {}
