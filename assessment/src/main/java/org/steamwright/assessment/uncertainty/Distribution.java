package org.steamwright.assessment.uncertainty;

/**
 * How the stated size of a contribution turns into a standard uncertainty.
 *
 * @source JCGM 100:2008, 4.3 and 4.2.3 (text not seen; formulas reproduced by the check values)
 */
public enum Distribution {
    /** Stated as expanded uncertainty with its coverage factor; divided by that factor. */
    NORMAL,
    /** Stated as half-width; divided by √3. */
    RECTANGULAR,
    /** Stated as half-width; divided by √6. */
    TRIANGULAR,
    /** Stated as half-width of an arcsine distribution; divided by √2. */
    ARCSINE,
    /** Stated as the standard uncertainty itself, such as s/√n. */
    STANDARD
}
