package org.steamwright.simulator;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.Temperature;

/**
 * A sterilization cycle.
 *
 * @param name as the sterilizer calls it
 * @param type B, N or S; type N has no vacuum pump, drives the air out by steam and has no vacuum drying
 * @param sterilizingCelsius lower limit of the sterilization temperature band
 * @param declaredHoldSeconds holding time that is declared
 * @param plateauSeconds from the steam's first reaching the sterilization temperature to the opening of the exhaust
 * @param vacuumPulses evacuations before the plateau; 0 for type N
 * @param depthKilopascal absolute pressure at which an evacuation ends
 * @param heightKilopascal absolute pressure at which the steam injection after an evacuation ends
 * @param positivePulses further pulses that stay above ambient pressure
 * @param conditioningSeconds time at 121 °C before the sterilization temperature; 0 for none
 * @param setPointAboveKelvin set-point above the sterilization temperature
 * @param ripple of the controller
 * @param heatingKelvinPerSecond fastest rise of the steam temperature
 * @param pumpSeconds time constant of the vacuum pump
 * @param exhaustSeconds time constant of the exhaust
 * @param dryingSeconds time under vacuum after the exhaust; 0 for none
 * @param dryingKilopascal absolute pressure of the vacuum drying
 * @param idleSeconds open door before and after the cycle
 * @param startCelsius temperature of chamber and load at the start
 */
public record CycleProgram(
        String name,
        CycleType type,
        double sterilizingCelsius,
        double declaredHoldSeconds,
        double plateauSeconds,
        int vacuumPulses,
        double depthKilopascal,
        double heightKilopascal,
        int positivePulses,
        double conditioningSeconds,
        double setPointAboveKelvin,
        Ripple ripple,
        double heatingKelvinPerSecond,
        double pumpSeconds,
        double exhaustSeconds,
        double dryingSeconds,
        double dryingKilopascal,
        double idleSeconds,
        double startCelsius)
        implements Program {

    /** Declared depths and drying times leave the machine some room. */
    private static final double DECLARED_DEPTH_ROOM = 1.2;

    private static final double DECLARED_DRYING_SHARE = 0.9;

    public CycleProgram {
        if (vacuumPulses < 0 || positivePulses < 0) {
            throw new IllegalArgumentException("cycle " + name + ": a number of pulses is not negative");
        }
        if (type == CycleType.N && vacuumPulses > 0) {
            throw new IllegalArgumentException("cycle " + name + ": type N has no vacuum pulses");
        }
        if (type != CycleType.N && vacuumPulses == 0) {
            throw new IllegalArgumentException("cycle " + name + ": type " + type + " has at least one vacuum pulse");
        }
        if (!(depthKilopascal >= 2) || !(heightKilopascal > depthKilopascal + 10) || !(dryingKilopascal >= 2)) {
            throw new IllegalArgumentException("cycle %s: pulses from %s to %s kPa, drying at %s kPa"
                    .formatted(name, depthKilopascal, heightKilopascal, dryingKilopascal));
        }
        if (!(plateauSeconds > 0 && heatingKelvinPerSecond > 0 && pumpSeconds > 0 && exhaustSeconds > 0)) {
            throw new IllegalArgumentException("cycle " + name + ": plateau, heating, pump and exhaust take time");
        }
    }

    /** Type B, 134 °C for 3 minutes, three vacuum pulses, vacuum drying of five minutes. */
    public static CycleProgram b134() {
        return new CycleProgram(
                "B 134 / 3 min",
                CycleType.B,
                134,
                180,
                215,
                3,
                15,
                180,
                0,
                0,
                0.75,
                new Ripple(Ripple.Shape.SAWTOOTH, 0.1, 12),
                0.5,
                18,
                15,
                300,
                10,
                30,
                45);
    }

    /** Type S, 134 °C for 3 minutes, one vacuum pulse and two that stay above ambient pressure. */
    public static CycleProgram s134() {
        return new CycleProgram(
                "S 134 / 3 min",
                CycleType.S,
                134,
                180,
                215,
                1,
                5,
                180,
                2,
                0,
                0.75,
                new Ripple(Ripple.Shape.SAWTOOTH, 0.1, 12),
                0.5,
                18,
                18,
                180,
                10,
                30,
                45);
    }

    /** Type N, gravity displacement, 121 °C for 15 minutes. */
    public static CycleProgram n121() {
        return new CycleProgram(
                "N 121 / 15 min",
                CycleType.N,
                121,
                900,
                940,
                0,
                15,
                180,
                0,
                0,
                0.75,
                new Ripple(Ripple.Shape.SINE, 0.1, 20),
                0.25,
                18,
                20,
                0,
                10,
                30,
                25);
    }

    @Override
    public CycleDefinition definition() {
        return new CycleDefinition(
                name,
                type,
                Temperature.ofCelsius(sterilizingCelsius),
                Optional.of(Duration.ofMillis(Math.round(declaredHoldSeconds * 1000))),
                OptionalInt.of(vacuumPulses),
                vacuumPulses > 0 ? Optional.of(Math.rint(DECLARED_DEPTH_ROOM * depthKilopascal + 1)) : Optional.empty(),
                dryingSeconds > 0
                        ? Optional.of(Duration.ofSeconds((long) (DECLARED_DRYING_SHARE * dryingSeconds)))
                        : Optional.empty());
    }

    /** Set-point of the steam temperature in degree Celsius. */
    public double setPointCelsius() {
        return sterilizingCelsius + setPointAboveKelvin;
    }

    public CycleProgram named(String other) {
        return new Draft(this).name(other).program();
    }

    /** Another sterilization temperature with its declared holding time; the plateau keeps its surplus. */
    public CycleProgram withTemperature(double celsius, double holdSeconds) {
        return new Draft(this).temperature(celsius, holdSeconds).program();
    }

    public CycleProgram withPlateauSeconds(double seconds) {
        return new Draft(this).plateau(seconds).program();
    }

    public CycleProgram withVacuumPulses(int pulses, double depth, double height) {
        return new Draft(this).pulses(pulses, depth, height).program();
    }

    public CycleProgram withPositivePulses(int pulses) {
        return new Draft(this).positive(pulses).program();
    }

    public CycleProgram withConditioningSeconds(double seconds) {
        return new Draft(this).conditioning(seconds).program();
    }

    public CycleProgram withSetPointAbove(double kelvin) {
        return new Draft(this).setPoint(kelvin).program();
    }

    public CycleProgram withRipple(Ripple other) {
        return new Draft(this).ripple(other).program();
    }

    public CycleProgram withRates(double heating, double pump, double exhaust) {
        return new Draft(this).rates(heating, pump, exhaust).program();
    }

    public CycleProgram withDrying(double seconds, double kilopascal) {
        return new Draft(this).drying(seconds, kilopascal).program();
    }

    public CycleProgram withStart(double idle, double celsius) {
        return new Draft(this).start(idle, celsius).program();
    }

    /** The fields of a program while one of them is being replaced. */
    private static final class Draft {
        private String name;
        private final CycleType type;
        private double celsius;
        private double hold;
        private double plateau;
        private int pulses;
        private double depth;
        private double height;
        private int positive;
        private double conditioning;
        private double above;
        private Ripple ripple;
        private double heating;
        private double pump;
        private double exhaust;
        private double drying;
        private double dryingKilopascal;
        private double idle;
        private double start;

        Draft(CycleProgram from) {
            name = from.name;
            type = from.type;
            celsius = from.sterilizingCelsius;
            hold = from.declaredHoldSeconds;
            plateau = from.plateauSeconds;
            pulses = from.vacuumPulses;
            depth = from.depthKilopascal;
            height = from.heightKilopascal;
            positive = from.positivePulses;
            conditioning = from.conditioningSeconds;
            above = from.setPointAboveKelvin;
            ripple = from.ripple;
            heating = from.heatingKelvinPerSecond;
            pump = from.pumpSeconds;
            exhaust = from.exhaustSeconds;
            drying = from.dryingSeconds;
            dryingKilopascal = from.dryingKilopascal;
            idle = from.idleSeconds;
            start = from.startCelsius;
        }

        Draft name(String other) {
            name = other;
            return this;
        }

        Draft temperature(double other, double holdSeconds) {
            plateau += holdSeconds - hold;
            celsius = other;
            hold = holdSeconds;
            return this;
        }

        Draft plateau(double seconds) {
            plateau = seconds;
            return this;
        }

        Draft pulses(int count, double depthKilopascal, double heightKilopascal) {
            pulses = count;
            depth = depthKilopascal;
            height = heightKilopascal;
            return this;
        }

        Draft positive(int count) {
            positive = count;
            return this;
        }

        Draft conditioning(double seconds) {
            conditioning = seconds;
            return this;
        }

        Draft setPoint(double kelvin) {
            above = kelvin;
            return this;
        }

        Draft ripple(Ripple other) {
            ripple = other;
            return this;
        }

        Draft rates(double heatingRate, double pumpSeconds, double exhaustSeconds) {
            heating = heatingRate;
            pump = pumpSeconds;
            exhaust = exhaustSeconds;
            return this;
        }

        Draft drying(double seconds, double kilopascal) {
            drying = seconds;
            dryingKilopascal = kilopascal;
            return this;
        }

        Draft start(double idleSeconds, double startCelsius) {
            idle = idleSeconds;
            start = startCelsius;
            return this;
        }

        CycleProgram program() {
            return new CycleProgram(
                    name,
                    type,
                    celsius,
                    hold,
                    plateau,
                    pulses,
                    depth,
                    height,
                    positive,
                    conditioning,
                    above,
                    ripple,
                    heating,
                    pump,
                    exhaust,
                    drying,
                    dryingKilopascal,
                    idle,
                    start);
        }
    }
}
