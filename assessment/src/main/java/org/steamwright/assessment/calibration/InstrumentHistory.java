package org.steamwright.assessment.calibration;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.uncertainty.Contribution;

/**
 * What is known of a reference instrument over the years.
 *
 * @param calibrations sorted here by day, never two on one day
 * @param checks in the field, sorted here by day, before ahead of after
 * @param quarantines times in which it is not to be relied on
 */
public record InstrumentHistory(
        List<CalibrationEvent> calibrations, List<FieldCheck> checks, List<Quarantine> quarantines) {

    /** Nothing is known beyond the one certificate, if there is one. */
    public static final InstrumentHistory NONE = new InstrumentHistory(List.of(), List.of(), List.of());

    private static final double DAYS_PER_YEAR = 365.25;

    public InstrumentHistory {
        calibrations = calibrations.stream()
                .sorted(Comparator.comparing(CalibrationEvent::day))
                .toList();
        checks = checks.stream()
                .sorted(Comparator.comparing(FieldCheck::day).thenComparing(FieldCheck::moment))
                .toList();
        quarantines = List.copyOf(quarantines);
        for (int i = 1; i < calibrations.size(); i++) {
            if (calibrations.get(i).day().equals(calibrations.get(i - 1).day())) {
                throw new IllegalArgumentException("two calibrations on %s: %s and %s"
                        .formatted(
                                calibrations.get(i).day(),
                                calibrations.get(i - 1).certificate().number(),
                                calibrations.get(i).certificate().number()));
            }
        }
    }

    /**
     * The certificate in force on a day: that of the last calibration up to it, whether or not it is still in date. If every
     * calibration came later, the first one: it does not cover the day, and says so.
     */
    public Optional<CalibrationCertificate> inForceOn(LocalDate day) {
        List<CalibrationEvent> known = upTo(day);
        return known.isEmpty()
                ? calibrations.stream().findFirst().map(CalibrationEvent::certificate)
                : Optional.of(known.get(known.size() - 1).certificate());
    }

    /** What came back from the laboratory first after a day; the look-back starts from how it was found there. */
    public Optional<CalibrationEvent> nextAfter(LocalDate day) {
        return calibrations.stream()
                .filter(calibration -> calibration.day().isAfter(day))
                .findFirst();
    }

    /** Drift between each two calibrations in a row. */
    public List<Drift> drifts() {
        return drifts(calibrations);
    }

    private static List<Drift> drifts(List<CalibrationEvent> calibrations) {
        List<Drift> drifts = new ArrayList<>();
        for (int i = 1; i < calibrations.size(); i++) {
            Drift.find(calibrations.get(i - 1), calibrations.get(i)).ifPresent(drifts::add);
        }
        return drifts;
    }

    private List<CalibrationEvent> upTo(LocalDate day) {
        return calibrations.stream()
                .filter(calibration -> !calibration.day().isAfter(day))
                .toList();
    }

    /**
     * How far the instrument may have moved from its last calibration to a day, by its own history: the largest size per
     * year between two calibrations known by then, for as long as it has been. Half-width of a rectangular distribution;
     * empty with fewer than two calibrations up to that day.
     *
     * @param day of the measurement
     * @param indicated around which the drift is asked for, in degree Celsius or kilopascal
     * @source common practice, no source
     */
    public Optional<Contribution> drift(LocalDate day, double indicated) {
        List<CalibrationEvent> known = upTo(day);
        List<Drift> drifts = drifts(known);
        if (drifts.isEmpty()) {
            return Optional.empty();
        }
        double perYear = 0;
        for (Drift drift : drifts) {
            perYear = Math.max(perYear, drift.sizePerYearAt(indicated));
        }
        CalibrationEvent last = known.get(known.size() - 1);
        double years = ChronoUnit.DAYS.between(last.day(), day) / DAYS_PER_YEAR;
        return Optional.of(Contribution.rectangular(
                ReferenceInstrument.DRIFT,
                perYear * years,
                "own history: %s calibrations from %s to %s"
                        .formatted(known.size(), known.get(0).day(), last.day())));
    }

    /** The first checks after the runs of a day, which were made together: all of the same day and moment. */
    public List<FieldCheck> checksAfter(LocalDate day) {
        return checkAfter(day).map(this::together).orElse(List.of());
    }

    /** The last checks before the runs of a day, which were made together. */
    public List<FieldCheck> checksBefore(LocalDate day) {
        return checkBefore(day).map(this::together).orElse(List.of());
    }

    private List<FieldCheck> together(FieldCheck one) {
        return checks.stream()
                .filter(check -> check.day().equals(one.day()) && check.moment() == one.moment())
                .toList();
    }

    /** The same with more checks. */
    public InstrumentHistory withChecks(List<FieldCheck> more) {
        List<FieldCheck> all = new ArrayList<>(checks);
        all.addAll(more);
        return new InstrumentHistory(calibrations, all, quarantines);
    }

    /** The last check before the runs of a day. */
    public Optional<FieldCheck> checkBefore(LocalDate day) {
        return checks.stream()
                .filter(check -> check.day().isBefore(day)
                        || (check.day().equals(day) && check.moment() == FieldCheck.Moment.BEFORE))
                .reduce((earlier, later) -> later);
    }

    /** The first check after the runs of a day. */
    public Optional<FieldCheck> checkAfter(LocalDate day) {
        return checks.stream()
                .filter(check -> check.day().isAfter(day)
                        || (check.day().equals(day) && check.moment() == FieldCheck.Moment.AFTER))
                .findFirst();
    }

    /** The quarantine in which a day lies. */
    public Optional<Quarantine> quarantineOn(LocalDate day) {
        return quarantines.stream().filter(quarantine -> quarantine.covers(day)).findFirst();
    }
}
