package org.steamwright.simulator;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.steam.IapwsR797;

/** A scenario after its faults have acted on it; what they do to single readings is asked here. */
final class Effective {
    private static final double NORMAL_AMBIENT = PressureUnit.ATMOSPHERE.toKilopascal(1);

    final Scenario scenario;
    /** As declared before any fault. */
    final CycleDefinition declared;

    private final ChamberModel.Disturbance disturbance;

    private Effective(Scenario scenario, CycleDefinition declared, ChamberModel.Disturbance disturbance) {
        this.scenario = scenario;
        this.declared = declared;
        this.disturbance = disturbance;
    }

    static Effective of(Scenario planned) {
        Program program = planned.program();
        List<MeasuringPoint> points = new ArrayList<>(planned.points());
        Logging logging = planned.logging();
        Surroundings surroundings = planned.surroundings();
        double superheat = 0;
        Fault.Overshoot overshoot = new Fault.Overshoot(0, 1, 0);
        Fault.ShallowPulse shallow = new Fault.ShallowPulse(0, 0);
        for (Fault fault : planned.faults()) {
            if (fault instanceof Fault.Leak leak) {
                if (!(program instanceof LeakProgram test)) {
                    throw new IllegalArgumentException("scenario " + planned.id() + ": a leak needs a leak test");
                }
                program = test.withRate(leak.kilopascalPerMinute());
            } else if (program instanceof CycleProgram cycle) {
                program = changed(cycle, fault);
            }
            if (fault instanceof Fault.SlowPack slow) {
                replace(planned, points, slow.point(), p -> p.withItemSeconds(slow.itemSeconds()));
            } else if (fault instanceof Fault.ResidualAir air) {
                replace(planned, points, air.point(), p -> p.withAir(air.air()));
            } else if (fault instanceof Fault.ColdPlace cold) {
                replace(planned, points, cold.point(), p -> p.withOffset(-cold.kelvin()));
            } else if (fault instanceof Fault.UnevenChamber uneven) {
                replace(planned, points, uneven.point(), p -> p.withOffset(-uneven.kelvin()));
            } else if (fault instanceof Fault.ClockOffset offset) {
                String own = "own-" + offset.point();
                replace(planned, points, offset.point(), p -> p.withLogger(own));
                Map<String, Double> offsets = new HashMap<>(logging.clockOffsets());
                offsets.put(own, offset.seconds());
                logging = logging.withClockOffsets(offsets);
            } else if (fault instanceof Fault.CoarseSampling coarse) {
                logging = logging.withInterval(coarse.intervalSeconds());
            } else if (fault instanceof Fault.GaugeDeclaredAbsolute) {
                logging = logging.withPressure(PressureReference.GAUGE);
            } else if (fault instanceof Fault.AbsoluteDeclaredGauge) {
                logging = logging.withPressure(PressureReference.ABSOLUTE);
            } else if (fault instanceof Fault.WrongBarometer wrong) {
                logging = logging.withPressure(PressureReference.GAUGE);
                surroundings = new Surroundings(wrong.trueKilopascal(), surroundings.declared());
            } else if (fault instanceof Fault.Superheat hot) {
                superheat = hot.kelvin();
            } else if (fault instanceof Fault.Overshoot peak) {
                overshoot = peak;
            } else if (fault instanceof Fault.ShallowPulse pulse) {
                shallow = pulse;
            }
        }
        return new Effective(
                new Scenario(
                        planned.id(),
                        planned.kind(),
                        program,
                        points,
                        planned.instrumentation(),
                        logging,
                        surroundings,
                        planned.faults()),
                planned.program().definition(),
                new ChamberModel.Disturbance(
                        superheat,
                        overshoot.peakAboveKelvin(),
                        overshoot.seconds(),
                        overshoot.afterSeconds(),
                        shallow.number(),
                        shallow.kilopascal()));
    }

    private static CycleProgram changed(CycleProgram cycle, Fault fault) {
        if (fault instanceof Fault.ShortHold hold) {
            return cycle.withPlateauSeconds(cycle.declaredHoldSeconds() - hold.missingSeconds());
        }
        if (fault instanceof Fault.MissingPulses missing) {
            return cycle.withVacuumPulses(
                    cycle.vacuumPulses() - missing.count(), cycle.depthKilopascal(), cycle.heightKilopascal());
        }
        if (fault instanceof Fault.ShortDrying drying) {
            return cycle.withDrying(drying.seconds(), cycle.dryingKilopascal());
        }
        if (fault instanceof Fault.UnstablePlateau unstable) {
            return cycle.withSetPointAbove(unstable.setPointAboveKelvin())
                    .withRipple(new Ripple(Ripple.Shape.SINE, unstable.amplitudeKelvin(), unstable.periodSeconds()));
        }
        if (fault instanceof Fault.UnevenChamber uneven) {
            return cycle.withSetPointAbove(uneven.setPointAboveKelvin());
        }
        if (fault instanceof Fault.FastExhaust exhaust) {
            return cycle.withRates(cycle.heatingKelvinPerSecond(), cycle.pumpSeconds(), exhaust.exhaustSeconds());
        }
        return cycle;
    }

    private interface Change {
        MeasuringPoint of(MeasuringPoint point);
    }

    private static void replace(Scenario scenario, List<MeasuringPoint> points, String name, Change change) {
        for (int i = 0; i < points.size(); i++) {
            if (points.get(i).name().equals(name)) {
                points.set(i, change.of(points.get(i)));
                return;
            }
        }
        throw new IllegalArgumentException("scenario " + scenario.id() + ": a fault names no point " + name);
    }

    ChamberModel.Disturbance disturbance() {
        return disturbance;
    }

    /** Whether the file stays silent about absolute or gauge. */
    boolean isPressureKindHidden() {
        return scenario.faults().stream()
                .anyMatch(fault ->
                        fault instanceof Fault.GaugeDeclaredAbsolute || fault instanceof Fault.AbsoluteDeclaredGauge);
    }

    /** What the technician says about the pressure. */
    PressureReference declaredReference() {
        PressureReference real = scenario.logging().pressureReference();
        return isPressureKindHidden()
                ? real == PressureReference.GAUGE ? PressureReference.ABSOLUTE : PressureReference.GAUGE
                : real;
    }

    /** Unknown gain of the pressure sensor, so large that the planted error in kelvin arises at the set-point. */
    double pressureGain() {
        double gain = 0;
        for (Fault fault : scenario.faults()) {
            if (fault instanceof Fault.PressureError error && scenario.program() instanceof CycleProgram cycle) {
                double truth = IapwsR797.INSTANCE.kilopascalAt(cycle.setPointCelsius());
                double shown = IapwsR797.INSTANCE.kilopascalAt(cycle.setPointCelsius() + error.kelvin());
                gain = (shown - truth) / (truth - NORMAL_AMBIENT);
            }
        }
        return gain;
    }

    boolean isNarrow(String point) {
        return scenario.faults().stream()
                .anyMatch(fault -> fault instanceof Fault.NarrowCertificate narrow
                        && narrow.point().equals(point));
    }

    /** End of a point's range in degree Celsius; NaN where the fault wasn't planted. */
    double rangeEnd(String point) {
        double end = Double.NaN;
        for (Fault fault : scenario.faults()) {
            if (fault instanceof Fault.RangeEnd range && range.point().equals(point)) {
                end = range.celsius();
            }
        }
        return end;
    }

    boolean isStuck(String point, double inPlateau) {
        for (Fault fault : scenario.faults()) {
            if (fault instanceof Fault.StuckSensor stuck
                    && stuck.point().equals(point)
                    && inPlateau >= stuck.afterSeconds()) {
                return true;
            }
        }
        return false;
    }

    boolean isOpen(String point, double inPlateau) {
        for (Fault fault : scenario.faults()) {
            if (fault instanceof Fault.OpenCircuit open
                    && open.point().equals(point)
                    && inPlateau >= open.afterSeconds()
                    && inPlateau < open.afterSeconds() + open.seconds()) {
                return true;
            }
        }
        return false;
    }

    /** Whether the loggers were running so many seconds after the steam reached the sterilization temperature. */
    boolean isSampled(double inPlateau) {
        for (Fault fault : scenario.faults()) {
            if (fault instanceof Fault.MissingSamples gap
                    && inPlateau > gap.afterSeconds()
                    && inPlateau < gap.afterSeconds() + gap.seconds()) {
                return false;
            }
            if (fault instanceof Fault.EndsInHold end && inPlateau > end.afterSeconds()) {
                return false;
            }
            if (fault instanceof Fault.StartsLate late && inPlateau < late.afterSeconds()) {
                return false;
            }
        }
        return true;
    }
}
