package org.steamwright.simulator;

import org.steamwright.assessment.calibration.Correction;
import org.steamwright.assessment.calibration.ReferenceInstrument;

/**
 * One channel with all that lies between the quantity in the chamber and the number in the file.
 *
 * <p>Not immutable data but the inside of a {@link SimulatedRun}; never handed out.
 */
final class SimulatedChannel {
    private final double[] body;
    private final SensorError error;
    private final ReferenceInstrument instrument;
    private final int[] steps;
    private final double[] indicated;
    private final int usualStride;
    private final double added;
    private final double subtracted;

    /**
     * @param body true quantity at every model step
     * @param error of the sensor today
     * @param instrument with its certificate
     * @param steps model steps at which it was sampled, rising
     * @param indicated numbers as written, NaN for none
     * @param usualStride usual distance of the samples in steps; what lies farther apart is a gap
     * @param subtracted what the sensor takes off before it shows anything: the true ambient pressure of a gauge sensor
     * @param added what the assessment is told to add after correction: the declared ambient pressure of a gauge channel
     */
    SimulatedChannel(
            double[] body,
            SensorError error,
            ReferenceInstrument instrument,
            int[] steps,
            double[] indicated,
            int usualStride,
            double subtracted,
            double added) {
        this.body = body;
        this.error = error;
        this.instrument = instrument;
        this.steps = steps;
        this.indicated = indicated;
        this.usualStride = usualStride;
        this.subtracted = subtracted;
        this.added = added;
    }

    double[] body() {
        return body;
    }

    int[] steps() {
        return steps;
    }

    double[] indicated() {
        return indicated;
    }

    ReferenceInstrument instrument() {
        return instrument;
    }

    /**
     * The continuous indicated signal after correction, at every model step: what the sensor would have shown with the
     * noise and rounding of the samples in straight lines between them; NaN before, after, in gaps and beside missing
     * values.
     */
    double[] correctedSignal(int size) {
        Correction correction = Correction.of(instrument.certificate().orElseThrow());
        double[] signal = new double[size];
        java.util.Arrays.fill(signal, Double.NaN);
        for (int k = 0; k < steps.length; k++) {
            double disturbance = indicated[k] - exact(steps[k]);
            signal[steps[k]] = correction.correct(indicated[k]) + added;
            if (k + 1 < steps.length && steps[k + 1] - steps[k] <= usualStride) {
                double next = indicated[k + 1] - exact(steps[k + 1]);
                int between = steps[k + 1] - steps[k];
                for (int j = 1; j < between; j++) {
                    double value = exact(steps[k] + j) + disturbance + (next - disturbance) * j / between;
                    signal[steps[k] + j] = correction.correct(value) + added;
                }
            }
        }
        return signal;
    }

    private double exact(int step) {
        double value = body[step] - subtracted;
        return value + error.at(value);
    }
}
