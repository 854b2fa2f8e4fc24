package org.steamwright.assessment.plausibility;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.plausibility.Oddity.Kind;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * Looks over the channels of a thermometric run for what a good recording does not show.
 *
 * <p>Stuck sensors, missing values, known ends of ranges and gauge read as absolute are criteria of their own and not
 * repeated here.
 */
public final class Plausibility {

    /** A point this much hotter than theory, beyond its doubt, stands apart, in kelvin. */
    private static final double HOT_KELVIN = 1.0;

    /** A point this much colder than theory, beyond its doubt, stands apart, in kelvin. */
    private static final double COLD_KELVIN = 0.5;

    /** What the other points may differ from theory meanwhile, in kelvin. */
    private static final double OTHERS_KELVIN = 0.7;

    /** A free sensor that follows by more than this lags, in seconds. */
    private static final double LAG_SECONDS = 4.0;

    /** A sensor in the load that follows by less than this is as quick as a free one, in seconds. */
    private static final double QUICK_SECONDS = 1.5;

    private static final double[] FACTORS = {10, 0.1, 100, 0.01};
    private static final double FACTOR_TOLERANCE = 0.08;
    private static final double SAME_FIGURE = 1.5;

    private final CorrectedTrace trace;
    private final List<CorrectedChannel> points;
    private final Optional<Stretch> plateau;
    private final double celsius;
    private final double ambientKilopascal;
    private final SaturationCurve curve;

    /**
     * @param trace corrected
     * @param plateau of the readings; empty if there was none
     * @param celsius sterilization temperature
     * @param ambientKilopascal ambient pressure of the day
     * @param curve formula of the theoretical temperature
     */
    public Plausibility(
            CorrectedTrace trace,
            Optional<Stretch> plateau,
            double celsius,
            double ambientKilopascal,
            SaturationCurve curve) {
        this.trace = trace;
        this.points = trace.measuredInChamber();
        this.plateau = plateau;
        this.celsius = celsius;
        this.ambientKilopascal = ambientKilopascal;
        this.curve = curve;
    }

    /** Everything odd, channel by channel; none for a good recording. */
    public List<Oddity> look() {
        List<Oddity> oddities = new ArrayList<>();
        List<CorrectedChannel> looked = new ArrayList<>(points);
        trace.pressure().ifPresent(looked::add);
        for (CorrectedChannel channel : looked) {
            ValueOddities values = new ValueOddities(channel);
            values.impossible().ifPresent(oddities::add);
            values.wrapped().ifPresent(oddities::add);
            List<CorrectedChannel> witnesses = new ArrayList<>(points);
            trace.find(ChannelRole.THEORETICAL).ifPresent(witnesses::add);
            witnesses.remove(channel);
            values.spike(witnesses).ifPresent(oddities::add);
            values.flatTop(plateau, witnesses).ifPresent(oddities::add);
        }
        if (plateau.isPresent()) {
            trace.pressure().flatMap(this::wrongUnit).ifPresent(oddities::add);
            oddities.addAll(places(plateau.get()));
        }
        return List.copyOf(oddities);
    }

    // ---- the pressure against the temperature of the plateau

    private Optional<Oddity> wrongUnit(CorrectedChannel pressure) {
        double[] temperatures = points.stream()
                .mapToDouble(this::inPlateau)
                .filter(Double::isFinite)
                .toArray();
        if (temperatures.length == 0) {
            return Optional.empty();
        }
        double steam = median(temperatures);
        boolean isGauge = pressure.channel()
                .reference()
                .filter(reference -> reference == PressureReference.GAUGE)
                .isPresent();
        double indicated = inPlateau(pressure) - (isGauge ? ambientKilopascal : 0);
        double expected = curve.kilopascalAt(steam) - (isGauge ? ambientKilopascal : 0);
        for (double factor : FACTORS) {
            if (Math.abs(indicated / (expected * factor) - 1) <= FACTOR_TOLERANCE) {
                return Optional.of(odd(
                        Kind.TEN_TIMES_OFF,
                        List.of(pressure.name()),
                        String.format(
                                Locale.ROOT,
                                "Channel %s shows %.1f kPa where steam of %.1f °C has %.1f kPa: its unit is off by a factor of %s.",
                                pressure.name(),
                                indicated,
                                steam,
                                expected,
                                factor < 1 ? "1/" + Math.round(1 / factor) : Math.round(factor))));
            }
        }
        if (isFollowingAPoint(pressure)) {
            return Optional.of(odd(
                    Kind.QUANTITIES_SWAPPED,
                    List.of(pressure.name()),
                    String.format(
                            Locale.ROOT,
                            "Channel %s is declared a pressure and shows %.1f, the temperature of the plateau.",
                            pressure.name(),
                            indicated)));
        }
        return Optional.empty();
    }

    /**
     * Whether the figures of the pressure are those of a temperature from the first sample to the last. In the plateau alone
     * they may be by chance: at 124 °C steam has about 124 kPa above ambient.
     */
    private boolean isFollowingAPoint(CorrectedChannel pressure) {
        for (CorrectedChannel point : points) {
            double sum = 0;
            int count = 0;
            for (int i = 0; i < pressure.size(); i++) {
                double apart = Math.abs(pressure.channel().column().at(i)
                        - point.valueAt(pressure.axis().at(i)));
                if (!Double.isNaN(apart)) {
                    sum += apart;
                    count++;
                }
            }
            if (count > 0 && sum / count <= SAME_FIGURE) {
                return true;
            }
        }
        return false;
    }

    // ---- where the sensors seem to sit

    private List<Oddity> places(Stretch found) {
        List<Oddity> oddities = new ArrayList<>();
        Optional<CorrectedChannel> theoretical = trace.find(ChannelRole.THEORETICAL);
        if (theoretical.isEmpty() || points.size() < 2) {
            return oddities;
        }
        CorrectedChannel leader = theoretical.get();
        double steam = inPlateau(leader);
        double[] differences = new double[points.size()];
        double[] lags = new double[points.size()];
        for (int i = 0; i < differences.length; i++) {
            differences[i] = inPlateau(points.get(i)) - steam;
            lags[i] = Lag.find(points.get(i), leader, differences[i], found.fromSeconds(), celsius)
                    .orElse(Double.NaN);
        }
        for (int i = 0; i < differences.length; i++) {
            CorrectedChannel point = points.get(i);
            double doubt = point.expanded().value() + leader.expanded().value();
            if (!areOthersNear(differences, i)) {
                continue;
            }
            boolean isFree = point.role() == ChannelRole.FREE_CHAMBER || point.role() == ChannelRole.REFERENCE_POINT;
            if (differences[i] > HOT_KELVIN + doubt) {
                oddities.add(odd(
                        Kind.HOT_WALL,
                        List.of(point.name()),
                        String.format(
                                Locale.ROOT,
                                "Channel %s is %.2f K hotter than saturated steam through the plateau, while the others are not: it may touch the hot wall or heater.",
                                point.name(),
                                differences[i])));
            } else if (isFree && differences[i] < -COLD_KELVIN - doubt && lags[i] > LAG_SECONDS) {
                oddities.add(odd(
                        Kind.CONDENSATE,
                        List.of(point.name()),
                        String.format(
                                Locale.ROOT,
                                "Channel %s follows by %.1f s in heating and stays %.2f K colder than saturated steam: it may lie in condensate, or air is held there.",
                                point.name(),
                                lags[i],
                                -differences[i])));
            } else if (isFree && lags[i] > LAG_SECONDS) {
                oddities.add(odd(
                        Kind.SLOW_BODY,
                        List.of(point.name()),
                        String.format(
                                Locale.ROOT,
                                "Channel %s in free steam follows the steam by %.1f s, as a heavy body does; every arrival at it is late by that.",
                                point.name(),
                                lags[i])));
            }
        }
        swapped(lags).ifPresent(oddities::add);
        return oddities;
    }

    /** Whether the other points lie where saturated steam puts them. */
    private static boolean areOthersNear(double[] differences, int without) {
        double[] others = new double[differences.length - 1];
        int n = 0;
        for (int i = 0; i < differences.length; i++) {
            if (i != without) {
                others[n++] = Math.abs(differences[i]);
            }
        }
        return median(others) <= OTHERS_KELVIN;
    }

    /** A pack as quick as steam beside a free sensor that is not. */
    private Optional<Oddity> swapped(double[] lags) {
        for (int pack = 0; pack < lags.length; pack++) {
            for (int free = 0; free < lags.length; free++) {
                boolean isPair = points.get(pack).role() == ChannelRole.CHALLENGE_PACK
                        && (points.get(free).role() == ChannelRole.FREE_CHAMBER
                                || points.get(free).role() == ChannelRole.REFERENCE_POINT);
                if (isPair && lags[pack] < QUICK_SECONDS && lags[free] > LAG_SECONDS) {
                    String one = points.get(pack).name();
                    String other = points.get(free).name();
                    return Optional.of(odd(
                            Kind.POINTS_SWAPPED,
                            List.of(one, other),
                            String.format(
                                    Locale.ROOT,
                                    "Channel %s in the challenge pack is as quick as steam (%.1f s) and channel %s in free steam is not (%.1f s): they may be swapped.",
                                    one,
                                    lags[pack],
                                    other,
                                    lags[free])));
                }
            }
        }
        return Optional.empty();
    }

    /** Median of a channel in the plateau; NaN without a sample. */
    private double inPlateau(CorrectedChannel channel) {
        Stretch stretch = plateau.orElseThrow();
        int from = channel.axis().indexAtOrAfter(stretch.fromSeconds());
        int to = channel.axis().indexAtOrBefore(stretch.toSeconds());
        double[] values = new double[Math.max(0, to - from + 1)];
        int count = 0;
        for (int i = from; i <= to; i++) {
            if (!Double.isNaN(channel.at(i))) {
                values[count++] = channel.at(i);
            }
        }
        return median(Arrays.copyOf(values, count));
    }

    private static double median(double[] values) {
        if (values.length == 0) {
            return Double.NaN;
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private Oddity odd(Kind kind, List<String> channels, String sentence) {
        Stretch stretch = plateau.orElseThrow();
        return new Oddity(kind, channels, stretch.fromSeconds(), stretch.toSeconds(), sentence);
    }
}
