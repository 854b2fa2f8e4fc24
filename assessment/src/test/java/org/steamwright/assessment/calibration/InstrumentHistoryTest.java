package org.steamwright.assessment.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.assessment.calibration.FieldCheck.Pair;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Distribution;

/** Invented instruments over the years. */
class InstrumentHistoryTest {

    private static final double YEAR = 365.25;

    static CalibrationCertificate certificate(String number, String day, CalibrationPoint... points) {
        LocalDate on = LocalDate.parse(day);
        return new CalibrationCertificate(number, "invented", on, on.plusYears(1), List.of(points));
    }

    static CalibrationPoint point(double reference, double indicated) {
        return new CalibrationPoint(reference, indicated, 0.06, 2);
    }

    static final CalibrationEvent FIRST =
            CalibrationEvent.unadjusted(certificate("K-1", "2024-03-01", point(100, 100.10), point(140, 140.20)));
    /** Found 0.05 K higher at 100 and 0.15 K higher at 140, then adjusted. */
    static final CalibrationEvent SECOND = new CalibrationEvent(
            certificate("K-2", "2025-03-01", point(100, 100.00), point(140, 140.00)),
            List.of(point(139, 139.3475), point(101, 101.1525)));

    @Test
    void drift_is_as_found_against_as_left_before() {
        Drift drift = Drift.find(FIRST, SECOND).orElseThrow();
        assertThat(drift.points()).extracting(Drift.Point::indicated).containsExactly(101.1525, 139.3475);
        // as left: 0.1 at 100.10, 0.2 at 140.20, straight between
        double before = 0.1 + 0.1 * (101.1525 - 100.10) / 40.10;
        assertThat(drift.points().get(0).change()).isCloseTo(0.1525 - before, within(1e-9));
        assertThat(drift.points().get(1).change())
                .isCloseTo(0.3475 - (0.1 + 0.1 * (139.3475 - 100.10) / 40.10), within(1e-9));
        assertThat(drift.points().get(0).standardUncertainty()).isCloseTo(0.03 * Math.sqrt(2), within(1e-12));
        assertThat(drift.years()).isCloseTo(365 / YEAR, within(1e-12));
        assertThat(drift.perYear(drift.points().get(1)))
                .isCloseTo(drift.points().get(1).change() * YEAR / 365, within(1e-12));
        assertThat(drift.largest()).isEqualTo(drift.points().get(1));
        assertThat(drift.from()).isEqualTo(FIRST);
        assertThat(drift.to()).isEqualTo(SECOND);
    }

    @Test
    void the_largest_change_counts_without_its_sign() {
        CalibrationEvent lower = CalibrationEvent.unadjusted(
                certificate("K-3", "2025-03-01", point(101, 100.8), point(120, 120.16), point(139, 139.25)));
        Drift drift = Drift.find(FIRST, lower).orElseThrow();
        assertThat(drift.points().get(0).indicated())
                .as("inside the range of the older")
                .isEqualTo(100.8);
        assertThat(drift.largest().change()).isCloseTo(-0.2 - (0.1 + 0.1 * 0.7 / 40.1), within(1e-9));
    }

    @ParameterizedTest(name = "shown {0}: {1}")
    @CsvSource({"99.10, true", "99.09, false", "141.20, true", "141.21, false"})
    void a_point_just_outside_the_older_range_is_still_compared(double indicated, boolean expected) {
        CalibrationEvent newer =
                CalibrationEvent.unadjusted(certificate("K-3", "2025-03-01", point(indicated - 0.3, indicated)));
        Optional<Drift> drift = Drift.find(FIRST, newer);
        assertThat(drift.isPresent()).isEqualTo(expected);
        drift.ifPresent(found -> assertThat(found.largest().change())
                .as("against the correction of the nearest point")
                .isCloseTo(0.3 - (indicated < 120 ? 0.1 : 0.2), within(1e-9)));
    }

    @Test
    void only_points_that_the_older_calibration_covers_are_compared() {
        CalibrationEvent wide =
                CalibrationEvent.unadjusted(certificate("K-3", "2025-03-01", point(0, 0.1), point(120, 120.1)));
        assertThat(Drift.find(FIRST, wide).orElseThrow().points())
                .extracting(Drift.Point::indicated)
                .containsExactly(120.1);
        CalibrationEvent elsewhere = CalibrationEvent.unadjusted(certificate("K-4", "2025-03-01", point(0, 0.1)));
        assertThat(Drift.find(FIRST, elsewhere)).isEmpty();
        assertThat(Drift.find(SECOND, FIRST)).as("the other way round").isEmpty();
        assertThat(Drift.find(FIRST, FIRST)).as("the same day").isEmpty();
        assertThatThrownBy(() -> new Drift(FIRST, SECOND, List.of())).hasMessageContaining("over 0 points");
        assertThatThrownBy(() -> new Drift(SECOND, FIRST, List.of(new Drift.Point(1, 0, 0))))
                .hasMessage("drift from 2025-03-01 to 2024-03-01 over 1 points");
    }

    @ParameterizedTest(name = "at {0}: the size of {1} per year")
    @CsvSource({
        "90, 0.5, below all points the lowest",
        "100, 0.5, at the lowest point that one alone",
        "110, 1.3, between two the larger",
        "120, 1.3, at a point that one",
        "130, 1.3, between two the larger",
        "140, 0.25, at the highest that one alone",
        "150, 0.25, above all the highest",
    })
    void the_size_around_a_value_is_that_of_its_neighbours(double indicated, double expected, String why) {
        CalibrationEvent later = CalibrationEvent.unadjusted(certificate("K-9", "2028-02-29", point(1, 1)));
        CalibrationEvent earlier = CalibrationEvent.unadjusted(certificate("K-8", "2024-02-29", point(1, 1)));
        Drift drift = new Drift(
                earlier,
                later,
                List.of(new Drift.Point(100, 2, 0), new Drift.Point(120, -2, 4.8), new Drift.Point(140, 1, 0)));
        assertThat(drift.years()).isEqualTo(4);
        assertThat(drift.sizePerYearAt(indicated)).as(why).isCloseTo(expected, within(1e-12));
    }

    @Test
    void the_certificate_of_the_last_calibration_up_to_the_day_is_in_force() {
        InstrumentHistory history = history(SECOND, FIRST);
        assertThat(history.calibrations()).as("sorted").containsExactly(FIRST, SECOND);
        assertThat(number(history, "2025-02-28")).isEqualTo("K-1");
        assertThat(number(history, "2025-03-01")).isEqualTo("K-2");
        assertThat(number(history, "2030-01-01"))
                .as("out of date, and says so itself")
                .isEqualTo("K-2");
        assertThat(number(history, "2020-01-01"))
                .as("later than the day, and says so itself")
                .isEqualTo("K-1");
        assertThat(InstrumentHistory.NONE.inForceOn(LocalDate.parse("2025-01-01")))
                .isEmpty();
        assertThat(history.nextAfter(LocalDate.parse("2025-02-28"))).contains(SECOND);
        assertThat(history.nextAfter(LocalDate.parse("2025-03-01"))).isEmpty();
        assertThat(history.drifts()).hasSize(1);
        assertThatThrownBy(() -> history(FIRST, FIRST)).hasMessage("two calibrations on 2024-03-01: K-1 and K-1");
    }

    @Test
    void drift_grows_with_the_time_since_the_last_calibration() {
        InstrumentHistory history = history(FIRST, SECOND);
        Contribution drift = history.drift(LocalDate.parse("2025-08-31"), 134).orElseThrow();
        double size = Drift.find(FIRST, SECOND).orElseThrow().sizePerYearAt(134);
        assertThat(drift.stated()).isCloseTo(size * 183 / YEAR, within(1e-12));
        assertThat(drift.name()).isEqualTo("drift");
        assertThat(drift.distribution()).isEqualTo(Distribution.RECTANGULAR);
        assertThat(drift.origin()).isEqualTo("own history: 2 calibrations from 2024-03-01 to 2025-03-01");
        assertThat(history.drift(LocalDate.parse("2025-03-01"), 134)
                        .orElseThrow()
                        .stated())
                .as("on the very day")
                .isZero();
        assertThat(history.drift(LocalDate.parse("2025-02-28"), 134))
                .as("what came later was not known")
                .isEmpty();
    }

    @Test
    void the_worst_of_several_drifts_counts() {
        CalibrationEvent third =
                CalibrationEvent.unadjusted(certificate("K-3", "2026-03-01", point(100, 100), point(140, 140)));
        InstrumentHistory history = history(FIRST, SECOND, third);
        double largest = Drift.find(FIRST, SECOND).orElseThrow().sizePerYearAt(134);
        assertThat(Drift.find(SECOND, third).orElseThrow().sizePerYearAt(134)).isLessThan(largest);
        assertThat(history.drift(LocalDate.parse("2026-08-31"), 134)
                        .orElseThrow()
                        .stated())
                .isCloseTo(largest * 183 / YEAR, within(1e-12));
        assertThat(history.drift(LocalDate.parse("2026-08-31"), 134)
                        .orElseThrow()
                        .origin())
                .isEqualTo("own history: 3 calibrations from 2024-03-01 to 2026-03-01");
    }

    @Test
    void own_drift_takes_the_place_of_the_declared_one() {
        List<Contribution> declared = List.of(
                Contribution.rectangular("drift", 0.3, "stated"),
                Contribution.rectangular("immersion", 0.05, "stated"));
        ReferenceInstrument instrument = new ReferenceInstrument(
                "TL-1",
                "invented",
                Quantity.TEMPERATURE,
                0,
                150,
                Optional.of(FIRST.certificate()),
                declared,
                history(FIRST, SECOND));
        LocalDate day = LocalDate.parse("2025-08-31");
        assertThat(instrument.contributionsOn(day, 134))
                .extracting(Contribution::name)
                .containsExactly("drift", "immersion");
        assertThat(instrument.contributionsOn(day, 134).get(0).origin()).startsWith("own history");
        assertThat(instrument.contributionsOn(LocalDate.parse("2024-08-31"), 134))
                .isEqualTo(declared);
        assertThat(instrument.on(day).certificate()).contains(SECOND.certificate());
        assertThat(instrument.on(day).history()).isEqualTo(instrument.history());
        ReferenceInstrument plain = new ReferenceInstrument(
                "TL-1", "", Quantity.TEMPERATURE, 0, 150, Optional.of(FIRST.certificate()), declared);
        assertThat(plain.on(day)).isSameAs(plain);
    }

    @Test
    void checks_before_and_after_are_told_apart_on_the_same_day() {
        FieldCheck before = check("2025-06-10", Moment.BEFORE, 0.2, new Pair(0, 0.05));
        FieldCheck after = check("2025-06-10", Moment.AFTER, 0.2, new Pair(0, 0.05));
        FieldCheck later = check("2025-06-12", Moment.BEFORE, 0.2, new Pair(0, 0.05));
        InstrumentHistory history = new InstrumentHistory(List.of(), List.of(later, after, before), List.of());
        assertThat(history.checks()).containsExactly(before, after, later);
        LocalDate day = LocalDate.parse("2025-06-10");
        assertThat(history.checkBefore(day)).contains(before);
        assertThat(history.checkAfter(day)).contains(after);
        assertThat(history.checkAfter(day.plusDays(1))).contains(later);
        assertThat(history.checkBefore(day.plusDays(1))).contains(after);
        assertThat(history.checkBefore(day.minusDays(1))).isEmpty();
        assertThat(history.checkAfter(day.plusDays(2)))
                .as("before the runs of that day")
                .isEmpty();
        assertThat(history.checkBefore(day.plusDays(2))).contains(later);
        assertThat(history.checkAfter(day.plusDays(3))).isEmpty();
    }

    @Test
    void a_check_is_judged_after_correction() {
        FieldCheck check = check(
                "2025-06-10", Moment.AFTER, 0.1, new Pair(100, 100.12), new Pair(140, 140.11), new Pair(120, 120.15));
        FieldCheck.Deviation worst = check.worst(FIRST.certificate());
        assertThat(worst.pair()).isEqualTo(new Pair(140, 140.11));
        assertThat(worst.deviation())
                .as("0.11 indicated, corrected by what the line says at 140.11")
                .isCloseTo(0.11 - (0.1 + 0.1 * 40.01 / 40.10), within(1e-9));
        assertThatThrownBy(() -> check("2025-06-10", Moment.AFTER, 0.1))
                .hasMessage("a check on 2025-06-10 without a reading");
        assertThatThrownBy(() -> check("2025-06-10", Moment.AFTER, -1, new Pair(1, 1)))
                .hasMessage("a check on 2025-06-10 with a tolerance of -1.0");
        assertThat(check("2025-06-10", Moment.AFTER, 0, new Pair(1, 1)).tolerance())
                .contains(0.0);
        assertThat(Moment.AFTER.word()).isEqualTo("after");
    }

    @ParameterizedTest(name = "stated {0}, by the set {1}: {2}")
    @CsvSource({"0.2, 0.5, 0.2", "0.5, 0.2, 0.2", "0.3, , 0.3", ", 0.4, 0.4", ", , "})
    void the_smaller_one_of_both_limits_counts_and_none_stays_none(Double stated, Double ofSet, Double expected) {
        FieldCheck check = new FieldCheck(
                LocalDate.parse("2025-06-10"),
                Moment.AFTER,
                "melting ice",
                List.of(new Pair(0, 0)),
                Optional.ofNullable(stated),
                "",
                "");
        assertThat(check.allowed(Optional.ofNullable(ofSet))).isEqualTo(Optional.ofNullable(expected));
    }

    @Test
    void checks_that_were_made_together_count_together() {
        FieldCheck ice = check("2025-06-10", Moment.AFTER, 0.1, new Pair(0, 0));
        FieldCheck bath = check("2025-06-10", Moment.AFTER, 0.1, new Pair(121, 121));
        FieldCheck early = check("2025-06-10", Moment.BEFORE, 0.1, new Pair(0, 0));
        FieldCheck later = check("2025-06-11", Moment.BEFORE, 0.1, new Pair(0, 0));
        InstrumentHistory history = InstrumentHistory.NONE.withChecks(List.of(later, ice, early, bath));
        assertThat(history.checksAfter(LocalDate.parse("2025-06-10"))).containsExactly(ice, bath);
        assertThat(history.checksBefore(LocalDate.parse("2025-06-10"))).containsExactly(early);
        assertThat(history.checksBefore(LocalDate.parse("2025-06-09"))).isEmpty();
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        "2025-05-31, false",
        "2025-06-01, true",
        "2025-06-15, true",
        "2025-06-30, true",
        "2025-07-01, false",
    })
    void a_quarantine_covers_both_its_ends(String day, boolean expected) {
        Quarantine quarantine =
                new Quarantine(LocalDate.parse("2025-06-01"), Optional.of(LocalDate.parse("2025-06-30")), "dropped");
        assertThat(quarantine.covers(LocalDate.parse(day))).isEqualTo(expected);
        InstrumentHistory history = new InstrumentHistory(List.of(), List.of(), List.of(quarantine));
        assertThat(history.quarantineOn(LocalDate.parse(day)).isPresent()).isEqualTo(expected);
    }

    @Test
    void a_quarantine_lasts_until_it_is_lifted_and_has_a_reason() {
        LocalDate from = LocalDate.parse("2025-06-01");
        assertThat(new Quarantine(from, Optional.empty(), "soaked").covers(LocalDate.parse("2035-01-01")))
                .isTrue();
        assertThat(new Quarantine(from, Optional.of(from), "soaked").covers(from))
                .isTrue();
        assertThatThrownBy(() -> new Quarantine(from, Optional.of(from.minusDays(1)), "x"))
                .hasMessage("a quarantine from 2025-06-01 until 2025-05-31");
        assertThatThrownBy(() -> new Quarantine(from, Optional.empty(), " "))
                .hasMessage("a quarantine from 2025-06-01 without a reason");
    }

    @Test
    void an_adjusted_instrument_was_found_otherwise_than_it_was_left() {
        assertThat(FIRST.isAdjusted()).isFalse();
        assertThat(FIRST.found()).isEqualTo(FIRST.certificate().points());
        assertThat(SECOND.isAdjusted()).isTrue();
        assertThat(SECOND.found()).extracting(CalibrationPoint::indicated).containsExactly(101.1525, 139.3475);
        assertThat(SECOND.day()).isEqualTo("2025-03-01");
    }

    private static FieldCheck check(String day, Moment moment, double tolerance, Pair... pairs) {
        return new FieldCheck(LocalDate.parse(day), moment, "invented bath", List.of(pairs), tolerance);
    }

    private static InstrumentHistory history(CalibrationEvent... calibrations) {
        return new InstrumentHistory(List.of(calibrations), List.of(), List.of());
    }

    private static String number(InstrumentHistory history, String day) {
        return history.inForceOn(LocalDate.parse(day)).orElseThrow().number();
    }
}
