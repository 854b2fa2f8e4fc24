package org.steamwright.simulator;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.verdict.LeakPeriods;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;

/** Runs a scenario: the same scenario and seed give the same bytes everywhere. */
public final class Simulation {
    /** Name of the pressure channel. */
    public static final String PRESSURE = "P";

    /** Instrument id of the pressure channel of a cycle. */
    public static final String PRESSURE_INSTRUMENT = "PL-01";

    /** Instrument id of the pressure channel of a leak test. */
    public static final String VACUUM_INSTRUMENT = "VG-01";

    /** Logger that keeps the pressure. */
    public static final String MAIN_LOGGER = "L1";

    private static final double[] CYCLE_CELSIUS = {90, 110, 121, 126, 134, 138, 145};
    private static final double[] LEAK_CELSIUS = {10, 35, 60};
    private static final double[] CYCLE_KILOPASCAL = {2, 10, 50, 100, 200, 300, 400};
    private static final double[] LEAK_KILOPASCAL = {2, 5, 10, 20, 60, 110};
    private static final double GAUGE_ZERO = 100;
    private static final double COVERAGE = 2;
    private static final int CALIBRATED_DAYS_AGO = 120;
    private static final int CALIBRATION_DAYS = 365;
    private static final double SLUGGISH_UNDER_VACUUM = 4;
    private static final double DIP_EDGE_SECONDS = 1;
    private static final long NOISE_PURPOSE = 3;
    private static final long INSTRUMENT_PURPOSE = 5;

    private final Effective run;
    private final long seed;
    private final long instrumentSeed;
    private final ChamberModel chamber;

    private Simulation(Effective run, long seed, long instrumentSeed) {
        this.run = run;
        this.seed = seed;
        this.instrumentSeed = instrumentSeed;
        this.chamber = run.scenario.program() instanceof CycleProgram cycle
                ? ChamberModel.of(cycle, run.scenario.surroundings().ambientKilopascal(), run.disturbance())
                : ChamberModel.of(
                        (LeakProgram) run.scenario.program(),
                        run.scenario.surroundings().ambientKilopascal());
    }

    /**
     * Runs a scenario with instruments of its own.
     *
     * @param scenario what to run
     * @param seed of sensor errors and noise; the cycle itself doesn't depend on it
     */
    public static SimulatedRun run(Scenario scenario, long seed) {
        return run(scenario, seed, seed);
    }

    /**
     * Runs a scenario with instruments that other runs use too.
     *
     * @param scenario what to run
     * @param seed of the noise
     * @param instrumentSeed of errors and certificates: an instrument's are the same for the same id, seed and
     *     {@link Instrumentation}
     */
    public static SimulatedRun run(Scenario scenario, long seed, long instrumentSeed) {
        return new Simulation(Effective.of(scenario), seed, instrumentSeed).run();
    }

    private Randomness noise(String channel) {
        return Randomness.of(Randomness.of(seed, NOISE_PURPOSE).next(), channel.hashCode());
    }

    private Randomness errors(String instrument) {
        return Randomness.of(Randomness.of(instrumentSeed, INSTRUMENT_PURPOSE).next(), instrument.hashCode());
    }

    private String pressureInstrument() {
        return run.scenario.kind() == TestKind.LEAK ? VACUUM_INSTRUMENT : PRESSURE_INSTRUMENT;
    }

    private SimulatedRun run() {
        Scenario scenario = run.scenario;
        Logging logging = scenario.logging();
        Map<String, List<Integer>> loggers = new LinkedHashMap<>();
        if (logging.isPressureRecorded()) {
            loggers.put(MAIN_LOGGER, new ArrayList<>());
        }
        for (int i = 0; i < scenario.points().size(); i++) {
            loggers.computeIfAbsent(scenario.points().get(i).logger(), name -> new ArrayList<>())
                    .add(i);
        }
        int stride = (int) Math.round(logging.intervalSeconds() / ChamberModel.STEP);
        SimulatedChannel[] temperatures = new SimulatedChannel[scenario.points().size()];
        Optional<SimulatedChannel> pressure = Optional.empty();
        Map<String, int[]> stepsOf = new LinkedHashMap<>();
        for (String logger : loggers.keySet()) {
            stepsOf.put(logger, samplingSteps(clockSteps(logger), stride));
        }
        if (logging.isPressureRecorded()) {
            pressure = Optional.of(pressure(stepsOf.getOrDefault(MAIN_LOGGER, new int[0]), stride));
        }
        for (int i = 0; i < temperatures.length; i++) {
            MeasuringPoint point = scenario.points().get(i);
            temperatures[i] = temperature(i, stepsOf.getOrDefault(point.logger(), new int[0]), stride);
        }

        int zero = Integer.MAX_VALUE;
        for (Map.Entry<String, int[]> entry : stepsOf.entrySet()) {
            zero = Math.min(zero, entry.getValue()[0] + clockSteps(entry.getKey()));
        }
        Instant start = scenario.logging().start().plusMillis(millis(zero));
        Map<String, TimeAxis> axes = new LinkedHashMap<>();
        List<LoggerFile> files = new ArrayList<>();
        List<Trace.SourceFile> sources = new ArrayList<>();
        for (Map.Entry<String, int[]> entry : stepsOf.entrySet()) {
            String logger = entry.getKey();
            int clock = clockSteps(logger);
            int[] steps = entry.getValue();
            double[] seconds = new double[steps.length];
            for (int k = 0; k < steps.length; k++) {
                seconds[k] = millis(steps[k] + clock - zero) / 1000.0;
            }
            axes.put(logger, TimeAxis.ofSeconds(seconds));
            LoggerFile file =
                    write(logger, loggers.getOrDefault(logger, List.of()), temperatures, pressure, steps, clock);
            files.add(file);
            sources.add(new Trace.SourceFile(file.name(), file.size(), sha256(file.bytes()), true));
        }

        List<Channel> channels = new ArrayList<>();
        Map<String, ReferenceInstrument> instruments = new LinkedHashMap<>();
        for (int i = 0; i < temperatures.length; i++) {
            MeasuringPoint point = scenario.points().get(i);
            Column column = new Column(
                    point.name(),
                    Quantity.TEMPERATURE,
                    Optional.empty(),
                    Quantity.TEMPERATURE.unit(),
                    temperatures[i].indicated(),
                    unit(scenario.instrumentation().decimalsKelvin()));
            channels.add(new Channel(
                    point.name(),
                    point.role(),
                    point.position(),
                    Optional.of(point.instrument()),
                    Optional.empty(),
                    axis(axes, point.logger()),
                    column));
            instruments.put(point.instrument(), temperatures[i].instrument());
        }
        pressure.ifPresent(channel -> {
            Column column = new Column(
                    PRESSURE,
                    Quantity.PRESSURE,
                    run.isPressureKindHidden() ? Optional.empty() : Optional.of(logging.pressureReference()),
                    Quantity.PRESSURE.unit(),
                    channel.indicated(),
                    unit(scenario.instrumentation().decimalsKilopascal()));
            channels.add(new Channel(
                    PRESSURE,
                    ChannelRole.PRESSURE,
                    new Position("P", "chamber connection"),
                    Optional.of(pressureInstrument()),
                    Optional.of(run.declaredReference()),
                    axis(axes, MAIN_LOGGER),
                    column));
            instruments.put(pressureInstrument(), channel.instrument());
        });
        double zeroSeconds = millis(zero) / 1000.0;
        TestRun testRun = new TestRun(
                scenario.id(),
                scenario.kind(),
                run.declared,
                new Trace(Optional.of(start), logging.zone(), channels, sources, List.of()),
                instruments,
                scenario.surroundings().declared(),
                leakPeriods(zeroSeconds));
        return new SimulatedRun(
                scenario,
                seed,
                testRun,
                files,
                new Truth(scenario, zeroSeconds, chamber, List.of(temperatures), pressure));
    }

    private static TimeAxis axis(Map<String, TimeAxis> axes, String logger) {
        return Optional.ofNullable(axes.get(logger))
                .orElseThrow(() -> new IllegalArgumentException("no logger " + logger));
    }

    private Optional<LeakPeriods> leakPeriods(double zeroSeconds) {
        if (!(run.scenario.program() instanceof LeakProgram program)) {
            return Optional.empty();
        }
        // on samples, so that reading and truth speak of the same moments; the vacuum stands a little longer
        double interval = run.scenario.logging().intervalSeconds();
        double isolated = Math.ceil((chamber.isolated() - zeroSeconds) / interval) * interval;
        double settled = isolated + Math.ceil(program.settlingSeconds() / interval) * interval;
        return Optional.of(new LeakPeriods(
                isolated, settled, settled + Math.ceil(program.measuringSeconds() / interval) * interval));
    }

    private int clockSteps(String logger) {
        Double offset = run.scenario.logging().clockOffsets().get(logger);
        return offset == null ? 0 : (int) Math.round(offset / ChamberModel.STEP);
    }

    private int[] samplingSteps(int clock, int stride) {
        // a logger samples when its own clock shows a whole interval
        int first = Math.floorMod(-clock, stride);
        int[] steps = new int[(chamber.size() - 1 - first) / stride + 1];
        int count = 0;
        for (int step = first; step < chamber.size(); step += stride) {
            if (run.isSampled((step * ChamberModel.STEP) - chamber.plateauFrom())) {
                steps[count++] = step;
            }
        }
        if (count == 0) {
            throw new IllegalArgumentException("scenario " + run.scenario.id() + ": the faults leave no sample");
        }
        return java.util.Arrays.copyOf(steps, count);
    }

    private SimulatedChannel temperature(int index, int[] steps, int stride) {
        Scenario scenario = run.scenario;
        Instrumentation quality = scenario.instrumentation();
        MeasuringPoint point = scenario.points().get(index);
        Randomness errors = errors(point.instrument());
        SensorError error = new SensorError(
                quality.errorKelvin() * errors.between(-0.8, 0.8),
                quality.errorKelvin() * errors.between(-0.2, 0.2) / 100,
                100,
                quality.driftKelvin() * errors.between(-1, 1));
        double laboratory = quality.certificateKelvin() / COVERAGE * errors.gaussianWithin(COVERAGE);
        double top = run.rangeEnd(point.name());
        double[] references = scenario.kind() == TestKind.LEAK ? LEAK_CELSIUS : CYCLE_CELSIUS;
        if (run.isNarrow(point.name())) {
            double below = ((CycleProgram) scenario.program()).sterilizingCelsius() - 5;
            references = new double[] {below - 20, below - 10, below};
        }
        ReferenceInstrument instrument = instrument(
                point.instrument(),
                "invented data logger with Pt100 probe",
                Quantity.TEMPERATURE,
                -40,
                Double.isNaN(top) ? 150 : top,
                certificate(
                        point.instrument(),
                        references,
                        error,
                        laboratory,
                        quality.certificateKelvin(),
                        expiredBy(point)),
                quality.driftKelvin(),
                quality.noiseKelvin());
        double[] body = body(point);
        double[] indicated = new double[steps.length];
        Randomness noise = noise(point.name());
        double scale = scale(quality.decimalsKelvin());
        double stuck = Double.NaN;
        for (int k = 0; k < steps.length; k++) {
            double value = body[steps[k]];
            double shown = value + error.at(value) + quality.noiseKelvin() * noise.gaussian();
            if (shown > top) {
                shown = top;
            }
            double rounded = Math.rint(shown * scale) / scale + 0.0;
            double inPlateau = steps[k] * ChamberModel.STEP - chamber.plateauFrom();
            if (run.isStuck(point.name(), inPlateau)) {
                if (Double.isNaN(stuck)) {
                    stuck = rounded;
                }
                rounded = stuck;
            }
            indicated[k] = run.isOpen(point.name(), inPlateau) ? Double.NaN : rounded;
        }
        return new SimulatedChannel(body, error, instrument, steps, indicated, stride, 0, 0);
    }

    private Optional<Integer> expiredBy(MeasuringPoint point) {
        return run.scenario.faults().stream()
                .filter(fault -> fault instanceof Fault.ExpiredCertificate)
                .map(fault -> (Fault.ExpiredCertificate) fault)
                .filter(fault -> fault.point().equals(point.name()))
                .map(Fault.ExpiredCertificate::daysAgo)
                .findFirst();
    }

    private SimulatedChannel pressure(int[] steps, int stride) {
        Scenario scenario = run.scenario;
        Instrumentation quality = scenario.instrumentation();
        boolean isGauge = scenario.logging().pressureReference() == PressureReference.GAUGE;
        double subtracted = isGauge ? scenario.surroundings().ambientKilopascal() : 0;
        Randomness errors = errors(pressureInstrument());
        double offset = quality.errorKilopascal() * errors.between(-0.6, 0.6);
        double slope = quality.errorKilopascal() * errors.between(-0.4, 0.4) / 300;
        double drift = quality.driftKilopascal() * errors.between(-1, 1);
        SensorError known = new SensorError(offset, slope, isGauge ? 0 : GAUGE_ZERO, drift);
        double laboratory = quality.certificateKilopascal() / COVERAGE * errors.gaussianWithin(COVERAGE);
        double[] references = (scenario.kind() == TestKind.LEAK ? LEAK_KILOPASCAL : CYCLE_KILOPASCAL).clone();
        if (isGauge) {
            for (int i = 0; i < references.length; i++) {
                references[i] -= GAUGE_ZERO;
            }
        }
        ReferenceInstrument instrument = instrument(
                pressureInstrument(),
                isGauge ? "invented pressure logger, gauge" : "invented pressure logger, absolute",
                Quantity.PRESSURE,
                isGauge ? -100 : 0,
                (scenario.kind() == TestKind.LEAK ? 120 : 450) - (isGauge ? 100 : 0),
                certificate(
                        pressureInstrument(),
                        references,
                        known,
                        laboratory,
                        quality.certificateKilopascal(),
                        Optional.empty()),
                quality.driftKilopascal(),
                quality.noiseKilopascal());
        SensorError error = new SensorError(offset, slope + run.pressureGain(), isGauge ? 0 : GAUGE_ZERO, drift);
        double[] body = chamber.total();
        double[] indicated = new double[steps.length];
        Randomness noise = noise(PRESSURE);
        double scale = scale(quality.decimalsKilopascal());
        for (int k = 0; k < steps.length; k++) {
            double value = body[steps[k]] - subtracted;
            double shown = value + error.at(value) + quality.noiseKilopascal() * noise.gaussian();
            indicated[k] = Math.rint(shown * scale) / scale + 0.0;
        }
        double added = run.declaredReference() == PressureReference.GAUGE
                ? scenario.surroundings().declared().pressure().kilopascal()
                : 0;
        return new SimulatedChannel(body, error, instrument, steps, indicated, stride, subtracted, added);
    }

    private ReferenceInstrument instrument(
            String id,
            String description,
            Quantity quantity,
            double low,
            double high,
            CalibrationCertificate certificate,
            double drift,
            double noise) {
        return new ReferenceInstrument(
                id,
                description,
                quantity,
                low,
                high,
                Optional.of(certificate),
                List.of(
                        Contribution.rectangular("drift since calibration", drift, "invented instrument record"),
                        Contribution.standard(
                                        "noise of one reading",
                                        noise,
                                        Double.POSITIVE_INFINITY,
                                        "invented instrument record")
                                .perReading()));
    }

    private CalibrationCertificate certificate(
            String instrument,
            double[] references,
            SensorError error,
            double laboratory,
            double expanded,
            Optional<Integer> expiredDaysAgo) {
        LocalDate day = run.scenario
                .logging()
                .start()
                .atZone(run.scenario.logging().zone())
                .toLocalDate();
        LocalDate due = expiredDaysAgo
                .map(day::minusDays)
                .orElseGet(() -> day.plusDays(CALIBRATION_DAYS - CALIBRATED_DAYS_AGO));
        List<CalibrationPoint> points = new ArrayList<>();
        for (double reference : references) {
            double shown = reference + error.atCalibration(reference) + laboratory;
            points.add(new CalibrationPoint(reference, Math.rint(shown * 100) / 100 + 0.0, expanded, COVERAGE));
        }
        return new CalibrationCertificate(
                "INVENTED-" + instrument,
                "Invented Calibration Laboratory",
                due.minusDays(CALIBRATION_DAYS),
                due,
                points);
    }

    /** Temperature of the sensor's own body: two lags in a row behind the steam of its place. */
    private double[] body(MeasuringPoint point) {
        int size = chamber.size();
        double[] steam = chamber.steam();
        double[] gas = chamber.gas();
        double[] transfer = chamber.transfer();
        double[] body = new double[size];
        double item = gas[0];
        double sensor = gas[0];
        boolean hasAir = point.air().atPlateau() > 0 && !Double.isNaN(chamber.plateauFrom());
        int airFrom = hasAir ? (int) Math.round(chamber.plateauFrom() / ChamberModel.STEP) : 0;
        int airTo = hasAir ? (int) Math.round(chamber.plateauTo() / ChamberModel.STEP) : 0;
        double cold = 40;
        double full = run.scenario.program() instanceof CycleProgram cycle ? cycle.sterilizingCelsius() : 134;
        double itemSeconds = point.itemSeconds();
        double sensorSeconds = point.sensorSeconds();
        boolean hasItem = itemSeconds > 0;
        double fullItem = ChamberModel.STEP / (itemSeconds + ChamberModel.STEP);
        double fullSensor = ChamberModel.STEP / (sensorSeconds + ChamberModel.STEP);
        double lasting = point.air().lasting();
        double driven = point.air().atPlateau() - lasting;
        double keepAir = StrictMath.exp(-ChamberModel.STEP / point.air().seconds());
        for (int i = 0; i < size; i++) {
            double target = gas[i];
            if (hasAir && transfer[i] == 1 && i <= airTo) {
                if (i > airFrom) {
                    driven *= keepAir;
                }
                target += IapwsR797.INSTANCE.celsiusAt(steam[i] * (1 - lasting - driven))
                        - IapwsR797.INSTANCE.celsiusAt(steam[i]);
            }
            if (point.offsetKelvin() != 0) {
                target += point.offsetKelvin() * Math.max(0, Math.min(1, (gas[i] - cold) / (full - cold)));
            }
            double itemShare = fullItem;
            double sensorShare = fullSensor;
            if (transfer[i] != 1) {
                double slower = 1 + SLUGGISH_UNDER_VACUUM * (1 - transfer[i]);
                itemShare = ChamberModel.STEP / (itemSeconds * slower + ChamberModel.STEP);
                sensorShare = ChamberModel.STEP / (sensorSeconds * slower + ChamberModel.STEP);
            }
            if (hasItem) {
                item += itemShare * (target - item);
            } else {
                item = target;
            }
            sensor += sensorShare * (item - sensor);
            body[i] = sensor;
        }
        for (Fault fault : run.scenario.faults()) {
            if (fault instanceof Fault.Dip dip && dip.point().equals(point.name())) {
                dip(body, dip, full);
            }
        }
        return body;
    }

    private void dip(double[] body, Fault.Dip dip, double sterilizingCelsius) {
        double from = chamber.plateauFrom() + dip.afterSeconds();
        double to = from + dip.seconds();
        int first = (int) Math.ceil((from - DIP_EDGE_SECONDS) / ChamberModel.STEP);
        int last = (int) Math.floor((to + DIP_EDGE_SECONDS) / ChamberModel.STEP);
        for (int i = Math.max(first, 0); i <= last && i < body.length; i++) {
            double t = i * ChamberModel.STEP;
            double edge = t < from ? (from - t) / DIP_EDGE_SECONDS : t > to ? (t - to) / DIP_EDGE_SECONDS : 0;
            double inside = edge > 0
                    ? sterilizingCelsius
                    : sterilizingCelsius - dip.kelvin() * StrictMath.sin(Math.PI * (t - from) / dip.seconds());
            body[i] = edge > 0 ? sterilizingCelsius + edge * (body[i] - sterilizingCelsius) : inside;
        }
    }

    private LoggerFile write(
            String logger,
            List<Integer> points,
            SimulatedChannel[] temperatures,
            Optional<SimulatedChannel> pressure,
            int[] steps,
            int clock) {
        Scenario scenario = run.scenario;
        boolean withPressure = logger.equals(MAIN_LOGGER) && pressure.isPresent();
        CsvText csv = new CsvText(scenario.logging().start(), scenario.logging().zone());
        csv.line(LoggerFile.MARK);
        csv.line("# run: " + scenario.id());
        csv.line("# program: " + scenario.program().definition().name());
        csv.line("# logger: " + logger);
        csv.line("# seed: " + seed);
        StringBuilder header = new StringBuilder("Time");
        int width = points.size() + (withPressure ? 1 : 0);
        int[] decimals = new int[width];
        double[][] columns = new double[width][];
        for (int i = 0; i < points.size(); i++) {
            header.append(',')
                    .append(scenario.points().get(points.get(i)).name())
                    .append(" [°C]");
            decimals[i] = scenario.instrumentation().decimalsKelvin();
            columns[i] = temperatures[points.get(i)].indicated();
        }
        if (withPressure) {
            header.append(',').append(PRESSURE).append(" [kPa");
            if (!run.isPressureKindHidden()) {
                header.append(scenario.logging().pressureReference() == PressureReference.GAUGE ? " gauge" : " abs");
            }
            header.append(']');
            decimals[width - 1] = scenario.instrumentation().decimalsKilopascal();
            columns[width - 1] = pressure.get().indicated();
        }
        csv.line(header.toString());
        boolean withFraction = scenario.logging().start().toEpochMilli() % 1000 != 0
                || clock % 10 != 0
                || Math.round(scenario.logging().intervalSeconds() / ChamberModel.STEP) % 10 != 0;
        double[] values = new double[width];
        for (int k = 0; k < steps.length; k++) {
            for (int i = 0; i < width; i++) {
                values[i] = columns[i][k];
            }
            csv.row(millis(steps[k] + clock), withFraction, values, decimals);
        }
        String suffix = logger.equals(MAIN_LOGGER) ? "" : "-" + logger.toLowerCase(Locale.ROOT);
        return new LoggerFile(scenario.id() + suffix + ".csv", csv.toBytes());
    }

    private static long millis(int steps) {
        return Math.round(steps * (ChamberModel.STEP * 1000));
    }

    private static double scale(int decimals) {
        return decimals == 1 ? 10 : decimals == 2 ? 100 : 1000;
    }

    private static double unit(int decimals) {
        return 1 / scale(decimals);
    }

    private static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
