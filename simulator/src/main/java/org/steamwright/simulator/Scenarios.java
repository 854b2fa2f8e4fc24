package org.steamwright.simulator;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.TestKind;

/** Random scenarios for campaigns: the same seed gives the same scenario everywhere. */
public final class Scenarios {
    /** Sterilization temperatures that random scenarios use, in degree Celsius. */
    public static final List<Double> STERILIZING_CELSIUS = List.of(121.0, 126.0, 132.0, 134.0);

    /** Kinds of faults that {@link #randomFaulty(long)} draws from, each as likely as the other. */
    public static final List<Class<? extends Fault>> KINDS = List.of(
            Fault.ShortHold.class,
            Fault.Dip.class,
            Fault.Overshoot.class,
            Fault.SlowPack.class,
            Fault.ResidualAir.class,
            Fault.ColdPlace.class,
            Fault.UnevenChamber.class,
            Fault.Superheat.class,
            Fault.PressureError.class,
            Fault.GaugeDeclaredAbsolute.class,
            Fault.AbsoluteDeclaredGauge.class,
            Fault.WrongBarometer.class,
            Fault.ExpiredCertificate.class,
            Fault.NarrowCertificate.class,
            Fault.StuckSensor.class,
            Fault.OpenCircuit.class,
            Fault.RangeEnd.class,
            Fault.MissingSamples.class,
            Fault.EndsInHold.class,
            Fault.StartsLate.class,
            Fault.CoarseSampling.class,
            Fault.MissingPulses.class,
            Fault.ShallowPulse.class,
            Fault.ShortDrying.class,
            Fault.ClockOffset.class,
            Fault.UnstablePlateau.class,
            Fault.FastExhaust.class,
            Fault.Leak.class);

    private static final long GOOD_PURPOSE = 71;
    private static final long FAULT_PURPOSE = 72;
    private static final long LEAK_PURPOSE = 73;
    private static final List<ZoneId> ZONES = List.of(
            ZoneId.of("Australia/Sydney"),
            ZoneId.of("Pacific/Auckland"),
            ZoneId.of("Europe/London"),
            ZoneId.of("Europe/Berlin"),
            ZoneId.of("UTC"));
    private static final Instant EARLIEST = Instant.parse("2026-01-05T00:00:00Z");
    private static final long SECONDS_OF_TWO_YEARS = 63_000_000L;

    private Scenarios() {}

    /**
     * A cycle that meets the limits of the usual criteria sets with margins of at least twice the expanded uncertainty:
     * holding time, band of 3 K, equilibration within 15 s, spread and difference to the theoretical temperature within
     * 2 K, fluctuation within 1 K, rate of pressure change within 1000 kPa/min. Pressure is always recorded.
     */
    public static Scenario randomGood(long seed) {
        return randomGood(seed, STERILIZING_CELSIUS);
    }

    /**
     * The same, for sterilization temperatures that the criteria set at hand knows.
     *
     * @param temperatures to draw from, each one of {@link #STERILIZING_CELSIUS}
     */
    public static Scenario randomGood(long seed, List<Double> temperatures) {
        Randomness random = Randomness.of(seed, GOOD_PURPOSE);
        double celsius = temperatures.get(random.below(temperatures.size()));
        CycleProgram program = random.chance(0.2) ? gravity(random, celsius) : vacuum(random, celsius);
        List<MeasuringPoint> points = new ArrayList<>();
        int count = 1 + random.below(6);
        TestKind kind = count >= 2 && random.chance(0.5) ? TestKind.LOADED : TestKind.EMPTY_CHAMBER;
        boolean hasPack = kind == TestKind.LOADED && random.chance(0.8);
        for (int i = 0; i < count; i++) {
            ChannelRole role = i == 0
                    ? ChannelRole.REFERENCE_POINT
                    : kind == TestKind.EMPTY_CHAMBER
                            ? ChannelRole.FREE_CHAMBER
                            : i == count - 1 && hasPack ? ChannelRole.CHALLENGE_PACK : ChannelRole.LOAD;
            points.add(point(random, i, role));
        }
        return new Scenario(
                "good-" + seed,
                kind,
                program,
                points,
                instrumentation(random),
                logging(random),
                surroundings(random),
                List.of());
    }

    /** A leak test that meets 0.13 kPa/min with room. */
    public static Scenario randomGoodLeakTest(long seed) {
        return leakTest(seed, "good-leak-" + seed);
    }

    /** A run with one fault of a random kind, of a size clearly beyond its limit. */
    public static Scenario randomFaulty(long seed) {
        Randomness random = Randomness.of(seed, FAULT_PURPOSE);
        return randomFaulty(seed, KINDS.get(random.below(KINDS.size())));
    }

    /**
     * The same, of a given kind.
     *
     * @param kind one of {@link #KINDS}
     */
    public static Scenario randomFaulty(long seed, Class<? extends Fault> kind) {
        return randomFaulty(seed, kind, STERILIZING_CELSIUS);
    }

    /**
     * The same, for sterilization temperatures that the criteria set at hand knows.
     *
     * @param kind one of {@link #KINDS}
     * @param temperatures to draw from, each one of {@link #STERILIZING_CELSIUS}
     */
    public static Scenario randomFaulty(long seed, Class<? extends Fault> kind, List<Double> temperatures) {
        String id = "faulty-" + kind.getSimpleName().toLowerCase(java.util.Locale.ROOT) + "-" + seed;
        Randomness random = Randomness.of(seed, FAULT_PURPOSE + 1_000L * (KINDS.indexOf(kind) + 1));
        if (kind == Fault.Leak.class) {
            return leakTest(seed, id).withFaults(new Fault.Leak(random.between(0.2, 1.5)));
        }
        Scenario good = randomGood(seed, temperatures).withId(id);
        CycleProgram program = (CycleProgram) good.program();
        boolean needsVacuum = kind == Fault.MissingPulses.class
                || kind == Fault.ShallowPulse.class
                || kind == Fault.ShortDrying.class;
        if (needsVacuum) {
            program = vacuum(random, program.sterilizingCelsius());
        }
        if (kind == Fault.MissingPulses.class && program.vacuumPulses() < 2) {
            program = program.withVacuumPulses(3, 12, 170);
        }
        boolean needsOthers = kind == Fault.SlowPack.class
                || kind == Fault.ResidualAir.class
                || kind == Fault.ColdPlace.class
                || kind == Fault.UnevenChamber.class
                || kind == Fault.ClockOffset.class;
        if (needsOthers && good.points().size() < 2) {
            List<MeasuringPoint> points = new ArrayList<>(good.points());
            points.add(point(random, 1, ChannelRole.CHALLENGE_PACK));
            good = good.withPoints(TestKind.LOADED, points);
        }
        int lowest = needsOthers ? 1 : 0;
        String point = good.points()
                .get(lowest + random.below(good.points().size() - lowest))
                .name();
        double plateau = program.plateauSeconds();
        double celsius = program.sterilizingCelsius();
        Fault fault;
        if (kind == Fault.ShortHold.class) {
            fault = new Fault.ShortHold(random.between(15, 60));
        } else if (kind == Fault.Dip.class) {
            fault = new Fault.Dip(
                    point, random.between(0.8, 3), random.between(5, 20), plateau * random.between(0.42, 0.55));
        } else if (kind == Fault.Overshoot.class) {
            fault = new Fault.Overshoot(random.between(5, 7), random.between(20, 40), random.between(10, 20));
        } else if (kind == Fault.SlowPack.class) {
            program = program.withPlateauSeconds(program.declaredHoldSeconds() + 12);
            fault = new Fault.SlowPack(point, random.between(20, 40));
        } else if (kind == Fault.ResidualAir.class) {
            double lasting = random.between(0.05, 0.14);
            fault = new Fault.ResidualAir(
                    point,
                    new MeasuringPoint.Air(lasting + random.between(0.1, 0.25), lasting, random.between(10, 40)));
        } else if (kind == Fault.ColdPlace.class) {
            fault = new Fault.ColdPlace(point, random.between(1.5, 4));
        } else if (kind == Fault.UnevenChamber.class) {
            double above = random.between(3.0, 3.3);
            fault = new Fault.UnevenChamber(point, random.between(2.5, above - 0.4), above);
        } else if (kind == Fault.Superheat.class) {
            fault = new Fault.Superheat(random.between(2.8, 6));
        } else if (kind == Fault.PressureError.class) {
            fault = new Fault.PressureError((random.chance(0.5) ? 1 : -1) * random.between(3.5, 6));
        } else if (kind == Fault.GaugeDeclaredAbsolute.class) {
            fault = new Fault.GaugeDeclaredAbsolute();
        } else if (kind == Fault.AbsoluteDeclaredGauge.class) {
            fault = new Fault.AbsoluteDeclaredGauge();
        } else if (kind == Fault.WrongBarometer.class) {
            // declared at sea level, true at 3,100 m or higher: at least 2.9 K of theoretical temperature
            good = good.withSurroundings(Surroundings.of(101.3));
            fault = new Fault.WrongBarometer(random.between(62, 69));
        } else if (kind == Fault.ExpiredCertificate.class) {
            fault = new Fault.ExpiredCertificate(point, 1 + random.below(400));
        } else if (kind == Fault.NarrowCertificate.class) {
            fault = new Fault.NarrowCertificate(point);
        } else if (kind == Fault.StuckSensor.class) {
            fault = new Fault.StuckSensor(point, random.between(20, 40));
        } else if (kind == Fault.OpenCircuit.class) {
            fault = new Fault.OpenCircuit(point, plateau * random.between(0.3, 0.5), random.between(15, 60));
        } else if (kind == Fault.RangeEnd.class) {
            fault = new Fault.RangeEnd(point, celsius + 0.2);
        } else if (kind == Fault.MissingSamples.class) {
            fault = new Fault.MissingSamples(plateau * random.between(0.35, 0.5), random.between(15, 60));
        } else if (kind == Fault.EndsInHold.class) {
            fault = new Fault.EndsInHold(program.declaredHoldSeconds() * random.between(0.3, 0.9));
        } else if (kind == Fault.StartsLate.class) {
            // without pulses before it, only a start in the plateau takes anything away
            fault = new Fault.StartsLate(random.between(program.vacuumPulses() == 0 ? 5 : -15, 20));
        } else if (kind == Fault.CoarseSampling.class) {
            fault = new Fault.CoarseSampling(15 + 5 * random.below(4));
        } else if (kind == Fault.MissingPulses.class) {
            fault = new Fault.MissingPulses(1);
        } else if (kind == Fault.ShallowPulse.class) {
            fault = new Fault.ShallowPulse(1 + random.below(program.vacuumPulses()), random.between(50, 75));
        } else if (kind == Fault.ShortDrying.class) {
            program = program.withDrying(random.between(240, 420), program.dryingKilopascal());
            fault = new Fault.ShortDrying(random.between(20, 60));
        } else if (kind == Fault.ClockOffset.class) {
            fault = new Fault.ClockOffset(point, (random.chance(0.5) ? 1 : -1) * (double) (90 + 10 * random.below(7)));
        } else if (kind == Fault.UnstablePlateau.class) {
            fault = new Fault.UnstablePlateau(random.between(1.5, 1.6), random.between(30, 60), 1.75);
        } else if (kind == Fault.FastExhaust.class) {
            fault = new Fault.FastExhaust(random.between(1.5, 4));
        } else {
            throw new IllegalArgumentException("no random fault of kind " + kind.getName());
        }
        return good.withProgram(program).withFaults(fault);
    }

    private static CycleProgram vacuum(Randomness random, double celsius) {
        int pulses = 1 + random.below(5);
        int positive = pulses == 1 ? 2 + random.below(2) : random.chance(0.15) ? 1 + random.below(3) : 0;
        double depth = pulses == 1 ? random.between(4, 6) : pulses == 2 ? random.between(5, 11) : random.between(5, 22);
        double height = random.between(130, 188);
        return common(
                        random,
                        pulses >= 3
                                ? CycleProgram.b134().named("B " + (int) celsius)
                                : CycleProgram.s134().named("S " + (int) celsius),
                        celsius)
                .withVacuumPulses(pulses, depth, height)
                .withPositivePulses(positive)
                .withConditioningSeconds(celsius >= 126 && random.chance(0.15) ? random.between(60, 180) : 0)
                .withRates(random.between(0.2, 0.8), random.between(15, 28), random.between(18, 30))
                .withDrying(random.between(120, 420), random.between(6, 14))
                .withStart(random.between(20, 60), random.between(22, 70));
    }

    private static CycleProgram gravity(Randomness random, double celsius) {
        return common(random, CycleProgram.n121().named("N " + (int) celsius), celsius)
                .withRates(random.between(0.2, 0.6), 18, random.between(18, 30))
                .withStart(random.between(20, 60), random.between(22, 60));
    }

    private static CycleProgram common(Randomness random, CycleProgram base, double celsius) {
        double hold = celsius < 124 ? 900 : celsius < 130 ? 600 : celsius < 133 ? 240 : 180;
        if (celsius > 133 && random.chance(0.1)) {
            hold = random.chance(0.5) ? 300 : 1080;
        }
        Ripple.Shape shape = random.chance(0.5) ? Ripple.Shape.SINE : Ripple.Shape.SAWTOOTH;
        return base.withTemperature(celsius, hold)
                .withPlateauSeconds(hold + random.between(30, 70))
                .withSetPointAbove(random.between(0.52, 0.62))
                .withRipple(new Ripple(shape, random.between(0, 0.08), random.between(8, 40)));
    }

    private static MeasuringPoint point(Randomness random, int index, ChannelRole role) {
        double item = role == ChannelRole.LOAD
                ? random.between(0, 2)
                : role == ChannelRole.CHALLENGE_PACK ? random.between(0.5, 2.5) : 0;
        String letter = String.valueOf((char) ('A' + index));
        return new MeasuringPoint(
                "T" + (index + 1),
                role,
                new Position(letter, ""),
                "TL-0" + (index + 1),
                Simulation.MAIN_LOGGER,
                item,
                random.between(0.3, 0.8),
                random.between(-0.08, 0.05),
                MeasuringPoint.Air.NONE);
    }

    private static Instrumentation instrumentation(Randomness random) {
        return new Instrumentation(
                random.between(0.004, 0.025),
                random.between(0.02, 0.1),
                random.chance(0.3) ? 1 : 2,
                random.chance(0.5) ? 1 : 2,
                0.3,
                random.between(0.04, 0.06),
                random.between(0.02, 0.04),
                0.5,
                random.between(0.2, 0.3),
                random.between(0.1, 0.3));
    }

    private static Logging logging(Randomness random) {
        double interval = random.chance(0.6) ? 1 : random.chance(0.5) ? 0.5 : 2;
        return new Logging(
                interval,
                EARLIEST.plusSeconds((long) (random.uniform() * SECONDS_OF_TWO_YEARS)),
                ZONES.get(random.below(ZONES.size())),
                true,
                random.chance(0.3) ? PressureReference.GAUGE : PressureReference.ABSOLUTE,
                Map.of());
    }

    private static Surroundings surroundings(Randomness random) {
        double ambient =
                Ambient.ofAltitude(random.between(0, 1800)).pressure().kilopascal() + random.between(-1.5, 1.5);
        return new Surroundings(ambient, Ambient.barometer(Math.rint(ambient * 10) / 10));
    }

    private static Scenario leakTest(long seed, String id) {
        Randomness random = Randomness.of(seed, LEAK_PURPOSE);
        LeakProgram program = LeakProgram.ofRate(random.between(0.0, 0.08))
                .withPeriods(random.between(3.5, 6.5), 300 + 10 * random.below(13), 600)
                .withWater(random.between(0, 0.3), random.between(20, 45))
                .withTemperature(random.between(25, 60), random.between(-0.02, 0.02));
        Logging logging = logging(random);
        return Scenario.leakTest(0)
                .withId(id)
                .withProgram(program)
                .withLogging(logging.withPressure(PressureReference.ABSOLUTE))
                .withSurroundings(surroundings(random));
    }
}
