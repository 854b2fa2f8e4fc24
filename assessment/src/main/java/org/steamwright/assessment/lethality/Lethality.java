package org.steamwright.assessment.lethality;

/**
 * Lethality of one channel, F, with everything it depends on.
 *
 * @param minutes trapezoid sum, in minutes at the reference temperature
 * @param lowMinutes lower bound from sampling: each step taken at its lower rate
 * @param highMinutes upper bound from sampling: each step taken at its higher rate
 * @param referenceCelsius reference temperature in degree Celsius
 * @param z in kelvin
 * @param fromSeconds begin of integration, seconds from the start of the run
 * @param toSeconds end of integration
 * @param skippedSeconds time inside that had no usable sample (gaps, missing values) and counts as nothing
 */
public record Lethality(
        double minutes,
        double lowMinutes,
        double highMinutes,
        double referenceCelsius,
        double z,
        double fromSeconds,
        double toSeconds,
        double skippedSeconds) {}
