package org.steamwright.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.steam.IapwsR797;

/**
 * Pressure, steam and gas temperature of the chamber, step by step.
 *
 * <p>State: partial pressure of air, partial pressure of steam, wall temperature. A pump and an open valve take both
 * gases alike; a steam injection adds steam only; a controlled heater sets the steam's temperature and with it its
 * saturation pressure. What a dry sensor in the chamber would take is the saturation temperature while steam condenses,
 * and leans towards the wall under vacuum.
 */
final class ChamberModel {
    /** Step of the model in seconds. */
    static final double STEP = 0.1;

    private static final double ROOM_HUMIDITY_KILOPASCAL = 1.5;
    /** Below this partial pressure the boiling line ends (triple point). */
    private static final double LOWEST_STEAM_KILOPASCAL = 0.7;

    private static final double FULL_TRANSFER_KILOPASCAL = 100;
    private static final double LEAST_TRANSFER = 0.3;
    private static final double WALL_SECONDS_IN_STEAM = 60;
    private static final double WALL_SECONDS_OTHERWISE = 3000;
    private static final double ROOM_CELSIUS = 22;
    private static final double AIR_INLET_SECONDS = 14;
    private static final double AIR_INLET_DONE_KILOPASCAL = 0.3;
    private static final double INJECTION_SECONDS = 25;
    private static final double SUPPLY_FACTOR = 1.3;
    private static final double CAPTURE_SECONDS = 2.0;
    private static final double VENT_SECONDS = 25;
    private static final double VENT_AIR_SHARE = 0.002;
    private static final double POSITIVE_HEIGHT_KILOPASCAL = 190;
    private static final double POSITIVE_DEPTH_KILOPASCAL = 112;
    private static final double CONDITIONING_CELSIUS = 121;
    private static final double CONDITIONING_ABOVE = 0.5;
    private static final double SUPERHEAT_SECONDS = 5;
    private static final double DOOR_SECONDS = 15;
    private static final double DOOR_WALL_SHARE = 0.35;
    private static final double LEAK_SURPLUS_SECONDS = 10;
    private static final int MOST_STEPS = 200_000;

    /** What the faults make of a cycle. */
    record Disturbance(
            double superheatKelvin,
            double peakAbove,
            double peakSeconds,
            double peakAfter,
            int shallow,
            double shallowTo) {
        static final Disturbance NONE = new Disturbance(0, 0, 0, 0, 0, 0);
    }

    private final double ambient;
    private int size;
    private double[] total = new double[16_384];
    private double[] steam = new double[16_384];
    private double[] gas = new double[16_384];
    private double[] transfer = new double[16_384];

    private double airNow;
    private double steamNow;
    private double wallNow;
    private double superheatNow;
    private double driven;
    private final List<Double> pulseBottoms = new ArrayList<>();
    private double plateauFrom = Double.NaN;
    private double plateauTo = Double.NaN;
    private double isolated = Double.NaN;

    private ChamberModel(double ambient, double startCelsius) {
        this.ambient = ambient;
        airNow = ambient - ROOM_HUMIDITY_KILOPASCAL;
        steamNow = ROOM_HUMIDITY_KILOPASCAL;
        wallNow = startCelsius;
    }

    static ChamberModel of(CycleProgram program, double ambient, Disturbance disturbance) {
        ChamberModel model = new ChamberModel(ambient, program.startCelsius());
        model.runCycle(program, disturbance);
        return model;
    }

    static ChamberModel of(LeakProgram program, double ambient) {
        ChamberModel model = new ChamberModel(ambient, program.startCelsius());
        model.runLeakTest(program);
        return model;
    }

    int size() {
        return size;
    }

    /** Absolute pressure in kilopascal. */
    double[] total() {
        return total;
    }

    /** Partial pressure of steam in kilopascal. */
    double[] steam() {
        return steam;
    }

    /** What a quick sensor in the free chamber takes, in degree Celsius. */
    double[] gas() {
        return gas;
    }

    /** How well heat passes to a sensor, 1 in condensing steam. */
    double[] transfer() {
        return transfer;
    }

    /** Moments at which the vacuum pulses ended, in seconds. */
    List<Double> pulseBottoms() {
        return pulseBottoms;
    }

    /** Moment at which the steam reached the sterilization temperature; of a leak test NaN. */
    double plateauFrom() {
        return plateauFrom;
    }

    /** Moment at which the exhaust opened; of a leak test NaN. */
    double plateauTo() {
        return plateauTo;
    }

    /** Moment of isolation in a leak test; of a cycle NaN. */
    double isolated() {
        return isolated;
    }

    private void runCycle(CycleProgram program, Disturbance disturbance) {
        wait(program.idleSeconds());
        if (program.type() == CycleType.N) {
            vent();
        }
        for (int pulse = 1; pulse <= program.vacuumPulses(); pulse++) {
            double depth = pulse == disturbance.shallow() ? disturbance.shallowTo() : program.depthKilopascal();
            evacuate(depth, program.pumpSeconds());
            pulseBottoms.add((size - 1) * STEP);
            inject(program.heightKilopascal());
        }
        for (int pulse = 0; pulse < program.positivePulses(); pulse++) {
            inject(POSITIVE_HEIGHT_KILOPASCAL);
            release(POSITIVE_DEPTH_KILOPASCAL, program.exhaustSeconds());
        }
        if (program.conditioningSeconds() > 0) {
            heat(CONDITIONING_CELSIUS, CONDITIONING_CELSIUS + CONDITIONING_ABOVE, program.heatingKelvinPerSecond(), 0);
            hold(program, CONDITIONING_CELSIUS + CONDITIONING_ABOVE, program.conditioningSeconds(), Disturbance.NONE);
        }
        heat(
                program.sterilizingCelsius(),
                program.setPointCelsius(),
                program.heatingKelvinPerSecond(),
                disturbance.superheatKelvin());
        plateauFrom = (size - 1) * STEP;
        hold(program, program.setPointCelsius(), program.plateauSeconds(), disturbance);
        plateauTo = (size - 1) * STEP;
        release(ambient + 3, program.exhaustSeconds());
        if (program.dryingSeconds() > 0) {
            dry(program);
            letAirIn();
        } else {
            letAirIn();
        }
        openDoor(program.idleSeconds());
    }

    private void runLeakTest(LeakProgram program) {
        wait(program.idleSeconds());
        evacuate(program.depthKilopascal(), program.pumpSeconds());
        isolated = (size - 1) * STEP;
        double isolatedAir = airNow;
        double isolatedSteam = steamNow;
        double startKelvin = wallNow + Temperature.ZERO_CELSIUS_IN_KELVIN;
        int steps = (int)
                Math.round((program.settlingSeconds() + program.measuringSeconds() + LEAK_SURPLUS_SECONDS) / STEP);
        double startCelsius = wallNow;
        for (int i = 1; i <= steps; i++) {
            double minutes = i * STEP / 60;
            wallNow = startCelsius + program.kelvinPerMinute() * minutes;
            double stretch = (wallNow + Temperature.ZERO_CELSIUS_IN_KELVIN) / startKelvin;
            airNow = (isolatedAir + program.leakKilopascalPerMinute() * minutes) * stretch;
            steamNow = isolatedSteam * stretch
                    + program.waterKilopascal() * (1 - StrictMath.exp(-i * STEP / program.waterSeconds()));
            record(wallNow, LEAST_TRANSFER);
        }
        letAirIn();
        openDoor(program.idleSeconds());
    }

    private void wait(double seconds) {
        int steps = (int) Math.round(seconds / STEP);
        for (int i = 0; i < steps; i++) {
            coolWall();
            record(wallNow, LEAST_TRANSFER);
        }
    }

    /** Room air streams in: sensors fall towards a mixture of the room and the warm wall. */
    private void openDoor(double seconds) {
        int steps = (int) Math.round(seconds / STEP);
        double keep = StrictMath.exp(-STEP / DOOR_SECONDS);
        double air = gas[size - 1];
        for (int i = 0; i < steps; i++) {
            coolWall();
            double mixture = ROOM_CELSIUS + DOOR_WALL_SHARE * (wallNow - ROOM_CELSIUS);
            air = mixture + (air - mixture) * keep;
            record(air, LEAST_TRANSFER);
        }
    }

    /** Steam drives the air out of an open valve at little more than ambient pressure. */
    private void vent() {
        double keep = StrictMath.exp(-STEP / VENT_SECONDS);
        double open = ambient * 1.02;
        while (airNow > VENT_AIR_SHARE * open && size < MOST_STEPS) {
            airNow *= keep;
            steamNow = open - airNow;
            double boiling = saturation(steamNow);
            warmWall(boiling);
            record(boiling, 1);
        }
    }

    private void evacuate(double depth, double pumpSeconds) {
        double end = Math.min(2, depth / 2);
        double keep = StrictMath.exp(-STEP / pumpSeconds);
        while (airNow + steamNow > depth && size < MOST_STEPS) {
            scaleTo(end + (airNow + steamNow - end) * keep);
            coolWall();
            recordMixed();
        }
    }

    private void inject(double height) {
        double supply = SUPPLY_FACTOR * height;
        double keep = StrictMath.exp(-STEP / INJECTION_SECONDS);
        while (airNow + steamNow < height && size < MOST_STEPS) {
            double now = airNow + steamNow;
            steamNow += (supply - now) * (1 - keep);
            warmWall(saturation(steamNow));
            recordMixed();
        }
    }

    private void release(double to, double exhaustSeconds) {
        double end = to - 8;
        double keep = StrictMath.exp(-STEP / exhaustSeconds);
        while (airNow + steamNow > to && size < MOST_STEPS) {
            scaleTo(end + (airNow + steamNow - end) * keep);
            coolWall();
            recordMixed();
        }
    }

    /** Until the steam reaches a temperature on its way to a set-point. */
    private void heat(double until, double setPoint, double kelvinPerSecond, double superheatKelvin) {
        double celsius = saturation(steamNow);
        double keep = StrictMath.exp(-STEP / SUPERHEAT_SECONDS);
        while (celsius < until && size < MOST_STEPS) {
            celsius += STEP * Math.min(kelvinPerSecond, (setPoint - celsius) / CAPTURE_SECONDS);
            superheatNow = superheatKelvin + (superheatNow - superheatKelvin) * keep;
            drive(celsius, superheatNow);
        }
        driven = celsius;
    }

    private void hold(CycleProgram program, double setPoint, double seconds, Disturbance disturbance) {
        int steps = (int) Math.round(seconds / STEP);
        double base = driven;
        double capture = StrictMath.exp(-STEP / CAPTURE_SECONDS);
        double superheatKeep = StrictMath.exp(-STEP / SUPERHEAT_SECONDS);
        double bump =
                disturbance.peakAbove() > 0 ? program.sterilizingCelsius() + disturbance.peakAbove() - setPoint : 0;
        for (int i = 1; i <= steps; i++) {
            double t = i * STEP;
            base = setPoint + (base - setPoint) * capture;
            superheatNow =
                    disturbance.superheatKelvin() + (superheatNow - disturbance.superheatKelvin()) * superheatKeep;
            double celsius = base + program.ripple().at(t);
            double inPeak = (t - disturbance.peakAfter()) / disturbance.peakSeconds();
            if (bump > 0 && inPeak > 0 && inPeak < 1) {
                celsius += bump * StrictMath.sin(Math.PI * inPeak);
            }
            drive(celsius, superheatNow);
        }
    }

    private void dry(CycleProgram program) {
        int steps = (int) Math.round(program.dryingSeconds() / STEP);
        double keep = StrictMath.exp(-STEP / program.pumpSeconds());
        for (int i = 0; i < steps; i++) {
            scaleTo(program.dryingKilopascal() + (airNow + steamNow - program.dryingKilopascal()) * keep);
            coolWall();
            recordMixed();
        }
    }

    private void letAirIn() {
        double keep = StrictMath.exp(-STEP / AIR_INLET_SECONDS);
        while (Math.abs(ambient - airNow - steamNow) > AIR_INLET_DONE_KILOPASCAL && size < MOST_STEPS) {
            double now = airNow + steamNow;
            double next = ambient + (now - ambient) * keep;
            if (next > now) {
                airNow += next - now;
            } else {
                scaleTo(next);
            }
            coolWall();
            recordMixed();
        }
        // the door opens
        airNow = ambient - ROOM_HUMIDITY_KILOPASCAL;
        steamNow = ROOM_HUMIDITY_KILOPASCAL;
    }

    private void drive(double celsius, double superheat) {
        steamNow = IapwsR797.INSTANCE.kilopascalAt(celsius - superheat);
        warmWall(celsius);
        record(celsius, 1);
    }

    private void scaleTo(double kilopascal) {
        double factor = kilopascal / (airNow + steamNow);
        airNow *= factor;
        steamNow *= factor;
    }

    private void coolWall() {
        wallNow += STEP / WALL_SECONDS_OTHERWISE * (ROOM_CELSIUS - wallNow);
    }

    private void warmWall(double celsius) {
        wallNow += STEP / (celsius > wallNow ? WALL_SECONDS_IN_STEAM : WALL_SECONDS_OTHERWISE) * (celsius - wallNow);
    }

    private void recordMixed() {
        double share = Math.min(1, LEAST_TRANSFER + (1 - LEAST_TRANSFER) * steamNow / FULL_TRANSFER_KILOPASCAL);
        record(share * saturation(steamNow) + (1 - share) * wallNow, share);
    }

    private void record(double celsius, double share) {
        if (size == total.length) {
            int larger = size * 2;
            total = Arrays.copyOf(total, larger);
            steam = Arrays.copyOf(steam, larger);
            gas = Arrays.copyOf(gas, larger);
            transfer = Arrays.copyOf(transfer, larger);
        }
        total[size] = airNow + steamNow;
        steam[size] = steamNow;
        gas[size] = celsius;
        transfer[size] = share;
        size++;
    }

    private static double saturation(double kilopascal) {
        return IapwsR797.INSTANCE.celsiusAt(Math.max(kilopascal, LOWEST_STEAM_KILOPASCAL));
    }
}
