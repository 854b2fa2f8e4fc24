package org.steamwright.intake.certificate;

import java.util.Optional;

/**
 * One row of a table of results. Units are those of the table.
 *
 * @param reference true value
 * @param indicated what the item showed
 * @param expanded expanded uncertainty; empty if the certificate states none
 * @param factor its coverage factor; empty if the certificate states none
 * @param probability its coverage probability from 0 to 1; empty if not stated
 * @param distribution in the word of the file; may be blank
 * @param conformity verdict of the laboratory on this row, such as 'pass'; may be blank
 * @param acceptance limits of the error that the laboratory judged by; blank if none are stated
 * @param tolerance limits of the error that were agreed; blank if none are stated
 */
public record TablePoint(
        double reference,
        double indicated,
        Optional<Double> expanded,
        Optional<Double> factor,
        Optional<Double> probability,
        String distribution,
        String conformity,
        String acceptance,
        String tolerance) {

    /** What the item showed too much. */
    public double error() {
        return SiColumn.clean(indicated - reference, 3);
    }
}
