package org.steamwright.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * What really happened in a simulated run, for comparison with what an assessment finds.
 *
 * <p>There are two truths, and they answer different questions. The <b>physical</b> one takes the temperature that each
 * sensor's own body had (item and sensor lag included, they are part of what is measured), without noise, resolution
 * or error of the instrument. The <b>indicated</b> one takes the continuous signal that the samples were taken from:
 * body temperature plus error of the instrument plus noise and rounding, which exist at the sampling moments and run
 * in straight lines between them, brought through the certificate's correction. A sampled holding time can exceed the
 * physical one by noise, but the indicated one only by a dip that hides between two samples.
 *
 * <p>All moments are seconds on the trace's clock, as a logger whose clock is right would stamp them. Signals are straight
 * lines between the model's steps.
 */
public final class Truth {
    private static final double SECONDS_PER_MINUTE = 60;
    private static final double LN_10 = StrictMath.log(10);

    private final Scenario scenario;
    private final double zero;
    private final int size;
    private final ChamberModel chamber;
    private final List<SimulatedChannel> temperatures;
    private final Optional<SimulatedChannel> pressure;
    private final double[] kilopascal;

    Truth(
            Scenario scenario,
            double zero,
            ChamberModel chamber,
            List<SimulatedChannel> temperatures,
            Optional<SimulatedChannel> pressure) {
        this.scenario = scenario;
        this.zero = zero;
        this.chamber = chamber;
        this.temperatures = List.copyOf(temperatures);
        this.pressure = pressure;
        this.size = chamber.size();
        this.kilopascal = chamber.total();
    }

    /** When the steam reached the sterilization temperature; empty for a leak test. */
    public Optional<Double> steamReachedSeconds() {
        return Optional.of(chamber.plateauFrom() - zero).filter(moment -> !Double.isNaN(moment));
    }

    /** When the exhaust opened; empty for a leak test. */
    public Optional<Double> exhaustSeconds() {
        return Optional.of(chamber.plateauTo() - zero).filter(moment -> !Double.isNaN(moment));
    }

    /** When each vacuum pulse ended. */
    public List<Double> pulseBottomSeconds() {
        return chamber.pulseBottoms().stream().map(moment -> moment - zero).toList();
    }

    /** When the chamber was isolated; empty unless a leak test. */
    public Optional<Double> isolatedSeconds() {
        return Optional.of(chamber.isolated() - zero).filter(moment -> !Double.isNaN(moment));
    }

    /**
     * The plateau by body temperatures.
     *
     * @param bandWidth upper limit above the sterilization temperature in kelvin; infinite for none
     */
    public PlateauTruth physicalPlateau(double bandWidth) {
        return scan(temperatures.stream().map(SimulatedChannel::body).toList(), bandWidth, Optional.empty());
    }

    /**
     * The plateau by the continuous indicated signal after correction.
     *
     * @param bandWidth upper limit above the sterilization temperature in kelvin; infinite for none
     * @param theoretical formula by which the theoretical temperature has to stay inside the band too; empty for no
     *     such demand, and without effect where no pressure was recorded
     */
    public PlateauTruth indicatedPlateau(double bandWidth, Optional<SaturationCurve> theoretical) {
        Optional<double[]> computed = theoretical.flatMap(curve -> pressure.map(channel -> {
            double[] celsius = channel.correctedSignal(size);
            for (int i = 0; i < size; i++) {
                celsius[i] = curve.celsiusAt(celsius[i]);
            }
            return celsius;
        }));
        return scan(
                temperatures.stream()
                        .map(channel -> channel.correctedSignal(size))
                        .toList(),
                bandWidth,
                computed);
    }

    private PlateauTruth scan(List<double[]> rows, double bandWidth, Optional<double[]> theoretical) {
        if (!(scenario.program() instanceof CycleProgram program)) {
            return new PlateauTruth(Optional.empty(), Optional.empty(), Optional.empty(), List.of());
        }
        List<String> names = new ArrayList<>();
        List<double[]> judged = new ArrayList<>();
        int reference = 0;
        for (int i = 0; i < rows.size(); i++) {
            MeasuringPoint point = scenario.points().get(i);
            if (point.role().isJudgedAgainstBand()) {
                if (point.role() == ChannelRole.REFERENCE_POINT) {
                    reference = judged.size();
                }
                names.add(point.name());
                judged.add(rows.get(i));
            }
        }
        theoretical.ifPresent(celsius -> {
            names.add("theoretical");
            judged.add(celsius);
        });
        double low = program.sterilizingCelsius();
        return new PlateauScan(-zero, ChamberModel.STEP, size, judged).find(names, reference, low, low + bandWidth);
    }

    /**
     * Lethality of a point's body temperature over the whole run, in minutes.
     *
     * @param point name of the channel
     * @param referenceCelsius reference temperature in degree Celsius
     * @param z in kelvin
     */
    public double lethalityMinutes(String point, double referenceCelsius, double z) {
        return lethalityMinutes(point, referenceCelsius, z, -zero, (size - 1) * ChamberModel.STEP - zero);
    }

    /** Lethality of a point's body temperature between two moments, in minutes; trapezoids at the model's step. */
    public double lethalityMinutes(
            String point, double referenceCelsius, double z, double fromSeconds, double toSeconds) {
        double[] body = temperatures.get(index(point)).body();
        int from = Math.max(0, (int) Math.round((fromSeconds + zero) / ChamberModel.STEP));
        int to = Math.min(size - 1, (int) Math.round((toSeconds + zero) / ChamberModel.STEP));
        double sum = 0;
        for (int i = from; i <= to; i++) {
            double rate = StrictMath.exp(LN_10 * (body[i] - referenceCelsius) / z);
            sum += i == from || i == to ? rate / 2 : rate;
        }
        return sum * ChamberModel.STEP / SECONDS_PER_MINUTE;
    }

    /** Temperature of a point's body in degree Celsius; the nearest step, the ends outside the run. */
    public double celsiusAt(String point, double seconds) {
        return temperatures.get(index(point)).body()[step(seconds)];
    }

    /** Absolute pressure in the chamber in kilopascal; the nearest step, the ends outside the run. */
    public double kilopascalAt(double seconds) {
        return kilopascal[step(seconds)];
    }

    /** Share of air in the gas of the free chamber; the nearest step, the ends outside the run. */
    public double airShareAt(double seconds) {
        int step = step(seconds);
        return 1 - chamber.steam()[step] / kilopascal[step];
    }

    /** Share of air that never left a point's place. */
    public double lastingAirShare(String point) {
        return scenario.points().get(index(point)).air().lasting();
    }

    /** Rise of pressure by leaking air in kilopascal per minute, as planted; empty unless a leak test. */
    public Optional<Double> leakKilopascalPerMinute() {
        return scenario.program() instanceof LeakProgram program
                ? Optional.of(program.leakKilopascalPerMinute())
                : Optional.empty();
    }

    /**
     * Rise of the true pressure in the measuring period in kilopascal per minute: leak, late evaporation and change of
     * temperature together; empty unless a leak test.
     */
    public Optional<Double> riseKilopascalPerMinute() {
        if (!(scenario.program() instanceof LeakProgram program)) {
            return Optional.empty();
        }
        double settled = chamber.isolated() + program.settlingSeconds();
        double end = settled + program.measuringSeconds();
        double rise = kilopascalAt(end - zero) - kilopascalAt(settled - zero);
        return Optional.of(rise * SECONDS_PER_MINUTE / program.measuringSeconds());
    }

    private int step(double seconds) {
        return (int) Math.max(0, Math.min(size - 1, Math.round((seconds + zero) / ChamberModel.STEP)));
    }

    private int index(String point) {
        for (int i = 0; i < scenario.points().size(); i++) {
            if (scenario.points().get(i).name().equals(point)) {
                return i;
            }
        }
        throw new IllegalArgumentException("no point " + point + " in scenario " + scenario.id());
    }
}
