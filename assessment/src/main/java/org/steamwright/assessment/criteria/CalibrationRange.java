package org.steamwright.assessment.criteria;

import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.Correction;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.trace.Column;

/**
 * Whether the readings that decide lie inside the calibrated range of their instruments: temperatures during the
 * plateau, pressure during the holding time.
 */
public final class CalibrationRange implements Criterion<RunEvidence> {

    @Override
    public CriterionId id() {
        return CriterionId.CALIBRATION_RANGE;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (evidence.asRead().isEmpty()) {
            return Findings.notApplicable(
                    requirement, "Not assessed: there is no plateau whose readings could be compared.");
        }
        Stretch plateau = new Stretch(
                evidence.asRead().get().reachedSeconds(),
                evidence.asRead().get().endSeconds());
        for (CorrectedChannel channel : evidence.measured()) {
            Optional<Finding> fault = fault(channel, plateau, requirement);
            if (fault.isPresent()) {
                return fault.get();
            }
        }
        Optional<Finding> pressureFault = evidence.corrected()
                .pressure()
                .flatMap(pressure -> evidence.holding().flatMap(holding -> fault(pressure, holding, requirement)));
        return pressureFault.orElseGet(() -> Findings.met(
                requirement,
                Evidence.stretch(evidence.judgedNames(), plateau.fromSeconds(), plateau.toSeconds()),
                "All readings of the plateau lie inside the calibrated ranges."));
    }

    /** The fault of one channel inside a stretch, if there is one. */
    static Optional<Finding> fault(CorrectedChannel channel, Stretch stretch, Requirement requirement) {
        Optional<CalibrationCertificate> found = channel.instrument().flatMap(ReferenceInstrument::certificate);
        if (found.isEmpty()) {
            return Optional.of(Findings.missing(
                    requirement,
                    "Not assessed: channel %s has no certificate and so no calibrated range."
                            .formatted(channel.name())));
        }
        CalibrationCertificate certificate = found.get();
        Correction correction = Correction.of(certificate);
        Column column = channel.channel().column();
        int from = channel.axis().indexAtOrAfter(stretch.fromSeconds());
        int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
        for (int i = from; i <= to; i++) {
            double indicated = column.at(i);
            if (!Double.isNaN(indicated) && !correction.covers(indicated)) {
                String unit = column.quantity().unit();
                return Optional.of(Findings.invalid(
                        requirement,
                        Evidence.at(channel.name(), channel.axis().at(i), stretch.fromSeconds(), stretch.toSeconds()),
                        "Channel %s showed %s %s at %s, outside the range %s to %s %s that certificate %s covers."
                                .formatted(
                                        channel.name(),
                                        Figures.nearest(indicated, 2),
                                        unit,
                                        Figures.moment(channel.axis().at(i)),
                                        Figures.nearest(certificate.lowest(), 2),
                                        Figures.nearest(certificate.highest(), 2),
                                        unit,
                                        certificate.number())));
            }
        }
        return Optional.empty();
    }
}
