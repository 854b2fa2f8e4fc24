package org.steamwright.assessment.calibration;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How far an instrument had moved between two calibrations: as found by the newer against as left by the older, at the
 * points of the newer that the older covers, give or take 1 K or 1 kPa.
 *
 * @param from the older calibration
 * @param to the newer one
 * @param points by indicated value, at least one
 */
public record Drift(CalibrationEvent from, CalibrationEvent to, List<Point> points) {

    private static final double DAYS_PER_YEAR = 365.25;

    /** A laboratory never meets the same value twice, and a drifted instrument shows another; in K or kPa. Own choice. */
    private static final double NEAR = 1.0;

    /**
     * The movement at one point.
     *
     * @param indicated value shown at the newer calibration, in degree Celsius or kilopascal
     * @param change by which the instrument shows more than it did, in kelvin or kilopascal; negative if less
     * @param standardUncertainty of the change, by both laboratories' uncertainties as independent
     */
    public record Point(double indicated, double change, double standardUncertainty) {

        /**
         * What the change and its own doubt make together. An observed change of zero does not prove that there was none.
         *
         * @source root of the sum of squares; own choice, no source
         */
        public double size() {
            return StrictMath.hypot(change, standardUncertainty);
        }
    }

    public Drift {
        points = List.copyOf(points);
        if (points.isEmpty() || !to.day().isAfter(from.day())) {
            throw new IllegalArgumentException(
                    "drift from %s to %s over %s points".formatted(from.day(), to.day(), points.size()));
        }
    }

    /** The drift between two calibrations; empty if they have no range in common or were made on one day. */
    public static Optional<Drift> find(CalibrationEvent older, CalibrationEvent newer) {
        Correction before = Correction.of(older.certificate());
        List<Point> points = new ArrayList<>();
        for (CalibrationPoint found : newer.found()) {
            double indicated = found.indicated();
            if (isNear(indicated, older.certificate())) {
                points.add(new Point(
                        indicated,
                        before.correctionAt(indicated) - found.correction(),
                        StrictMath.hypot(
                                found.expandedUncertainty() / found.coverageFactor(),
                                before.standardUncertaintyAt(indicated))));
            }
        }
        return points.isEmpty() || !newer.day().isAfter(older.day())
                ? Optional.empty()
                : Optional.of(new Drift(older, newer, points));
    }

    private static boolean isNear(double indicated, CalibrationCertificate certificate) {
        return indicated >= certificate.lowest() - NEAR && indicated <= certificate.highest() + NEAR;
    }

    /** Time between the two calibrations in years of 365.25 days. */
    public double years() {
        return ChronoUnit.DAYS.between(from.day(), to.day()) / DAYS_PER_YEAR;
    }

    /** Change per year at a point, in kelvin or kilopascal. */
    public double perYear(Point point) {
        return point.change() / years();
    }

    /** Size per year around an indicated value: the larger of the neighbouring points; the end point outside them. */
    public double sizePerYearAt(double indicated) {
        Point below = points.get(0);
        Point above = points.get(points.size() - 1);
        for (Point point : points) {
            if (point.indicated() <= indicated) {
                below = point;
            }
            if (point.indicated() >= indicated && point.indicated() < above.indicated()) {
                above = point;
            }
        }
        if (indicated <= points.get(0).indicated()) {
            above = points.get(0);
        }
        if (indicated >= points.get(points.size() - 1).indicated()) {
            below = points.get(points.size() - 1);
        }
        return Math.max(below.size(), above.size()) / years();
    }

    /** The point that moved most. */
    public Point largest() {
        Point largest = points.get(0);
        for (Point point : points) {
            if (Math.abs(point.change()) > Math.abs(largest.change())) {
                largest = point;
            }
        }
        return largest;
    }
}
