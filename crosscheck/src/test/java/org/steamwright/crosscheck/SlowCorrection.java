package org.steamwright.crosscheck;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.verdict.TestRun;

/**
 * Corrected points with their expanded uncertainty, by the handbook's section 12: T = T_ind + c_cal, lines combined as
 * root of squares, k = 2, rectangular half-widths over √3, a resolution step over 2√3.
 */
final class SlowCorrection {

    private final TestRun run;
    private final SlowSteam steam;
    private final double sterilizingCelsius;

    SlowCorrection(TestRun run, CriteriaSet set) {
        this.run = run;
        this.steam = new SlowSteam(set.curve().id());
        this.sterilizingCelsius = run.cycle().sterilizingTemperature().celsius();
    }

    /** Every channel in the order of the trace, the theoretical temperature last where pressure was recorded. */
    List<SlowPoint> points() {
        List<SlowPoint> points = new ArrayList<>();
        for (Channel channel : run.trace().channels()) {
            points.add(point(channel));
        }
        for (SlowPoint point : List.copyOf(points)) {
            if (point.role() == ChannelRole.PRESSURE) {
                points.add(theoretical(point));
                break;
            }
        }
        return points;
    }

    /** The certificate of a channel's instrument. */
    Optional<CalibrationCertificate> certificate(Channel channel) {
        return instrument(channel).flatMap(ReferenceInstrument::certificate);
    }

    private Optional<ReferenceInstrument> instrument(Channel channel) {
        return channel.instrument()
                .flatMap(id -> Optional.ofNullable(run.instruments().get(id)));
    }

    private SlowPoint point(Channel channel) {
        boolean isGauge = channel.reference().equals(Optional.of(PressureReference.GAUGE));
        double ambient = isGauge ? run.ambient().pressure().kilopascal() : 0;
        Optional<CalibrationCertificate> certificate = certificate(channel);
        TreeMap<Double, Double> indicated = new TreeMap<>();
        TreeMap<Double, Double> corrected = new TreeMap<>();
        for (int i = 0; i < channel.axis().size(); i++) {
            double value = channel.column().at(i);
            indicated.put(channel.axis().at(i), value);
            double correction =
                    certificate.isPresent() ? onLine(certificate.get().points(), value) : 0;
            corrected.put(channel.axis().at(i), value + correction + ambient);
        }
        return SlowPoint.of(
                channel.name(), channel.role(), corrected, indicated, lines(channel, certificate, isGauge, ambient));
    }

    private List<SlowLine> lines(
            Channel channel, Optional<CalibrationCertificate> certificate, boolean isGauge, double ambient) {
        List<SlowLine> lines = new ArrayList<>();
        if (certificate.isEmpty()) {
            return lines;
        }
        double nominal = channel.role() == ChannelRole.PRESSURE
                ? steam.kilopascal(sterilizingCelsius) - ambient
                : sterilizingCelsius;
        List<CalibrationPoint> points = certificate.get().points();
        CalibrationPoint below = null;
        CalibrationPoint above = null;
        for (CalibrationPoint point : points) {
            if (point.indicated() < nominal) {
                below = point;
            } else if (above == null) {
                above = point;
            }
        }
        double laboratory = 0;
        double line = 0;
        if (below != null) {
            laboratory = below.expandedUncertainty() / below.coverageFactor();
        }
        if (above != null) {
            laboratory = Math.max(laboratory, above.expandedUncertainty() / above.coverageFactor());
        }
        if (below != null && above != null) {
            line = Math.abs(above.correction() - below.correction()) / 2 / Math.sqrt(3);
        }
        double resolution = channel.column().resolution() / 2 / Math.sqrt(3);
        lines.add(SlowLine.own(laboratory, false));
        lines.add(SlowLine.own(line, false));
        lines.add(SlowLine.own(resolution, true));
        for (Contribution contribution : instrument(channel).orElseThrow().contributions()) {
            lines.add(new SlowLine(
                    contribution.stated() / contribution.divisor() * contribution.sensitivity(),
                    contribution.isPerReading(),
                    contribution.correlation().group(),
                    contribution.correlation().coefficient()));
        }
        if (isGauge) {
            lines.add(SlowLine.own(run.ambient().halfWidthKilopascal() / Math.sqrt(3), false));
        }
        return lines;
    }

    private SlowPoint theoretical(SlowPoint pressure) {
        TreeMap<Double, Double> celsius = new TreeMap<>();
        pressure.samples().forEach((moment, kilopascal) -> celsius.put(moment, steam.celsius(kilopascal)));
        return SlowPoint.of(
                "theoretical",
                ChannelRole.THEORETICAL,
                celsius,
                new TreeMap<>(),
                pressure.lines().stream()
                        .map(line -> new SlowLine(
                                line.u() * steam.kelvinPerKilopascal(sterilizingCelsius),
                                line.isPerReading(),
                                line.group(),
                                line.share()))
                        .toList());
    }

    /** The correction at an indicated value: straight lines between the points, the nearest one outside. */
    private static double onLine(List<CalibrationPoint> points, double value) {
        CalibrationPoint first = points.get(0);
        CalibrationPoint last = points.get(points.size() - 1);
        if (Double.isNaN(value)) {
            return Double.NaN;
        }
        if (value <= first.indicated()) {
            return first.correction();
        }
        if (value >= last.indicated()) {
            return last.correction();
        }
        for (int i = 1; i < points.size(); i++) {
            CalibrationPoint a = points.get(i - 1);
            CalibrationPoint b = points.get(i);
            if (value >= a.indicated() && value <= b.indicated()) {
                double share = (value - a.indicated()) / (b.indicated() - a.indicated());
                return a.correction() + share * (b.correction() - a.correction());
            }
        }
        throw new IllegalStateException("no line for " + value);
    }
}
