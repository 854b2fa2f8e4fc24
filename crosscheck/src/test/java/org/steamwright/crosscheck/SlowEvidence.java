package org.steamwright.crosscheck;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeSet;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.TestRun;

/** Whether the evidence can carry a verdict, criterion by criterion, from the definitions. */
final class SlowEvidence {

    /** No cycle begins hotter than this: the door was open. */
    private static final double BEFORE_HEATING_CELSIUS = 100.0;

    private final TestRun run;
    private final CriteriaSet set;
    private final List<SlowPoint> points;
    private final List<SlowPoint> judged;
    private final List<SlowPlateau> plateaus;
    private final double sterilizingCelsius;

    SlowEvidence(
            TestRun run,
            CriteriaSet set,
            List<SlowPoint> points,
            List<SlowPoint> judged,
            List<SlowPlateau> plateaus,
            double sterilizingCelsius) {
        this.run = run;
        this.set = set;
        this.points = points;
        this.judged = judged;
        this.plateaus = plateaus;
        this.sterilizingCelsius = sterilizingCelsius;
    }

    void judge(Map<CriterionId, SlowFinding> findings) {
        put(findings, CriterionId.SAMPLING_INTERVAL, samplingInterval());
        put(findings, CriterionId.CALIBRATION_VALID, calibrationValid());
        put(findings, CriterionId.CALIBRATION_RANGE, calibrationRange());
        put(findings, CriterionId.RECORDING_COMPLETE, recordingComplete());
        put(findings, CriterionId.SENSORS_ALIVE, dead().isEmpty() ? Outcome.PASS : Outcome.INVALID);
        if (plateaus.isEmpty()) {
            findings.put(CriterionId.CALIBRATION_RANGE, SlowFinding.notApplicable(CriterionId.CALIBRATION_RANGE));
        }
        if (pressure().isEmpty()) {
            findings.put(CriterionId.PRESSURE_KIND, SlowFinding.notApplicable(CriterionId.PRESSURE_KIND));
        } else {
            put(findings, CriterionId.PRESSURE_KIND, pressureKind());
        }
    }

    /** Channels that say nothing about the sterilizer, as far as the set lets us look. */
    Set<String> untrusted() {
        Set<String> untrusted = new TreeSet<>();
        for (SlowPoint point : wrong()) {
            untrusted.add(point.name());
            if (point.role() == ChannelRole.PRESSURE) {
                untrusted.add("theoretical");
            }
        }
        if (!pressure().isEmpty() && pressureKind() == Outcome.INVALID) {
            untrusted.add("theoretical");
            untrusted.add(pressure().get(0).name());
        }
        return untrusted;
    }

    private boolean isJudged(CriterionId id) {
        Requirement requirement = set.requirements().get(id);
        return requirement != null && requirement.use() != Use.OFF && requirement.use() != Use.REPORTS;
    }

    private List<SlowPoint> pressure() {
        return points.stream()
                .filter(point -> point.role() == ChannelRole.PRESSURE)
                .limit(1)
                .toList();
    }

    /**
     * With the door open, first and last sample: one of them about ambient, none about what the other kind would read.
     * 'About' is 1.5 kPa and the doubts, the house's own choice.
     */
    private Outcome pressureKind() {
        SlowPoint pressure = pressure().get(0);
        double ambient = run.ambient().pressure().kilopascal();
        double about = 1.5 + run.ambient().halfWidthKilopascal() + pressure.expanded();
        boolean isGauge = run.trace().channels().stream()
                .filter(channel -> channel.name().equals(pressure.name()))
                .anyMatch(channel -> channel.reference().equals(Optional.of(PressureReference.GAUGE)));
        double wrong = isGauge ? 2 * ambient : 0;
        double before = pressure.samples().firstEntry().getValue();
        double after = pressure.samples().lastEntry().getValue();
        boolean isWrong = Math.abs(before - wrong) <= about || Math.abs(after - wrong) <= about;
        boolean isRight = Math.abs(before - ambient) <= about || Math.abs(after - ambient) <= about;
        return isRight && !isWrong ? Outcome.PASS : Outcome.INVALID;
    }

    /** Measured points and the pressure. */
    private List<SlowPoint> looked() {
        List<SlowPoint> looked = new ArrayList<>(judged);
        looked.removeIf(point -> point.role() == ChannelRole.THEORETICAL);
        looked.addAll(pressure());
        return looked;
    }

    private double from() {
        return plateaus.isEmpty() ? reference().samples().firstKey() : plateaus.get(0).reached;
    }

    private double to() {
        return plateaus.isEmpty() ? reference().samples().lastKey() : plateaus.get(0).end;
    }

    /** Points that lack samples in the plateau, or whose samples there are wrong. */
    private List<SlowPoint> dead() {
        List<SlowPoint> dead = new ArrayList<>(wrong());
        for (SlowPoint point : looked()) {
            SortedMap<Double, Double> inside = point.samples().subMap(from(), true, to(), true);
            if (inside.isEmpty() || inside.values().stream().anyMatch(value -> Double.isNaN(value)) || hasGap(point)) {
                dead.add(point);
            }
        }
        return dead;
    }

    /** Points whose values are wrong: impossible, at the end of the range, stuck. */
    private List<SlowPoint> wrong() {
        List<SlowPoint> wrong = new ArrayList<>();
        for (SlowPoint point : looked()) {
            double ceiling = point.role() == ChannelRole.PRESSURE ? 600 : 160;
            double rangeEnd = run.trace().channels().stream()
                    .filter(channel -> channel.name().equals(point.name()))
                    .flatMap(channel -> channel.instrument().stream())
                    .map(id -> Optional.ofNullable(run.instruments().get(id)))
                    .flatMap(Optional::stream)
                    .mapToDouble(instrument -> instrument.rangeHigh())
                    .findFirst()
                    .orElse(Double.POSITIVE_INFINITY);
            boolean isOff = point.samples().subMap(from(), true, to(), true).entrySet().stream()
                    .anyMatch(sample -> sample.getValue() > ceiling
                            || sample.getValue() < 0
                            || point.indicated().getOrDefault(sample.getKey(), Double.NaN) >= rangeEnd);
            if (isOff || isStuck(point)) {
                wrong.add(point);
            }
        }
        return wrong;
    }

    /** A gap that touches the plateau. */
    private boolean hasGap(SlowPoint point) {
        Double before = null;
        for (double moment : point.samples().keySet()) {
            if (before != null && point.isGap(before, moment) && moment >= from() && before <= to()) {
                return true;
            }
            before = moment;
        }
        return false;
    }

    /**
     * One value for a minute or longer, touching the plateau, while most others (points, and the theoretical
     * temperature where a point is looked at) moved by more than 5 K; and either
     * from 10 s before the plateau to its end, or until after most others had fallen 5 K below their highest in the plateau.
     */
    private boolean isStuck(SlowPoint point) {
        List<Map.Entry<Double, Double>> all = List.copyOf(point.indicated().entrySet());
        for (int i = 0; i < all.size(); i++) {
            int j = i;
            while (j + 1 < all.size()
                    && all.get(j + 1).getValue().doubleValue()
                            == all.get(i).getValue().doubleValue()) {
                j++;
            }
            double begin = all.get(i).getKey();
            double end = all.get(j).getKey();
            i = j;
            if (end - begin < 60 || end < from() || begin > to()) {
                continue;
            }
            List<SlowPoint> others = new ArrayList<>(looked());
            others.removeIf(other -> other == point || other.role() == ChannelRole.PRESSURE);
            if (point.role() != ChannelRole.PRESSURE) {
                points.stream()
                        .filter(other -> other.role() == ChannelRole.THEORETICAL)
                        .limit(1)
                        .forEach(others::add);
            }
            long moved =
                    others.stream().filter(other -> hasMoved(other, begin, end)).count();
            long gone = others.stream().filter(other -> isGone(other, end)).count();
            boolean isThroughout = begin <= from() - 10 && end >= to();
            if (2 * moved > others.size() && (isThroughout || 2 * gone > others.size())) {
                return true;
            }
        }
        return false;
    }

    private static boolean hasMoved(SlowPoint point, double begin, double end) {
        List<Double> values = usable(point, begin, end);
        return !values.isEmpty() && Collections.max(values) - Collections.min(values) > 5;
    }

    private boolean isGone(SlowPoint point, double moment) {
        List<Double> plateau = usable(point, from(), to());
        if (plateau.isEmpty()) {
            return false;
        }
        double highest = Collections.max(plateau);
        double reached = point.samples().subMap(from(), true, to(), true).entrySet().stream()
                .filter(sample -> sample.getValue() == highest)
                .findFirst()
                .orElseThrow()
                .getKey();
        List<Double> afterwards = moment > reached ? usable(point, reached, moment) : List.of();
        return !afterwards.isEmpty() && highest - Collections.min(afterwards) > 5;
    }

    private static List<Double> usable(SlowPoint point, double begin, double end) {
        return point.samples().subMap(begin, true, end, true).values().stream()
                .filter(value -> !Double.isNaN(value))
                .toList();
    }

    private SlowPoint reference() {
        return judged.stream()
                .filter(point -> point.role() == ChannelRole.REFERENCE_POINT)
                .findFirst()
                .orElseThrow();
    }

    private void put(Map<CriterionId, SlowFinding> findings, CriterionId id, Outcome outcome) {
        findings.put(id, SlowFinding.of(id, isJudged(id) ? outcome : Outcome.NOT_ASSESSED));
    }

    private Outcome samplingInterval() {
        Optional<Limit> limit = Optional.ofNullable(set.requirements().get(CriterionId.SAMPLING_INTERVAL))
                .flatMap(Requirement::limit);
        if (limit.isEmpty()) {
            return Outcome.NOT_ASSESSED;
        }
        double longest = judged.stream().mapToDouble(SlowPoint::usualStep).max().orElse(Double.NaN);
        return SlowFinding.meets(longest, limit.get()) ? Outcome.PASS : Outcome.INVALID;
    }

    private Outcome calibrationValid() {
        if (run.trace().start().isEmpty()) {
            return Outcome.INVALID;
        }
        double last = run.trace().channels().stream()
                .mapToDouble(channel -> channel.axis().last())
                .max()
                .orElseThrow();
        double first = run.trace().channels().stream()
                .mapToDouble(channel -> channel.axis().first())
                .min()
                .orElseThrow();
        LocalDate firstDay = day(first);
        LocalDate day = day(last);
        SlowCorrection correction = new SlowCorrection(run, set);
        for (Channel channel : run.trace().channels()) {
            if (channel.role() == ChannelRole.AMBIENT) {
                continue;
            }
            Optional<CalibrationCertificate> certificate = correction.certificate(channel);
            if (certificate.isEmpty()
                    || firstDay.isBefore(certificate.get().calibratedOn())
                    || day.isAfter(certificate.get().dueOn())) {
                return Outcome.INVALID;
            }
        }
        return Outcome.PASS;
    }

    private LocalDate day(double seconds) {
        return run.trace()
                .start()
                .orElseThrow()
                .plusNanos(Math.round(seconds * 1e9))
                .atZone(run.trace().zone())
                .toLocalDate();
    }

    private Outcome calibrationRange() {
        if (plateaus.isEmpty()) {
            return Outcome.NOT_ASSESSED;
        }
        SlowCorrection correction = new SlowCorrection(run, set);
        List<Double> plateau = List.of(plateaus.get(0).reached, plateaus.get(0).end);
        Outcome worst = Outcome.PASS;
        for (Channel channel : run.trace().channels()) {
            boolean isPressure = channel.role() == ChannelRole.PRESSURE;
            List<Double> stretch = isPressure ? plateaus.get(0).holding : plateau;
            if (channel.role() == ChannelRole.AMBIENT || stretch.isEmpty()) {
                continue;
            }
            Optional<CalibrationCertificate> certificate = correction.certificate(channel);
            if (certificate.isEmpty()) {
                return Outcome.NOT_ASSESSED;
            }
            for (SlowPoint point : points) {
                if (!point.name().equals(channel.name())) {
                    continue;
                }
                for (double value : point.indicated()
                        .subMap(stretch.get(0), true, stretch.get(1), true)
                        .values()) {
                    if (value < certificate.get().lowest()
                            || value > certificate.get().highest()) {
                        worst = Outcome.INVALID;
                    }
                }
            }
        }
        return worst;
    }

    private Outcome recordingComplete() {
        SlowPoint reference = reference();
        if (plateaus.isEmpty()) {
            double highest = Double.NEGATIVE_INFINITY;
            double last = Double.NaN;
            for (double value : reference.samples().values()) {
                if (!Double.isNaN(value)) {
                    highest = Math.max(highest, value);
                    last = value;
                }
            }
            return highest > 100 && last > highest - 5 ? Outcome.INVALID : Outcome.PASS;
        }
        boolean isBelowBefore = reference.samples().headMap(plateaus.get(0).reached, false).values().stream()
                .anyMatch(value -> value < Math.min(sterilizingCelsius, BEFORE_HEATING_CELSIUS));
        boolean isBelowAfter = reference.samples().tailMap(plateaus.get(0).end, false).values().stream()
                .anyMatch(value -> value < sterilizingCelsius - 1.0);
        return isBelowBefore && isBelowAfter ? Outcome.PASS : Outcome.INVALID;
    }
}
