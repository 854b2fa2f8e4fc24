/**
 * Temperatures, pressures and rates with their units, for every border of the program.
 *
 * <p>Decides how a unit is converted, and nothing else. Inside loops the program works on plain
 * {@code double} in one unit each: degree Celsius, kilopascal absolute, seconds. Whatever comes from a
 * file, a form or a data set passes through a type of this package first, so that a number never
 * travels without its unit. Start at {@link org.steamwright.assessment.quantity.PressureUnit}.
 */
@NullMarked
package org.steamwright.assessment.quantity;

import org.jspecify.annotations.NullMarked;
