package org.steamwright.simulator;

import static org.steamwright.assessment.criteria.CriterionId.AIR_REMOVAL_PULSES;
import static org.steamwright.assessment.criteria.CriterionId.CALIBRATION_RANGE;
import static org.steamwright.assessment.criteria.CriterionId.CALIBRATION_VALID;
import static org.steamwright.assessment.criteria.CriterionId.DRYING_TIME;
import static org.steamwright.assessment.criteria.CriterionId.EQUILIBRATION_TIME;
import static org.steamwright.assessment.criteria.CriterionId.HIGHEST_TEMPERATURE;
import static org.steamwright.assessment.criteria.CriterionId.LEAK_RATE;
import static org.steamwright.assessment.criteria.CriterionId.MINIMUM_HOLDING_TIME;
import static org.steamwright.assessment.criteria.CriterionId.PRESSURE_CHANGE_RATE;
import static org.steamwright.assessment.criteria.CriterionId.PRESSURE_KIND;
import static org.steamwright.assessment.criteria.CriterionId.RECORDING_COMPLETE;
import static org.steamwright.assessment.criteria.CriterionId.SAMPLING_INTERVAL;
import static org.steamwright.assessment.criteria.CriterionId.SATURATION_DIFFERENCE;
import static org.steamwright.assessment.criteria.CriterionId.SENSORS_ALIVE;
import static org.steamwright.assessment.criteria.CriterionId.TEMPERATURE_FLUCTUATION;
import static org.steamwright.assessment.criteria.CriterionId.TEMPERATURE_SPREAD;

import java.util.Set;
import org.steamwright.assessment.criteria.CriterionId;

/**
 * Something that is wrong with a run, planted on purpose.
 *
 * <p>'After' in a component's name counts seconds from the moment at which the steam first reaches the sterilization
 * temperature. A point is named by its channel.
 */
public sealed interface Fault {

    /**
     * The criteria that name this fault once it is clearly larger than the limits: where a criteria set lets one of them
     * decide and has a limit for it, at least one of them must not pass. A set that asks for none of them can't be
     * expected to see the fault.
     */
    Set<CriterionId> expected();

    /** The steam leaves too early: the plateau is so many seconds shorter than the declared holding time. */
    record ShortHold(double missingSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(MINIMUM_HOLDING_TIME);
        }
    }

    /** One point falls below the sterilization temperature by up to so much, for so long. */
    record Dip(String point, double kelvin, double seconds, double afterSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(MINIMUM_HOLDING_TIME);
        }
    }

    /** The steam climbs so far above the sterilization temperature and comes back. */
    record Overshoot(double peakAboveKelvin, double seconds, double afterSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(HIGHEST_TEMPERATURE);
        }
    }

    /** A point that follows the steam with another time constant: a dense pack. */
    record SlowPack(String point, double itemSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(EQUILIBRATION_TIME, MINIMUM_HOLDING_TIME);
        }
    }

    /** Air stays in a place: late and cold. */
    record ResidualAir(String point, MeasuringPoint.Air air) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(EQUILIBRATION_TIME, MINIMUM_HOLDING_TIME);
        }
    }

    /** A place that is colder than the steam by so much, without air. */
    record ColdPlace(String point, double kelvin) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(MINIMUM_HOLDING_TIME);
        }
    }

    /** The chamber is held high above the sterilization temperature and one place is much colder, yet inside the band. */
    record UnevenChamber(String point, double kelvin, double setPointAboveKelvin) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(TEMPERATURE_SPREAD);
        }
    }

    /** The steam is hotter than its pressure allows; the controller holds its temperature. */
    record Superheat(double kelvin) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(SATURATION_DIFFERENCE);
        }
    }

    /**
     * The pressure sensor has an error that grows with pressure, unknown to its certificate; at the sterilization
     * temperature it is worth so many kelvin of theoretical temperature.
     */
    record PressureError(double kelvin) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(SATURATION_DIFFERENCE);
        }
    }

    /** Gauge readings are declared absolute and the file doesn't contradict. */
    record GaugeDeclaredAbsolute() implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(PRESSURE_KIND);
        }
    }

    /** Absolute readings are declared gauge and the file doesn't contradict. */
    record AbsoluteDeclaredGauge() implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(PRESSURE_KIND);
        }
    }

    /** A gauge sensor at a site whose true ambient pressure differs from the declared one. */
    record WrongBarometer(double trueKilopascal) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(SATURATION_DIFFERENCE);
        }
    }

    /** The certificate of a point's instrument ended so many days before the run. */
    record ExpiredCertificate(String point, int daysAgo) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(CALIBRATION_VALID);
        }
    }

    /** The certificate of a point's instrument ends below the sterilization temperature. */
    record NarrowCertificate(String point) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(CALIBRATION_RANGE);
        }
    }

    /**
     * From that moment on a point shows the same value for ever. Stuck in the plateau, a reference measurement point
     * looks as well like a recording that ends in the hold.
     */
    record StuckSensor(String point, double afterSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(SENSORS_ALIVE, RECORDING_COMPLETE);
        }
    }

    /** A point has no value for a while. */
    record OpenCircuit(String point, double afterSeconds, double seconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(SENSORS_ALIVE, RECORDING_COMPLETE, MINIMUM_HOLDING_TIME);
        }
    }

    /** A point's range ends at so many degrees Celsius: all above is written as the end of the range. */
    record RangeEnd(String point, double celsius) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(SENSORS_ALIVE, CALIBRATION_RANGE);
        }
    }

    /** Samples are missing. */
    record MissingSamples(double afterSeconds, double seconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(RECORDING_COMPLETE, MINIMUM_HOLDING_TIME);
        }
    }

    /** The recording ends so many seconds into the plateau. */
    record EndsInHold(double afterSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(RECORDING_COMPLETE, MINIMUM_HOLDING_TIME);
        }
    }

    /** The recording starts so many seconds into the plateau; before it if negative. */
    record StartsLate(double afterSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(RECORDING_COMPLETE, AIR_REMOVAL_PULSES);
        }
    }

    /** Samples are too far apart. */
    record CoarseSampling(double intervalSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(SAMPLING_INTERVAL);
        }
    }

    /** So many of the declared vacuum pulses are left out. */
    record MissingPulses(int count) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(AIR_REMOVAL_PULSES);
        }
    }

    /** One vacuum pulse, counted from 1, ends at a higher pressure. */
    record ShallowPulse(int number, double kilopascal) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(AIR_REMOVAL_PULSES);
        }
    }

    /** The vacuum drying ends after so many seconds although a longer one is declared. */
    record ShortDrying(double seconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(DRYING_TIME);
        }
    }

    /** The clock of the logger that a point belongs to alone is fast by so many seconds. */
    record ClockOffset(String point, double seconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(EQUILIBRATION_TIME, MINIMUM_HOLDING_TIME);
        }
    }

    /** The controller swings widely about another set-point. */
    record UnstablePlateau(double amplitudeKelvin, double periodSeconds, double setPointAboveKelvin) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(TEMPERATURE_FLUCTUATION);
        }
    }

    /** The exhaust opens with a short time constant. */
    record FastExhaust(double exhaustSeconds) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(PRESSURE_CHANGE_RATE);
        }
    }

    /** Air leaks in during a leak test. */
    record Leak(double kilopascalPerMinute) implements Fault {
        @Override
        public Set<CriterionId> expected() {
            return Set.of(LEAK_RATE);
        }
    }
}
