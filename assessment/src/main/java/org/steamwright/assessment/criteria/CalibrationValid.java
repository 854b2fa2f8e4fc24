package org.steamwright.assessment.criteria;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Trace;

/**
 * Whether every channel that is judged was measured with an instrument whose certificate covers the whole run, to its
 * last sample, in the time zone of the site, and which was not set aside and did not fail its check afterwards.
 */
public final class CalibrationValid implements Criterion<RunEvidence> {

    private static final double MILLISECONDS = 1000.0;

    @Override
    public CriterionId id() {
        return CriterionId.CALIBRATION_VALID;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        return judge(evidence.corrected().indicated(), evidence.measuredAndPressure(), requirement);
    }

    /** The same for any channels of a trace. */
    static Finding judge(Trace trace, List<CorrectedChannel> channels, Requirement requirement) {
        double from = trace.firstSeconds();
        double to = trace.lastSeconds();
        for (CorrectedChannel channel : channels) {
            Optional<String> fault = fault(trace, channel);
            if (fault.isPresent()) {
                return Findings.invalid(requirement, Evidence.stretch(List.of(channel.name()), from, to), fault.get());
            }
        }
        List<String> names = channels.stream().map(CorrectedChannel::name).toList();
        return Findings.met(
                requirement,
                Evidence.stretch(names, from, to),
                "Every channel was measured with an instrument in date up to the last sample.");
    }

    private static Optional<String> fault(Trace trace, CorrectedChannel channel) {
        if (channel.instrument().isEmpty()) {
            return Optional.of("No instrument is named for channel %s, so nothing is known about its calibration."
                    .formatted(channel.name()));
        }
        ReferenceInstrument instrument = channel.instrument().get();
        if (instrument.certificate().isEmpty()) {
            return Optional.of("Instrument %s (channel %s) has no calibration certificate."
                    .formatted(instrument.id(), channel.name()));
        }
        CalibrationCertificate certificate = instrument.certificate().get();
        if (trace.start().isEmpty()) {
            return Optional.of(
                    ("The recording carries no date, so certificate %s of instrument %s can not be held against"
                                    + " it. State when it started.")
                            .formatted(certificate.number(), instrument.id()));
        }
        Optional<String> unfit = unfit(trace, channel, certificate);
        if (unfit.isPresent()) {
            return unfit;
        }
        Instant first = moment(trace.start().get(), trace.firstSeconds());
        Instant last = moment(trace.start().get(), trace.lastSeconds());
        if (certificate.isValidAt(first, trace.zone()) && certificate.isValidAt(last, trace.zone())) {
            return Optional.empty();
        }
        return Optional.of("Certificate %s of instrument %s (channel %s) runs from %s to %s; the run ended on %s."
                .formatted(
                        certificate.number(),
                        instrument.id(),
                        channel.name(),
                        certificate.calibratedOn(),
                        certificate.dueOn(),
                        last.atZone(trace.zone()).toLocalDate()));
    }

    /** Whether the instrument was set aside on the day, or its check after the runs failed. */
    private static Optional<String> unfit(Trace trace, CorrectedChannel channel, CalibrationCertificate certificate) {
        ReferenceInstrument instrument = channel.instrument().orElseThrow();
        LocalDate day = trace.lastDay().orElseThrow();
        Optional<Quarantine> quarantine = instrument.history().quarantineOn(day);
        if (quarantine.isPresent()) {
            return Optional.of("Instrument %s (channel %s) was set aside on %s: %s."
                    .formatted(
                            instrument.id(),
                            channel.name(),
                            quarantine.get().from(),
                            quarantine.get().reason()));
        }
        return instrument.history().checksAfter(day).stream()
                .flatMap(check ->
                        FieldCheckAfter.fault(instrument, channel.name(), check, certificate, check.tolerance())
                                .stream())
                .findFirst();
    }

    private static Instant moment(Instant start, double seconds) {
        return start.plusMillis(Math.round(MILLISECONDS * seconds));
    }
}
