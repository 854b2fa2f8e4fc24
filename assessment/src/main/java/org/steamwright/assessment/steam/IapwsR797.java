package org.steamwright.assessment.steam;

import org.steamwright.assessment.quantity.Temperature;

/**
 * Saturation line of water, region 4 of the industrial formulation 1997.
 *
 * <p>Valid from 273.15 K to 647.096 K; no switch to the boundary of regions 2 and 3, which is another line.
 *
 * @source IAPWS R7-97(2012), section 8, equations (29) to (31); coefficients and verification values of tables 34 to 36
 *     as in the check values 1 to 6
 */
public enum IapwsR797 implements SaturationCurve {
    INSTANCE;

    private static final double N1 = 0.11670521452767e4;
    private static final double N2 = -0.72421316703206e6;
    private static final double N3 = -0.17073846940092e2;
    private static final double N4 = 0.12020824702470e5;
    private static final double N5 = -0.32325550322333e7;
    private static final double N6 = 0.14915108613530e2;
    private static final double N7 = -0.48232657361591e4;
    private static final double N8 = 0.40511340542057e6;
    private static final double N9 = -0.23855557567849;
    private static final double N10 = 0.65017534844798e3;

    private static final double LOWEST_KELVIN = 273.15;
    private static final double HIGHEST_KELVIN = 647.096;
    private static final double LOWEST_MEGAPASCAL = 611.213e-6;
    private static final double HIGHEST_MEGAPASCAL = 22.064;
    private static final double KILOPASCAL_PER_MEGAPASCAL = 1000.0;

    @Override
    public String id() {
        return "iapws-r7-97";
    }

    @Override
    public String title() {
        return "IAPWS R7-97(2012), region 4";
    }

    @Override
    public double celsiusAt(double kilopascalAbsolute) {
        double p = kilopascalAbsolute / KILOPASCAL_PER_MEGAPASCAL;
        if (!(p >= LOWEST_MEGAPASCAL && p <= HIGHEST_MEGAPASCAL)) {
            return Double.NaN;
        }
        // equation (31)
        double beta = Math.sqrt(Math.sqrt(p));
        double e = beta * beta + N3 * beta + N6;
        double f = N1 * beta * beta + N4 * beta + N7;
        double g = N2 * beta * beta + N5 * beta + N8;
        double d = 2 * g / (-f - Math.sqrt(f * f - 4 * e * g));
        double kelvin = (N10 + d - Math.sqrt((N10 + d) * (N10 + d) - 4 * (N9 + N10 * d))) / 2;
        return kelvin - Temperature.ZERO_CELSIUS_IN_KELVIN;
    }

    @Override
    public double kilopascalAt(double celsius) {
        double kelvin = celsius + Temperature.ZERO_CELSIUS_IN_KELVIN;
        if (!(kelvin >= LOWEST_KELVIN && kelvin <= HIGHEST_KELVIN)) {
            return Double.NaN;
        }
        // equation (30)
        double theta = kelvin + N9 / (kelvin - N10);
        double a = theta * theta + N1 * theta + N2;
        double b = N3 * theta * theta + N4 * theta + N5;
        double c = N6 * theta * theta + N7 * theta + N8;
        double root = 2 * c / (-b + Math.sqrt(b * b - 4 * a * c));
        return root * root * root * root * KILOPASCAL_PER_MEGAPASCAL;
    }
}
