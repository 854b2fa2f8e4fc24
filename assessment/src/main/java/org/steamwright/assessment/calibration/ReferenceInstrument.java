package org.steamwright.assessment.calibration;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Contribution;

/**
 * One measuring channel of the technician's reference equipment.
 *
 * @param id as on its label, such as 'TL-07'
 * @param description kind of instrument and sensor, in words
 * @param quantity what it measures; unit of all figures here
 * @param rangeLow lowest value it can show; negative infinity if not stated
 * @param rangeHigh highest value it can show; positive infinity if not stated
 * @param certificate the one in force; empty if there is none
 * @param contributions to the uncertainty beyond the certificate and the resolution (drift, immersion, …)
 */
public record ReferenceInstrument(
        String id,
        String description,
        Quantity quantity,
        double rangeLow,
        double rangeHigh,
        Optional<CalibrationCertificate> certificate,
        List<Contribution> contributions) {

    public ReferenceInstrument {
        contributions = List.copyOf(contributions);
        if (id.isBlank()) {
            throw new IllegalArgumentException("an instrument needs an id");
        }
        if (!(rangeLow < rangeHigh)) {
            throw new IllegalArgumentException("instrument %s: range from %s to %s".formatted(id, rangeLow, rangeHigh));
        }
    }

    /** The same instrument under another certificate. */
    public ReferenceInstrument withCertificate(CalibrationCertificate newCertificate) {
        return new ReferenceInstrument(
                id, description, quantity, rangeLow, rangeHigh, Optional.of(newCertificate), contributions);
    }
}
