package org.steamwright.assessment.criteria;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;

/**
 * Whether every instrument was checked in the field after the run and found good.
 *
 * <p>A check that failed makes the calibration itself invalid, whether or not a set asks this question; a set that asks
 * it demands that there was one.
 */
public final class FieldCheckAfter implements Criterion<RunEvidence> {

    private static final int DECIMALS = 3;

    @Override
    public CriterionId id() {
        return CriterionId.FIELD_CHECK_AFTER;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        return judge(evidence.corrected().indicated(), evidence.measuredAndPressure(), requirement);
    }

    /** The same for any channels of a trace. */
    static Finding judge(Trace trace, List<CorrectedChannel> channels, Requirement requirement) {
        Optional<LocalDate> day = trace.lastDay();
        if (day.isEmpty()) {
            return Findings.missing(
                    requirement,
                    "Not assessed: the recording carries no date, so no check can be said to come after it.");
        }
        List<String> unchecked = new ArrayList<>();
        for (CorrectedChannel channel : channels) {
            Optional<ReferenceInstrument> instrument = channel.instrument();
            List<FieldCheck> checks = instrument
                    .map(named -> named.history().checksAfter(day.get()))
                    .orElse(List.of());
            Optional<CalibrationCertificate> certificate = instrument.flatMap(ReferenceInstrument::certificate);
            if (checks.isEmpty() || certificate.isEmpty()) {
                unchecked.add(channel.name());
                continue;
            }
            for (FieldCheck check : checks) {
                Optional<Double> allowed =
                        check.allowed(limit(requirement, instrument.get().quantity()));
                if (allowed.isEmpty()) {
                    return Findings.missing(
                            requirement,
                            "Not assessed: the check of instrument %s on %s states no tolerance, and neither does the criteria set."
                                    .formatted(instrument.get().id(), check.day()));
                }
                Optional<String> fault = fault(instrument.get(), channel.name(), check, certificate.get(), allowed);
                if (fault.isPresent()) {
                    return Findings.invalid(requirement, place(trace, List.of(channel.name())), fault.get());
                }
            }
        }
        if (!unchecked.isEmpty()) {
            return Findings.missing(
                    requirement,
                    "Not assessed: no check after the run is recorded for channel %s."
                            .formatted(String.join(", ", unchecked)));
        }
        List<String> names = channels.stream().map(CorrectedChannel::name).toList();
        return Findings.met(
                requirement,
                place(trace, names),
                "Every instrument was checked after the run and found within its tolerance.");
    }

    /** What a criteria set allows at most for a quantity, in kelvin or kilopascal; empty if it states nothing. */
    public static Optional<Double> limit(Requirement requirement, Quantity quantity) {
        return (quantity == Quantity.PRESSURE ? requirement.secondLimit() : requirement.limit()).map(Limit::value);
    }

    /** Whether a corrected reading that is off by so much lies within what is allowed. */
    public static boolean isWithin(double deviation, double allowed) {
        return Figures.cleaned(Math.abs(deviation)) <= allowed;
    }

    /** What is wrong if the check failed; nothing where nobody stated what is allowed. */
    static Optional<String> fault(
            ReferenceInstrument instrument,
            String channel,
            FieldCheck check,
            CalibrationCertificate certificate,
            Optional<Double> allowed) {
        FieldCheck.Deviation worst = check.worst(certificate);
        if (allowed.isEmpty() || isWithin(worst.deviation(), allowed.get())) {
            return Optional.empty();
        }
        String unit = instrument.quantity().unit();
        return Optional.of(
                "Instrument %s (channel %s) failed its check on %s%s: corrected it read %s %s at %s %s, ±%s are allowed."
                        .formatted(
                                instrument.id(),
                                channel,
                                check.day(),
                                check.method().isEmpty() ? "" : " (" + check.method() + ")",
                                Figures.nearest(worst.pair().reference() + worst.deviation(), DECIMALS),
                                unit,
                                Figures.nearest(worst.pair().reference(), DECIMALS),
                                unit,
                                Figures.nearest(allowed.get(), DECIMALS)));
    }

    private static Evidence place(Trace trace, List<String> channels) {
        return Evidence.stretch(channels, trace.firstSeconds(), trace.lastSeconds());
    }
}
