package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;
import static org.steamwright.visit.Invented.B134;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.verdict.TestKind;

/** Instruments on the day of the visit: what they measured, how they were checked, and what is missing. */
class InstrumentDayTest {

    private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
    private static final String NO_CHECK = "Instrument TL-1: no check after the runs.";

    private final Invented invented = new Invented();

    private static CalibrationCertificate certificate(String number, String on) {
        LocalDate day = LocalDate.parse(on);
        return new CalibrationCertificate(
                number,
                "invented",
                day,
                day.plusYears(1),
                List.of(new CalibrationPoint(0, 0.1, 0.06, 2), new CalibrationPoint(134, 134.1, 0.06, 2)));
    }

    private static ReferenceInstrument logger(String id, FieldCheck... checks) {
        CalibrationCertificate old = certificate("K-1", "2026-02-10");
        CalibrationCertificate later = certificate("K-2", "2026-12-10");
        return new ReferenceInstrument(
                id,
                "invented",
                Quantity.TEMPERATURE,
                0,
                150,
                Optional.of(later),
                List.of(),
                new InstrumentHistory(
                        List.of(CalibrationEvent.unadjusted(old), CalibrationEvent.unadjusted(later)),
                        List.of(checks),
                        List.of()));
    }

    private static FieldCheck check(LocalDate day, Moment moment, double indicated, Optional<Double> tolerance) {
        return new FieldCheck(
                day, moment, "melting ice", List.of(new FieldCheck.Pair(0, indicated)), tolerance, "", "");
    }

    private static FieldCheck check(Moment moment, double indicated) {
        return check(DAY, moment, indicated, Optional.of(0.2));
    }

    private InstrumentDay day(FieldCheck... checks) {
        invented.instruments = Map.of("TL-1", logger("TL-1", checks));
        return InstrumentDay.of(invented.visit()).get(0);
    }

    private List<String> points(FieldCheck... checks) {
        invented.instruments = Map.of("TL-1", logger("TL-1", checks), "TL-2", logger("TL-2"));
        return invented.assessed().openPoints();
    }

    @Test
    void an_instrument_is_shown_with_its_certificate_of_the_day_its_runs_and_its_checks() {
        invented.run(TestKind.LOADED, B134, PASS).run(TestKind.LOADED, B134, PASS);
        InstrumentDay day = day(
                check(DAY.minusDays(9), Moment.AFTER, 5, Optional.of(0.2)),
                check(Moment.BEFORE, 0.15),
                check(Moment.AFTER, 0.4));
        assertThat(day.instrument().certificate().orElseThrow().number())
                .as("the later one was not there yet")
                .isEqualTo("K-1");
        assertThat(day.runs()).isEqualTo(Map.of(1, List.of("drain"), 2, List.of("drain")));
        assertThat(day.before()).hasSize(1);
        assertThat(day.before().get(0).corrected().orElseThrow()).isCloseTo(0.05, within(1e-9));
        assertThat(day.before().get(0).isGood()).contains(true);
        assertThat(day.after().get(0).isGood()).contains(false);
        assertThat(day.isMended()).isFalse();
    }

    @Test
    void a_check_that_nobody_limits_is_neither_good_nor_bad() {
        FieldCheck open = check(DAY, Moment.AFTER, 0.3, Optional.empty());
        assertThat(day(open).after().get(0).isGood()).isEmpty();
        invented.requires(
                CriterionId.FIELD_CHECK_AFTER,
                Use.DECIDES,
                Optional.of(new Limit(Comparison.AT_MOST, 0.15, Unit.KELVIN, Invented.SOURCE)));
        assertThat(day(open).after().get(0).isGood()).contains(false);
        assertThat(day(open).after().get(0).allowed()).contains(0.15);
    }

    @Test
    void a_missing_check_is_an_open_point_once_the_set_asks_or_one_was_begun() {
        invented.run(TestKind.LOADED, B134, PASS);
        assertThat(points()).as("nobody speaks of checks").doesNotContain(NO_CHECK);
        assertThat(points(check(Moment.BEFORE, 0.1))).contains(NO_CHECK).noneMatch(point -> point.contains("TL-2"));
        assertThat(points(check(Moment.AFTER, 0.1))).doesNotContain(NO_CHECK);
        invented.requires(CriterionId.FIELD_CHECK_AFTER, Use.DECIDES, Optional.empty());
        assertThat(points()).contains(NO_CHECK);
    }

    @Test
    void an_instrument_that_was_off_before_and_good_after_wants_a_word() {
        invented.run(TestKind.LOADED, B134, PASS);
        assertThat(points(check(Moment.BEFORE, 0.9), check(Moment.AFTER, 0.1)))
                .contains(
                        "Instrument TL-1 was off at its check before the runs and good after them. Say among the deviations what was done between.");
        assertThat(points(check(Moment.BEFORE, 0.1), check(Moment.AFTER, 0.1)))
                .noneMatch(point -> point.contains("was off"));
    }
}
