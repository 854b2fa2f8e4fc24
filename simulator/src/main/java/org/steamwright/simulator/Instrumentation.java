package org.steamwright.simulator;

/**
 * How good the technician's sensors are. All figures are half-widths or standard deviations in kelvin or kilopascal.
 *
 * @param noiseKelvin standard deviation of one temperature reading
 * @param noiseKilopascal standard deviation of one pressure reading
 * @param decimalsKelvin decimals of a temperature in the file, 1 to 3
 * @param decimalsKilopascal decimals of a pressure in the file, 1 to 3
 * @param errorKelvin largest true error of a thermometer when it was calibrated
 * @param certificateKelvin expanded uncertainty (k = 2) of a temperature certificate
 * @param driftKelvin largest change of a thermometer since its calibration
 * @param errorKilopascal largest true error of the pressure sensor when it was calibrated
 * @param certificateKilopascal expanded uncertainty (k = 2) of the pressure certificate
 * @param driftKilopascal largest change of the pressure sensor since its calibration
 */
public record Instrumentation(
        double noiseKelvin,
        double noiseKilopascal,
        int decimalsKelvin,
        int decimalsKilopascal,
        double errorKelvin,
        double certificateKelvin,
        double driftKelvin,
        double errorKilopascal,
        double certificateKilopascal,
        double driftKilopascal) {

    /** Good loggers with 0.01 K and 0.1 kPa. */
    public static final Instrumentation GOOD = new Instrumentation(0.02, 0.08, 2, 1, 0.3, 0.06, 0.05, 0.5, 0.3, 0.3);

    /** The same thermometers with a vacuum gauge of 0.001 kPa, for leak tests. */
    public static final Instrumentation VACUUM =
            new Instrumentation(0.02, 0.004, 2, 3, 0.3, 0.06, 0.05, 0.05, 0.05, 0.02);

    /** No error, no noise, no drift; three decimals. */
    public static final Instrumentation PERFECT = new Instrumentation(0, 0, 3, 3, 0, 0, 0, 0, 0, 0);

    public Instrumentation {
        if (decimalsKelvin < 1 || decimalsKelvin > 3 || decimalsKilopascal < 1 || decimalsKilopascal > 3) {
            throw new IllegalArgumentException("1 to 3 decimals, found %s for temperature and %s for pressure"
                    .formatted(decimalsKelvin, decimalsKilopascal));
        }
        if (!(noiseKelvin >= 0
                && noiseKilopascal >= 0
                && errorKelvin >= 0
                && certificateKelvin >= 0
                && driftKelvin >= 0
                && errorKilopascal >= 0
                && certificateKilopascal >= 0
                && driftKilopascal >= 0)) {
            throw new IllegalArgumentException("errors, doubts and noise are stated without sign");
        }
    }

    public Instrumentation withNoise(double kelvin, double kilopascal) {
        return new Instrumentation(
                kelvin,
                kilopascal,
                decimalsKelvin,
                decimalsKilopascal,
                errorKelvin,
                certificateKelvin,
                driftKelvin,
                errorKilopascal,
                certificateKilopascal,
                driftKilopascal);
    }

    public Instrumentation withDecimals(int kelvin, int kilopascal) {
        return new Instrumentation(
                noiseKelvin,
                noiseKilopascal,
                kelvin,
                kilopascal,
                errorKelvin,
                certificateKelvin,
                driftKelvin,
                errorKilopascal,
                certificateKilopascal,
                driftKilopascal);
    }
}
