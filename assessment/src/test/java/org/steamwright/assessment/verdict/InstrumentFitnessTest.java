package org.steamwright.assessment.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.TestSet;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.assessment.calibration.FieldCheck.Pair;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

/** Whether the instruments of a run could be relied on: certificates over time, quarantine, checks in the field. */
class InstrumentFitnessTest {

    private static final LocalDate DAY = LocalDate.parse("2026-03-02");
    private static final Instant START = Instant.parse("2026-03-02T09:00:00Z");

    /** The pack's logger: half a kelvin high, calibrated twice, with a history. */
    private static ReferenceInstrument logger(List<FieldCheck> checks, List<Quarantine> quarantines) {
        CalibrationEvent old = CalibrationEvent.unadjusted(certificate("K-1", "2025-01-10", "2026-01-10", 0.3));
        CalibrationEvent recent = CalibrationEvent.unadjusted(certificate("K-2", "2026-01-10", "2027-01-10", 0.5));
        return new ReferenceInstrument(
                "L",
                "invented",
                Quantity.TEMPERATURE,
                Double.NEGATIVE_INFINITY,
                Double.POSITIVE_INFINITY,
                Optional.of(recent.certificate()),
                List.of(Contribution.rectangular("drift", 0.4, "stated")),
                new InstrumentHistory(List.of(old, recent), checks, quarantines));
    }

    private static CalibrationCertificate certificate(String number, String on, String due, double error) {
        return new CalibrationCertificate(
                number,
                "invented",
                LocalDate.parse(on),
                LocalDate.parse(due),
                List.of(
                        new CalibrationPoint(0, error, 0.06, 2),
                        new CalibrationPoint(120, 120 + error, 0.06, 2),
                        new CalibrationPoint(140, 140 + error, 0.06, 2)));
    }

    private static SyntheticRun run(ReferenceInstrument logger) {
        return SyntheticRun.good().instrument("L", logger).start(Optional.of(START));
    }

    private static FieldCheck check(String day, Moment moment, double indicated) {
        return new FieldCheck(LocalDate.parse(day), moment, "ice point", List.of(new Pair(0, indicated)), 0.2);
    }

    @Test
    void the_certificate_in_force_at_the_last_sample_corrects() {
        RunEvaluation evaluation =
                run(logger(List.of(), List.of())).judgedBy(TestSet.strict().build());
        assertThat(evaluation.corrected().channels().get(1).at(500)).isEqualTo(SyntheticRun.PLATEAU - 0.5);
        RunEvaluation before = run(logger(List.of(), List.of()))
                .start(Optional.of(Instant.parse("2026-01-09T09:00:00Z")))
                .judgedBy(TestSet.strict().build());
        assertThat(before.corrected().channels().get(1).at(500)).isEqualTo(SyntheticRun.PLATEAU - 0.3);
    }

    @Test
    void the_budget_says_which_drift_it_took() {
        List<Contribution> known = run(logger(List.of(), List.of()))
                .judgedBy(TestSet.strict().build())
                .corrected()
                .channels()
                .get(1)
                .budget()
                .orElseThrow()
                .contributions();
        assertThat(known)
                .filteredOn(line -> line.name().equals("drift"))
                .extracting(Contribution::origin)
                .containsExactly("own history: 2 calibrations from 2025-01-10 to 2026-01-10");
        List<Contribution> unknown = run(logger(List.of(), List.of()))
                .start(Optional.empty())
                .judgedBy(TestSet.strict().build())
                .corrected()
                .channels()
                .get(1)
                .budget()
                .orElseThrow()
                .contributions();
        assertThat(unknown)
                .filteredOn(line -> line.name().equals("drift"))
                .extracting(Contribution::origin)
                .containsExactly("stated");
    }

    @Test
    void a_run_before_the_first_calibration_is_not_covered() {
        SyntheticRun run = run(logger(List.of(), List.of())).start(Optional.of(Instant.parse("2024-06-01T09:00:00Z")));
        for (String name : List.of("R", "C")) {
            run.instrument(
                    name,
                    SyntheticRun.instrument(
                            name, Quantity.TEMPERATURE, "2024-01-01", "2024-12-31", 0, 0.1, 0, 100, 140));
        }
        Finding finding = run.judgedBy(TestSet.strict().build()).finding(CriterionId.CALIBRATION_VALID);
        assertThat(finding.sentence())
                .isEqualTo(
                        "Certificate K-1 of instrument L (channel L) runs from 2025-01-10 to 2026-01-10; the run ended on 2024-06-01.");
    }

    @ParameterizedTest(name = "shows {0} in ice: {1}")
    @CsvSource({
        "0.70, PASS, 0.20 after correction is the tolerance itself",
        "0.71, INVALID, beyond it",
        "0.30, PASS, the other side",
        "0.29, INVALID, beyond it on the other side",
    })
    void a_check_after_the_run_is_held_against_its_tolerance(double indicated, Outcome expected, String why) {
        RunEvaluation evaluation = run(logger(List.of(check("2026-03-02", Moment.AFTER, indicated)), List.of()))
                .judgedBy(TestSet.strict().build());
        assertThat(evaluation.finding(CriterionId.CALIBRATION_VALID).outcome())
                .as(why)
                .isEqualTo(expected);
        assertThat(evaluation.finding(CriterionId.FIELD_CHECK_AFTER).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
    }

    @Test
    void a_failed_check_makes_the_run_invalid_and_says_why() {
        RunEvaluation evaluation = run(logger(List.of(check("2026-03-04", Moment.BEFORE, 0.8)), List.of()))
                .judgedBy(TestSet.strict().build());
        assertThat(evaluation.verdict().outcome()).isEqualTo(RunOutcome.INVALID);
        Finding finding = evaluation.finding(CriterionId.CALIBRATION_VALID);
        assertThat(finding.evidence().channels()).containsExactly("L");
        assertThat(finding.sentence())
                .isEqualTo(
                        "Instrument L (channel L) failed its check on 2026-03-04 (ice point): corrected it read 0.300 °C at 0.000 °C, ±0.200 are allowed.");
    }

    @Test
    void a_failed_check_before_the_run_that_was_mended_does_no_harm() {
        RunEvaluation evaluation = run(logger(
                        List.of(check("2026-03-02", Moment.BEFORE, 0.9), check("2026-03-02", Moment.AFTER, 0.5)),
                        List.of()))
                .judgedBy(TestSet.strict().build());
        assertThat(evaluation.finding(CriterionId.CALIBRATION_VALID).outcome()).isEqualTo(Outcome.PASS);
    }

    @Test
    void an_instrument_that_was_set_aside_is_not_relied_on() {
        Quarantine quarantine = new Quarantine(DAY.minusDays(3), Optional.empty(), "dropped on tiles");
        RunEvaluation evaluation = run(logger(List.of(), List.of(quarantine)))
                .judgedBy(TestSet.strict().build());
        assertThat(evaluation.finding(CriterionId.CALIBRATION_VALID).outcome()).isEqualTo(Outcome.INVALID);
        assertThat(evaluation.finding(CriterionId.CALIBRATION_VALID).sentence())
                .isEqualTo("Instrument L (channel L) was set aside on 2026-02-27: dropped on tiles.");
        Quarantine lifted = new Quarantine(DAY.minusDays(9), Optional.of(DAY.minusDays(1)), "dropped on tiles");
        assertThat(run(logger(List.of(), List.of(lifted)))
                        .judgedBy(TestSet.strict().build())
                        .finding(CriterionId.CALIBRATION_VALID)
                        .outcome())
                .isEqualTo(Outcome.PASS);
    }

    // where the set asks for a check after the run

    private static Finding asked(SyntheticRun run) {
        return run.judgedBy(TestSet.strict()
                        .use(CriterionId.FIELD_CHECK_AFTER, Use.DECIDES)
                        .build())
                .finding(CriterionId.FIELD_CHECK_AFTER);
    }

    private static SyntheticRun allChecked(double indicated) {
        SyntheticRun run = run(logger(List.of(check("2026-03-02", Moment.AFTER, indicated)), List.of()));
        for (String name : List.of("R", "C", "P")) {
            ReferenceInstrument plain = SyntheticRun.instrument(
                    name, name.equals("P") ? Quantity.PRESSURE : Quantity.TEMPERATURE, 0.1, 0, 100, 140, 350);
            run.instrument(
                    name,
                    new ReferenceInstrument(
                            name,
                            "invented",
                            plain.quantity(),
                            plain.rangeLow(),
                            plain.rangeHigh(),
                            plain.certificate(),
                            List.of(),
                            new InstrumentHistory(
                                    List.of(), List.of(check("2026-03-02", Moment.AFTER, 0)), List.of())));
        }
        return run;
    }

    @Test
    void a_set_can_demand_a_check_after_the_run() {
        Finding checked = asked(allChecked(0.5));
        assertThat(checked.outcome()).as(checked.sentence()).isEqualTo(Outcome.PASS);
        assertThat(checked.sentence())
                .isEqualTo("Every instrument was checked after the run and found within its tolerance.");
        assertThat(checked.evidence().channels()).containsExactly("R", "L", "C", "P");
        Finding failed = asked(allChecked(0.9));
        assertThat(failed.outcome()).isEqualTo(Outcome.INVALID);
        assertThat(failed.sentence()).startsWith("Instrument L (channel L) failed its check on 2026-03-02 (ice point)");
        assertThat(failed.evidence().channels()).containsExactly("L");
        Finding missing = asked(run(logger(List.of(check("2026-03-02", Moment.AFTER, 0.5)), List.of())));
        assertThat(missing.outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(missing.isDeciding()).isTrue();
        assertThat(missing.sentence())
                .isEqualTo("Not assessed: no check after the run is recorded for channel R, C, P.");
        assertThat(asked(allChecked(0.5).start(Optional.empty())).sentence())
                .isEqualTo("Not assessed: the recording carries no date, so no check can be said to come after it.");
        assertThat(asked(allChecked(0.5).withoutInstrument("L")).sentence()).endsWith("for channel L.");
    }

    /** A check after the run that states no tolerance. */
    private static SyntheticRun untold(double indicated) {
        FieldCheck check = new FieldCheck(
                DAY, Moment.AFTER, "ice point", List.of(new Pair(0, indicated)), Optional.empty(), "", "");
        return allChecked(0.5).instrument("L", logger(List.of(check), List.of()));
    }

    private static Finding limited(SyntheticRun run, double kelvin) {
        return run.judgedBy(TestSet.strict()
                        .use(CriterionId.FIELD_CHECK_AFTER, Use.DECIDES)
                        .limit(
                                CriterionId.FIELD_CHECK_AFTER,
                                new Limit(Comparison.AT_MOST, kelvin, Unit.KELVIN, TestSet.SOURCE))
                        .build())
                .finding(CriterionId.FIELD_CHECK_AFTER);
    }

    @Test
    void the_limit_of_the_set_counts_where_the_check_states_none_or_a_wider_one() {
        assertThat(asked(untold(0.5)).sentence())
                .isEqualTo(
                        "Not assessed: the check of instrument L on 2026-03-02 states no tolerance, and neither does the criteria set.");
        assertThat(asked(untold(0.5)).outcome()).isEqualTo(Outcome.NOT_ASSESSED);
        assertThat(limited(untold(0.65), 0.15).outcome()).isEqualTo(Outcome.PASS);
        assertThat(limited(untold(0.66), 0.15).sentence()).endsWith("at 0.000 °C, ±0.150 are allowed.");
        assertThat(limited(allChecked(0.66), 0.15).outcome())
                .as("a technician does not loosen the set")
                .isEqualTo(Outcome.INVALID);
        assertThat(limited(allChecked(0.71), 0.9).outcome())
                .as("what was declared with the check stays")
                .isEqualTo(Outcome.INVALID);
    }

    @Test
    void one_of_several_checks_of_the_day_that_fails_is_enough() {
        List<FieldCheck> checks =
                List.of(check("2026-03-02", Moment.AFTER, 0.5), check("2026-03-02", Moment.AFTER, 0.9));
        assertThat(run(logger(checks, List.of()))
                        .judgedBy(TestSet.strict().build())
                        .finding(CriterionId.CALIBRATION_VALID)
                        .outcome())
                .isEqualTo(Outcome.INVALID);
    }

    @Test
    void every_set_has_to_ask_what_no_evidence_can_do_without() {
        assertThat(CriterionId.FIELD_CHECK_AFTER.isIndispensable()).isFalse();
        assertThat(CriterionId.CALIBRATION_VALID.isIndispensable()).isTrue();
        assertThat(CriterionId.LEAK_RATE.isIndispensable()).isFalse();
    }
}
