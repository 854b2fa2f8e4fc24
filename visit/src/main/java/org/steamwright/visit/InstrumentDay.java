package org.steamwright.visit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.Correction;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.FieldCheckAfter;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.trace.Channel;

/**
 * One reference instrument on the day of a visit: where it measured, and how it was checked before and after.
 *
 * @param instrument with the certificate of the day
 * @param runs in which it measured, by their numbers, with its channels
 * @param before checks before the runs; the last ones that were made together
 * @param after checks after the runs; the first ones that were made together
 * @param isAsked whether somebody counts on a check: the criteria set, or one that was begun at this visit
 */
public record InstrumentDay(
        ReferenceInstrument instrument,
        Map<Integer, List<String>> runs,
        List<Judged> before,
        List<Judged> after,
        boolean isAsked) {

    /**
     * A check and what follows from it.
     *
     * @param check as it was made
     * @param pair that deviates most
     * @param corrected its reading, corrected by the certificate of the day; empty without one
     * @param allowed how far it may be off, in kelvin or kilopascal; empty if nobody stated it
     */
    public record Judged(FieldCheck check, FieldCheck.Pair pair, Optional<Double> corrected, Optional<Double> allowed) {

        /** Whether it is good; empty if that can't be said. */
        public Optional<Boolean> isGood() {
            return corrected.flatMap(
                    reading -> allowed.map(most -> FieldCheckAfter.isWithin(reading - pair.reference(), most)));
        }

        /**
         * A check held against what the certificate corrects and what is allowed.
         *
         * @param instrument with the certificate of the day
         * @param check of it
         * @param limit of the criteria set, in kelvin or kilopascal
         */
        public static Judged of(ReferenceInstrument instrument, FieldCheck check, Optional<Double> limit) {
            Optional<CalibrationCertificate> certificate = instrument.certificate();
            FieldCheck.Pair pair = certificate
                    .map(one -> check.worst(one).pair())
                    .orElse(check.pairs().get(0));
            return new Judged(
                    check,
                    pair,
                    certificate.map(one -> Correction.of(one).correct(pair.indicated())),
                    check.allowed(limit));
        }
    }

    public InstrumentDay {
        runs = new TreeMap<>(runs);
        before = List.copyOf(before);
        after = List.copyOf(after);
    }

    /** What a criteria set allows at most for such an instrument; empty if it says nothing, or does not ask. */
    public static Optional<Double> limit(CriteriaSet set, ReferenceInstrument instrument) {
        return set.find(CriterionId.FIELD_CHECK_AFTER)
                .flatMap(asked -> FieldCheckAfter.limit(asked, instrument.quantity()));
    }

    /** Whether a check after the runs is missing that somebody counts on. */
    public boolean isCheckMissing() {
        return isAsked && !runs.isEmpty() && after.isEmpty();
    }

    /** Whether it was off before the runs and good after them, so that something was done between. */
    public boolean isMended() {
        return before.stream().anyMatch(judged -> judged.isGood().equals(Optional.of(false)))
                && !after.isEmpty()
                && after.stream().allMatch(judged -> judged.isGood().equals(Optional.of(true)));
    }

    /** The instruments of a visit whose day is known, by their ids. */
    public static List<InstrumentDay> of(Visit visit) {
        if (visit.date().isEmpty()) {
            return List.of();
        }
        LocalDate day = visit.date().get();
        Map<String, Map<Integer, List<String>>> used = used(visit);
        boolean isAskedBySet = visit.criteriaSet()
                .find(CriterionId.FIELD_CHECK_AFTER)
                .map(Requirement::use)
                .filter(use -> use == Use.DECIDES || use == Use.ADVISES)
                .isPresent();
        boolean isBegun = visit.instruments().values().stream()
                .flatMap(one -> one.history().checks().stream())
                .anyMatch(check -> check.day().equals(day));
        List<InstrumentDay> days = new ArrayList<>();
        for (ReferenceInstrument known : new TreeMap<>(visit.instruments()).values()) {
            ReferenceInstrument instrument = known.on(day);
            days.add(new InstrumentDay(
                    instrument,
                    used.getOrDefault(known.id(), Map.of()),
                    judged(instrument, before(instrument, day), visit.criteriaSet()),
                    judged(instrument, instrument.history().checksAfter(day), visit.criteriaSet()),
                    isAskedBySet || isBegun));
        }
        return days;
    }

    /** Those of the day itself; a check of last month says nothing of how the instrument came to this visit. */
    private static List<FieldCheck> before(ReferenceInstrument known, LocalDate day) {
        return known.history().checksBefore(day).stream()
                .filter(check -> check.day().equals(day))
                .toList();
    }

    private static List<Judged> judged(ReferenceInstrument instrument, List<FieldCheck> checks, CriteriaSet set) {
        return checks.stream()
                .map(check -> Judged.of(instrument, check, limit(set, instrument)))
                .toList();
    }

    /** Runs and channels by the id of the instrument that measured them. */
    private static Map<String, Map<Integer, List<String>>> used(Visit visit) {
        Map<String, Map<Integer, List<String>>> used = new LinkedHashMap<>();
        for (VisitRun run : visit.runs()) {
            for (Channel channel : run.test().trace().channels()) {
                channel.instrument()
                        .ifPresent(id -> used.computeIfAbsent(id, unused -> new TreeMap<>())
                                .computeIfAbsent(run.number(), unused -> new ArrayList<>())
                                .add(channel.name()));
            }
        }
        return used;
    }
}
