package org.steamwright.assessment.calibration;

import java.util.List;

/**
 * The correction that follows from a certificate: straight lines between its points.
 *
 * <p>Outside the calibrated range the correction of the nearest point is kept and the value counts as not covered; it
 * is never extrapolated along the line.
 */
public final class Correction {

    private final double[] indicated;
    private final double[] correction;
    private final double[] standardUncertainty;

    private Correction(List<CalibrationPoint> points) {
        int n = points.size();
        indicated = new double[n];
        correction = new double[n];
        standardUncertainty = new double[n];
        for (int i = 0; i < n; i++) {
            CalibrationPoint point = points.get(i);
            indicated[i] = point.indicated();
            correction[i] = point.correction();
            standardUncertainty[i] = point.expandedUncertainty() / point.coverageFactor();
        }
    }

    /** The correction of a certificate. */
    public static Correction of(CalibrationCertificate certificate) {
        return new Correction(certificate.points());
    }

    /** Corrected value; NaN stays NaN. */
    public double correct(double value) {
        return value + at(value, correction);
    }

    /** What is added to that indicated value. */
    public double correctionAt(double value) {
        return at(value, correction);
    }

    /** Whether the indicated value lies inside the calibrated range, ends included. */
    public boolean covers(double value) {
        return value >= indicated[0] && value <= indicated[indicated.length - 1];
    }

    /** The laboratory's standard uncertainty there: the larger of the neighbouring points. */
    public double standardUncertaintyAt(double value) {
        int above = above(value);
        if (above == 0) {
            return standardUncertainty[0];
        }
        if (above == indicated.length) {
            return standardUncertainty[indicated.length - 1];
        }
        return Math.max(standardUncertainty[above - 1], standardUncertainty[above]);
    }

    /**
     * How far a straight line between the neighbouring points may miss the true correction, as half-width: half the
     * difference of the neighbouring corrections. One point alone gives zero, its doubt is in the certificate.
     *
     * @source common practice, no source
     */
    public double interpolationHalfWidthAt(double value) {
        int above = above(value);
        if (above == 0 || above == indicated.length) {
            return 0;
        }
        return Math.abs(correction[above] - correction[above - 1]) / 2;
    }

    private double at(double value, double[] table) {
        int above = above(value);
        if (above == 0) {
            return table[0];
        }
        if (above == indicated.length) {
            return table[indicated.length - 1];
        }
        double share = (value - indicated[above - 1]) / (indicated[above] - indicated[above - 1]);
        return table[above - 1] + share * (table[above] - table[above - 1]);
    }

    /** Index of the first point at or above the value; the number of points if there is none. */
    private int above(double value) {
        int i = 0;
        while (i < indicated.length && indicated[i] < value) {
            i++;
        }
        return i;
    }
}
