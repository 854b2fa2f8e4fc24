package org.steamwright.assessment.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CorrectionTest {

    final CalibrationCertificate certificate = certificate(
            new CalibrationPoint(134.0, 134.2, 0.08, 2),
            new CalibrationPoint(121.0, 121.1, 0.06, 2),
            new CalibrationPoint(100.0, 99.9, 0.10, 2));
    final Correction correction = Correction.of(certificate);

    static CalibrationCertificate certificate(CalibrationPoint... points) {
        return new CalibrationCertificate(
                "C-1", "invented", LocalDate.parse("2026-01-01"), LocalDate.parse("2026-12-31"), List.of(points));
    }

    @ParameterizedTest(name = "{0} °C: {1} K")
    @CsvSource({
        "99.9, 0.1, at a point",
        "110.5, 0.0, half way between +0.1 and -0.1",
        "121.1, -0.1, at a point",
        "127.65, -0.15, half way",
        "134.2, -0.2, at the last point",
        "140, -0.2, beyond it: kept not extrapolated",
        "20, 0.1, before the first: kept",
    })
    void runs_in_straight_lines_between_the_points(double indicated, double expected, String why) {
        assertThat(correction.correctionAt(indicated)).as(why).isCloseTo(expected, within(1e-9));
        assertThat(correction.correct(indicated)).as(why).isCloseTo(indicated + expected, within(1e-9));
    }

    @Test
    void nan_stays_nan() {
        assertThat(correction.correct(Double.NaN)).isNaN();
    }

    @Test
    void covers_its_range_with_both_ends() {
        assertThat(correction.covers(99.9)).isTrue();
        assertThat(correction.covers(134.2)).isTrue();
        assertThat(correction.covers(99.89)).isFalse();
        assertThat(correction.covers(134.21)).isFalse();
        assertThat(certificate.lowest()).isEqualTo(99.9);
        assertThat(certificate.highest()).isEqualTo(134.2);
    }

    @ParameterizedTest(name = "{0} °C: u = {1} K")
    @CsvSource({"50, 0.05", "99.9, 0.05", "110, 0.05", "121.1, 0.05", "130, 0.04", "134.2, 0.04", "140, 0.04"})
    void takes_the_larger_uncertainty_of_its_neighbours(double indicated, double standard) {
        assertThat(correction.standardUncertaintyAt(indicated)).isCloseTo(standard, within(1e-12));
    }

    @ParameterizedTest(name = "{0} °C: ±{1} K")
    @CsvSource({"50, 0", "110, 0.1", "130, 0.05", "140, 0"})
    void may_miss_by_half_the_difference_of_its_neighbours(double indicated, double halfWidth) {
        assertThat(correction.interpolationHalfWidthAt(indicated)).isCloseTo(halfWidth, within(1e-9));
    }

    @ParameterizedTest(name = "{0} in {1}: {2}")
    @CsvSource({
        "2025-12-31T23:59:59Z, UTC, false",
        "2026-01-01T00:00:00Z, UTC, true",
        "2026-12-31T23:59:59Z, UTC, true",
        "2027-01-01T00:00:00Z, UTC, false",
        "2026-12-31T14:00:00Z, Australia/Sydney, false",
        "2025-12-31T14:00:00Z, Australia/Sydney, true",
    })
    void a_certificate_counts_whole_days_at_the_site(Instant moment, String zone, boolean expected) {
        assertThat(certificate.isValidAt(moment, ZoneId.of(zone))).isEqualTo(expected);
    }

    @Test
    void impossible_certificates_are_refused() {
        assertThatThrownBy(() -> certificate()).hasMessage("certificate C-1 has no calibration point");
        CalibrationPoint point = new CalibrationPoint(100, 100, 0.1, 2);
        assertThatThrownBy(() -> certificate(point, point))
                .hasMessage("certificate C-1 has two points indicated at 100.0");
        assertThatThrownBy(() -> new CalibrationCertificate(
                        "C-1", "", LocalDate.parse("2026-01-02"), LocalDate.parse("2026-01-01"), List.of(point)))
                .hasMessage("certificate C-1 is due on 2026-01-01, before its calibration on 2026-01-02");
        assertThatThrownBy(() -> new CalibrationPoint(Double.NaN, 1, 0, 2)).hasMessageContaining("two finite values");
        assertThatThrownBy(() -> new CalibrationPoint(1, Double.POSITIVE_INFINITY, 0, 2))
                .hasMessageContaining("two finite values");
        assertThatThrownBy(() -> new CalibrationPoint(1, 1, -0.1, 2)).hasMessageContaining("U = -0.1");
        assertThatThrownBy(() -> new CalibrationPoint(1, 1, 0.1, 0)).hasMessageContaining("k = 0.0");
        assertThat(new CalibrationPoint(1, 1.5, 0, 1).correction()).isEqualTo(-0.5);
    }
}
