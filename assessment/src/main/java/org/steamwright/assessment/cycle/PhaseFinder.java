package org.steamwright.assessment.cycle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Troughs;

/**
 * Divides a cycle into its phases around a plateau that is already known: evacuations before it, exhaust and drying after
 * it.
 *
 * <p>Works on pressure where it was recorded, otherwise on the reference measurement point, where evacuations can be
 * missed. Evacuations are turning points that stand out by {@link #PULSE_KILOPASCAL}; ripple is smaller. All thresholds
 * are our own choice, no source; no criterion compares with them.
 */
public final class PhaseFinder {

    /** How far a turning point of the pressure has to stand out, in kilopascal. */
    public static final double PULSE_KILOPASCAL = 15.0;

    /** How far a turning point of the temperature has to stand out, in kelvin. */
    public static final double PULSE_KELVIN = 6.0;

    /** An evacuation goes below this share of the ambient pressure; a higher trough lies between positive pulses. */
    public static final double EVACUATION_SHARE = 0.8;

    private static final double DEPARTURE_KILOPASCAL = 3.0;
    private static final double EXHAUSTED_KILOPASCAL = 10.0;
    private static final double EXHAUSTED_CELSIUS = 105.0;
    private static final double AERATED_SHARE = 0.9;
    private static final double CONDITIONING_KELVIN = 1.0;
    private static final double CONDITIONING_SECONDS = 20.0;
    private static final double CONDITIONING_BELOW_KELVIN = 3.0;
    private static final double STEAM_CELSIUS = 100.0;

    private final CorrectedChannel reference;
    private final Optional<CorrectedChannel> pressure;
    private final double ambientKilopascal;
    private final double sterilizingCelsius;

    /**
     * @param reference the reference measurement point
     * @param pressure chamber pressure, absolute
     * @param ambientKilopascal ambient pressure of the day
     * @param sterilizingCelsius lower limit of the band
     */
    public PhaseFinder(
            CorrectedChannel reference,
            Optional<CorrectedChannel> pressure,
            double ambientKilopascal,
            double sterilizingCelsius) {
        this.reference = reference;
        this.pressure = pressure;
        this.ambientKilopascal = ambientKilopascal;
        this.sterilizingCelsius = sterilizingCelsius;
    }

    /** The phases; without a plateau only what came before the highest temperature. */
    public Phases find(Optional<Plateau> plateau) {
        CorrectedChannel signal = pressure.orElse(reference);
        boolean isPressure = pressure.isPresent();
        double begin = signal.axis().first();
        double reached = plateau.map(Plateau::reachedSeconds).orElseGet(this::momentOfHighest);
        List<Pulse> pulses = pulses(signal, isPressure, reached);
        List<Phase> phases = new ArrayList<>();
        double heatingFrom = begin;
        if (!pulses.isEmpty()) {
            heatingFrom = pulses.get(pulses.size() - 1).depthSeconds();
            phases.add(new Phase(Phase.Kind.AIR_REMOVAL, departure(signal, pulses.get(0), isPressure), heatingFrom));
        }
        addHeating(phases, heatingFrom, reached);
        plateau.ifPresent(found -> {
            phases.add(new Phase(Phase.Kind.PLATEAU, found.reachedSeconds(), found.endSeconds()));
            addExhaustAndDrying(phases, signal, isPressure, found.endSeconds());
        });
        return new Phases(isPressure ? Quantity.PRESSURE : Quantity.TEMPERATURE, phases, pulses);
    }

    private double momentOfHighest() {
        int highest = 0;
        for (int i = 1; i < reference.size(); i++) {
            if (!(reference.at(i) <= reference.at(highest))) {
                highest = i;
            }
        }
        return reference.axis().at(highest);
    }

    /** Turning points before the plateau, as pulses: each low one with the highest value up to the next. */
    private List<Pulse> pulses(CorrectedChannel signal, boolean isPressure, double reached) {
        double prominence = isPressure ? PULSE_KILOPASCAL : PULSE_KELVIN;
        List<Integer> troughs = troughs(signal, prominence, reached);
        List<Pulse> pulses = new ArrayList<>();
        int end = signal.axis().indexAtOrBefore(reached);
        for (int n = 0; n < troughs.size(); n++) {
            int trough = troughs.get(n);
            int next = n + 1 < troughs.size() ? troughs.get(n + 1) : end;
            int crest = trough;
            for (int i = trough; i <= next; i++) {
                if (signal.at(i) > signal.at(crest)) {
                    crest = i;
                }
            }
            pulses.add(new Pulse(
                    isPressure ? Quantity.PRESSURE : Quantity.TEMPERATURE,
                    signal.at(trough),
                    signal.axis().at(trough),
                    signal.at(crest),
                    signal.axis().at(crest)));
        }
        return pulses;
    }

    /** Indices of the low turning points: a fall by the prominence before, a rise by it afterwards. */
    private static List<Integer> troughs(CorrectedChannel signal, double prominence, double until) {
        return Troughs.find(signal::at, signal.axis().indexAtOrBefore(until) + 1, prominence);
    }

    private static double departure(CorrectedChannel signal, Pulse first, boolean isPressure) {
        TimeAxis axis = signal.axis();
        double start = signal.at(0);
        int i = axis.indexAtOrBefore(first.depthSeconds());
        while (i > 0 && signal.at(i) < start - (isPressure ? DEPARTURE_KILOPASCAL : CONDITIONING_KELVIN)) {
            i--;
        }
        return axis.at(i);
    }

    /** Heating up to the plateau, with a conditioning step apart if the temperature stood still on the way. */
    private void addHeating(List<Phase> phases, double from, double reached) {
        TimeAxis axis = reference.axis();
        double heatingFrom = from;
        int i = axis.indexAtOrAfter(from);
        while (i < reference.size() && axis.at(i) < reached) {
            double level = reference.at(i);
            int j = i;
            while (j + 1 < reference.size()
                    && axis.at(j + 1) < reached
                    && Math.abs(reference.at(j + 1) - level) <= CONDITIONING_KELVIN) {
                j++;
            }
            boolean isConditioning = level >= STEAM_CELSIUS
                    && level <= sterilizingCelsius - CONDITIONING_BELOW_KELVIN
                    && axis.at(j) - axis.at(i) >= CONDITIONING_SECONDS
                    && isStandstill(from, i, j, reached);
            if (isConditioning) {
                if (axis.at(i) > heatingFrom) {
                    phases.add(new Phase(Phase.Kind.HEATING, heatingFrom, axis.at(i)));
                }
                phases.add(new Phase(Phase.Kind.CONDITIONING, axis.at(i), axis.at(j)));
                heatingFrom = axis.at(j);
                i = j;
            }
            i++;
        }
        if (reached > heatingFrom) {
            phases.add(new Phase(Phase.Kind.HEATING, heatingFrom, reached));
        }
    }

    /**
     * Whether the temperature stood still and then went on: a quarter of the usual rate of this heating at most, and at
     * least twice that rate afterwards. A slow ramp and one that levels off towards the plateau are no standstill.
     */
    private boolean isStandstill(double from, int begin, int end, double reached) {
        double here = rate(reference.axis().at(begin), reference.axis().at(end));
        double usual = rate(from, reached);
        double after = rate(reference.axis().at(end), reached);
        return here <= usual / 4 && after >= 2 * here;
    }

    /** Mean rate of the reference point between two moments, in kelvin per second. */
    private double rate(double from, double to) {
        int first = reference.axis().indexAtOrAfter(from);
        int last = reference.axis().indexAtOrBefore(to);
        return (reference.at(last) - reference.at(first))
                / (reference.axis().at(last) - reference.axis().at(first));
    }

    private void addExhaustAndDrying(List<Phase> phases, CorrectedChannel signal, boolean isPressure, double from) {
        TimeAxis axis = signal.axis();
        int first = axis.indexAtOrAfter(from);
        if (first >= signal.size() - 1) {
            return;
        }
        double exhausted = isPressure ? ambientKilopascal + EXHAUSTED_KILOPASCAL : EXHAUSTED_CELSIUS;
        int i = first;
        while (i < signal.size() && !(signal.at(i) <= exhausted)) {
            i++;
        }
        int end = Math.min(i, signal.size() - 1);
        phases.add(new Phase(Phase.Kind.EXHAUST, from, axis.at(end)));
        if (i >= signal.size() - 1) {
            return;
        }
        int dry = signal.size() - 1;
        if (isPressure) {
            boolean isUnderVacuum = false;
            for (int j = end; j < signal.size(); j++) {
                if (signal.at(j) < EVACUATION_SHARE * ambientKilopascal) {
                    isUnderVacuum = true;
                    dry = j;
                } else if (isUnderVacuum && signal.at(j) < AERATED_SHARE * ambientKilopascal) {
                    dry = j;
                }
            }
        }
        phases.add(new Phase(Phase.Kind.DRYING, axis.at(end), axis.at(dry)));
    }
}
