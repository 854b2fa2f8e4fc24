package org.steamwright.assessment.calibration;

import java.time.LocalDate;
import java.util.ArrayList;
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
 * @param history calibrations, checks and quarantines over the years; {@link InstrumentHistory#NONE} if only the one
 *     certificate is known
 */
public record ReferenceInstrument(
        String id,
        String description,
        Quantity quantity,
        double rangeLow,
        double rangeHigh,
        Optional<CalibrationCertificate> certificate,
        List<Contribution> contributions,
        InstrumentHistory history) {

    /** Name of the contribution that the instrument's own history replaces where it can. */
    public static final String DRIFT = "drift";

    public ReferenceInstrument {
        contributions = List.copyOf(contributions);
        if (id.isBlank()) {
            throw new IllegalArgumentException("an instrument needs an id");
        }
        if (!(rangeLow < rangeHigh)) {
            throw new IllegalArgumentException("instrument %s: range from %s to %s".formatted(id, rangeLow, rangeHigh));
        }
    }

    /** An instrument of which no history is known. */
    public ReferenceInstrument(
            String id,
            String description,
            Quantity quantity,
            double rangeLow,
            double rangeHigh,
            Optional<CalibrationCertificate> certificate,
            List<Contribution> contributions) {
        this(id, description, quantity, rangeLow, rangeHigh, certificate, contributions, InstrumentHistory.NONE);
    }

    /** The instrument with the certificate of its history that is in force on a day; unchanged without a history. */
    public ReferenceInstrument on(LocalDate day) {
        return history.inForceOn(day)
                .map(inForce -> new ReferenceInstrument(
                        id, description, quantity, rangeLow, rangeHigh, Optional.of(inForce), contributions, history))
                .orElse(this);
    }

    /**
     * The instrument as a later calibration found it: corrected by what was found there, in place of the certificate in
     * force. A look-back judges runs again with it.
     *
     * @throws IllegalStateException if no certificate is in force; ask {@link #on} first
     */
    public ReferenceInstrument asFound(CalibrationEvent later) {
        return correctedBy(later.found(), "as found on " + later.day());
    }

    /**
     * The instrument as if it had read so much too high when it was calibrated.
     *
     * @param by in kelvin or kilopascal
     * @throws IllegalStateException if no certificate is in force; ask {@link #on} first
     */
    public ReferenceInstrument withError(double by) {
        List<CalibrationPoint> points = new ArrayList<>();
        for (CalibrationPoint point : inForce().points()) {
            points.add(new CalibrationPoint(
                    point.reference(), point.indicated() + by, point.expandedUncertainty(), point.coverageFactor()));
        }
        return correctedBy(points, "as if it read %s too high".formatted(by));
    }

    private CalibrationCertificate inForce() {
        return certificate.orElseThrow(
                () -> new IllegalStateException("instrument " + id + " has no certificate in force"));
    }

    private ReferenceInstrument correctedBy(List<CalibrationPoint> points, String words) {
        CalibrationCertificate old = inForce();
        return new ReferenceInstrument(
                id,
                description,
                quantity,
                rangeLow,
                rangeHigh,
                Optional.of(new CalibrationCertificate(
                        old.number() + ", " + words, old.laboratory(), old.calibratedOn(), old.dueOn(), points)),
                contributions,
                new InstrumentHistory(List.of(), history.checks(), history.quarantines()));
    }

    /** The contributions on a day around an indicated value: the declared drift gives way to the instrument's own. */
    public List<Contribution> contributionsOn(LocalDate day, double indicated) {
        Optional<Contribution> own = history.drift(day, indicated);
        if (own.isEmpty()) {
            return contributions;
        }
        List<Contribution> lines = new ArrayList<>();
        lines.add(own.get());
        for (Contribution line : contributions) {
            if (!line.name().equals(DRIFT)) {
                lines.add(line);
            }
        }
        return lines;
    }
}
