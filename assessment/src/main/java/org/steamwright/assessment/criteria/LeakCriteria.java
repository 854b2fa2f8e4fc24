package org.steamwright.assessment.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;

/** The criteria of an air leakage test, those about its evidence first. */
public final class LeakCriteria {

    private LeakCriteria() {}

    /** All of them, in the order of their ids. */
    public static List<Criterion<LeakEvidence>> all() {
        List<Criterion<LeakEvidence>> all = new ArrayList<>();
        all.add(criterion(CriterionId.RECORDING_COMPLETE, LeakCriteria::complete));
        all.add(criterion(CriterionId.SAMPLING_INTERVAL, LeakCriteria::interval));
        all.add(criterion(CriterionId.SENSORS_ALIVE, LeakCriteria::alive));
        all.add(criterion(
                CriterionId.CALIBRATION_VALID,
                (evidence, asked) ->
                        CalibrationValid.judge(evidence.corrected().indicated(), List.of(evidence.pressure()), asked)));
        all.add(criterion(CriterionId.CALIBRATION_RANGE, LeakCriteria::range));
        all.add(criterion(
                CriterionId.FIELD_CHECK_AFTER,
                (evidence, asked) ->
                        FieldCheckAfter.judge(evidence.corrected().indicated(), List.of(evidence.pressure()), asked)));
        all.add(criterion(
                CriterionId.PRESSURE_KIND,
                (evidence, asked) -> PressureAgreesWithOpenDoor.judge(
                        evidence.pressure(),
                        evidence.ambientKilopascal(),
                        evidence.ambientHalfWidthKilopascal(),
                        evidence.ambientWords(),
                        asked)));
        all.add(criterion(CriterionId.LEAK_RATE, LeakCriteria::rate));
        all.add(criterion(CriterionId.LEAK_START_PRESSURE, LeakCriteria::startPressure));
        all.add(criterion(CriterionId.LEAK_SETTLING, LeakCriteria::settling));
        all.add(criterion(CriterionId.LEAK_PERIOD, LeakCriteria::period));
        return List.copyOf(all);
    }

    private static Criterion<LeakEvidence> criterion(
            CriterionId id, BiFunction<LeakEvidence, Requirement, Finding> judge) {
        return new Criterion<>() {
            @Override
            public CriterionId id() {
                return id;
            }

            @Override
            public Finding judge(LeakEvidence evidence, Requirement requirement) {
                return judge.apply(evidence, requirement);
            }
        };
    }

    private static Finding complete(LeakEvidence evidence, Requirement asked) {
        return evidence.test().isPresent()
                ? Findings.met(asked, evidence.place(), "The recording holds isolation, settling and measuring.")
                : Findings.invalid(
                        asked,
                        evidence.place(),
                        "Isolation, settling and measuring were not found in the recording. Declare their moments, or record"
                                + " the whole test.");
    }

    private static Finding interval(LeakEvidence evidence, Requirement asked) {
        // pressures of single samples ten minutes apart: any interval up to some seconds serves
        return Findings.notApplicable(
                asked,
                "Not assessed: a leak rate over minutes does not depend on the sampling interval of %s."
                        .formatted(Figures.shown(evidence.pressure().axis().interval(), Unit.SECONDS)));
    }

    private static Finding alive(LeakEvidence evidence, Requirement asked) {
        if (evidence.test().isEmpty()) {
            return Findings.notApplicable(asked, "Not assessed: no periods were found to look at.");
        }
        LeakTest test = evidence.test().get();
        int to = evidence.pressure().axis().indexAtOrBefore(test.endSeconds());
        for (int i = evidence.pressure().axis().indexAtOrAfter(test.isolationSeconds()); i <= to; i++) {
            boolean isGap = evidence.pressure().axis().isGapBefore(i)
                    && evidence.pressure().axis().at(i) > test.isolationSeconds();
            if (Double.isNaN(evidence.pressure().at(i)) || isGap) {
                return Findings.invalid(
                        asked,
                        evidence.place(),
                        "Channel %s has no value at %s."
                                .formatted(
                                        evidence.pressure().name(),
                                        Figures.moment(
                                                evidence.pressure().axis().at(i))));
            }
        }
        return Findings.met(asked, evidence.place(), "The pressure was recorded without a gap.");
    }

    private static Finding range(LeakEvidence evidence, Requirement asked) {
        if (evidence.test().isEmpty()) {
            return Findings.notApplicable(asked, "Not assessed: no periods were found to look at.");
        }
        LeakTest test = evidence.test().get();
        Optional<Finding> fault = CalibrationRange.fault(
                evidence.pressure(), new Stretch(test.isolationSeconds(), test.endSeconds()), asked);
        return fault.orElseGet(
                () -> Findings.met(asked, evidence.place(), "All pressures lie inside the calibrated range."));
    }

    private static Finding rate(LeakEvidence evidence, Requirement asked) {
        if (evidence.test().isEmpty()) {
            return Findings.missing(asked, "Not assessed: settling and measuring were not found.");
        }
        LeakTest test = evidence.test().get();
        Budget budget = readings(evidence)
                .change(
                        "rise of pressure per minute",
                        LeakTest.SECONDS_PER_MINUTE / test.measuringPeriodSeconds(),
                        "kPa/min");
        Figure figure = Figure.withDoubt(
                        test.rate().kilopascalPerMinute(),
                        budget.expanded().value(),
                        Unit.KILOPASCAL_PER_MINUTE,
                        "what strikes each of both readings anew; the calibration of one sensor cancels in a rise")
                .withBudget(Optional.of(budget));
        String sentence = "The pressure rose from %s to %s in %s: %s per minute."
                .formatted(
                        Figures.shown(test.settledKilopascal(), Unit.KILOPASCAL),
                        Figures.shown(test.endKilopascal(), Unit.KILOPASCAL),
                        Figures.shown(test.measuringPeriodSeconds(), Unit.SECONDS),
                        Figures.highSide(test.rate().kilopascalPerMinute(), 3) + " kPa");
        return asked.limit().isEmpty()
                ? Findings.reported(asked, figure, evidence.place(), sentence)
                : Findings.judged(asked, asked.limit().get(), figure, evidence.place(), sentence);
    }

    /** The budget of one reading; of its resolution alone where nothing else is known. */
    private static Budget readings(LeakEvidence evidence) {
        double resolution = evidence.pressure().channel().column().resolution();
        return evidence.pressure()
                .budget()
                .orElseGet(() -> Budget.of(
                        "one reading of " + evidence.pressure().name(),
                        "kPa",
                        List.of(Contribution.resolution("resolution of the recording", resolution, "recording"))));
    }

    private static Finding startPressure(LeakEvidence evidence, Requirement asked) {
        if (evidence.test().isEmpty()) {
            return Findings.missing(asked, "Not assessed: the moment of isolation was not found.");
        }
        LeakTest test = evidence.test().get();
        Figure figure = Figure.withDoubt(
                test.isolationKilopascal(),
                evidence.pressure().expanded().value(),
                Unit.KILOPASCAL,
                "expanded uncertainty of the channel");
        String sentence = "The pump was cut off at %s."
                .formatted(Figures.shown(test.isolationKilopascal(), Unit.KILOPASCAL, Comparison.AT_MOST));
        return asked.limit().isEmpty()
                ? Findings.reported(asked, figure, evidence.place(), sentence)
                : Findings.judged(asked, asked.limit().get(), figure, evidence.place(), sentence);
    }

    private static Finding settling(LeakEvidence evidence, Requirement asked) {
        if (evidence.test().isEmpty()) {
            return Findings.missing(asked, "Not assessed: settling was not found.");
        }
        LeakTest test = evidence.test().get();
        Budget budget = readings(evidence).change("rise while settling", 1, "kPa");
        Figure figure = Figure.withDoubt(
                        test.settlingRiseKilopascal(),
                        budget.expanded().value(),
                        Unit.KILOPASCAL,
                        "what strikes each of both readings anew; the calibration of one sensor cancels in a rise")
                .withBudget(Optional.of(budget));
        String sentence = "While settling the pressure rose by %s; a large rise is the sign of a wet chamber."
                .formatted(Figures.shown(test.settlingRiseKilopascal(), Unit.KILOPASCAL, Comparison.AT_MOST));
        return asked.limit().isEmpty()
                ? Findings.reported(asked, figure, evidence.place(), sentence)
                : Findings.judged(asked, asked.limit().get(), figure, evidence.place(), sentence);
    }

    private static Finding period(LeakEvidence evidence, Requirement asked) {
        if (evidence.test().isEmpty()) {
            return Findings.missing(asked, "Not assessed: settling and measuring were not found.");
        }
        LeakTest test = evidence.test().get();
        Figure figure = Figure.exact(test.measuringPeriodSeconds(), Unit.SECONDS);
        String sentence = "Settled for %s, then measured for %s%s."
                .formatted(
                        Figures.shown(test.settlingPeriodSeconds(), Unit.SECONDS, Comparison.AT_LEAST),
                        Figures.shown(test.measuringPeriodSeconds(), Unit.SECONDS, Comparison.AT_LEAST),
                        test.isDeclared() ? ", as declared" : ", as found in the recording");
        boolean isSettlingShort = asked.secondLimit()
                .filter(settling -> !settling.isMetBy(test.settlingPeriodSeconds()))
                .isPresent();
        if (isSettlingShort) {
            return Findings.invalid(
                    asked,
                    evidence.place(),
                    sentence
                            + " Settling has to last %s s at least."
                                    .formatted(Figures.plain(
                                            asked.secondLimit().get().value(), Unit.SECONDS)));
        }
        return asked.limit().isEmpty()
                ? Findings.reported(asked, figure, evidence.place(), sentence)
                : Findings.judgedAsEvidence(asked, asked.limit().get(), figure, evidence.place(), sentence);
    }
}
