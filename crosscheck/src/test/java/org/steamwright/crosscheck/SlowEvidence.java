package org.steamwright.crosscheck;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.TestRun;

/** Whether the evidence can carry a verdict, criterion by criterion, from the definitions. */
final class SlowEvidence {

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
    }

    private void put(Map<CriterionId, SlowFinding> findings, CriterionId id, Outcome outcome) {
        boolean isAsked = set.requirements().containsKey(id)
                && set.requirements().get(id).use() != Use.OFF
                && set.requirements().get(id).use() != Use.REPORTS;
        findings.put(id, SlowFinding.of(id, isAsked ? outcome : Outcome.NOT_ASSESSED));
    }

    private Outcome samplingInterval() {
        Optional<Limit> limit = Optional.ofNullable(set.requirements().get(CriterionId.SAMPLING_INTERVAL))
                .flatMap(Requirement::limit);
        if (limit.isEmpty()) {
            return Outcome.NOT_ASSESSED;
        }
        double longest = judged.stream().mapToDouble(SlowPoint::usualStep).max().orElse(Double.NaN);
        return SlowFinding.meets(longest, limit.get()) ? Outcome.PASS : Outcome.FAIL;
    }

    private Outcome calibrationValid() {
        if (run.trace().start().isEmpty()) {
            return Outcome.INVALID;
        }
        double last = run.trace().channels().stream()
                .mapToDouble(channel -> channel.axis().last())
                .max()
                .orElseThrow();
        LocalDate day = run.trace()
                .start()
                .get()
                .plusNanos(Math.round(last * 1e9))
                .atZone(run.trace().zone())
                .toLocalDate();
        SlowCorrection correction = new SlowCorrection(run, set);
        for (Channel channel : run.trace().channels()) {
            if (channel.role() == ChannelRole.AMBIENT) {
                continue;
            }
            Optional<CalibrationCertificate> certificate = correction.certificate(channel);
            if (certificate.isEmpty()
                    || day.isBefore(certificate.get().calibratedOn())
                    || day.isAfter(certificate.get().dueOn())) {
                return Outcome.INVALID;
            }
        }
        return Outcome.PASS;
    }

    private Outcome calibrationRange() {
        if (plateaus.isEmpty()) {
            return Outcome.NOT_ASSESSED;
        }
        SlowCorrection correction = new SlowCorrection(run, set);
        for (Channel channel : run.trace().channels()) {
            for (SlowPoint point : points) {
                if (!point.name().equals(channel.name()) || channel.role() == ChannelRole.AMBIENT) {
                    continue;
                }
                Optional<CalibrationCertificate> certificate = correction.certificate(channel);
                if (certificate.isEmpty()) {
                    return Outcome.INVALID;
                }
                for (double value : point.indicated()
                        .subMap(plateaus.get(0).reached, true, plateaus.get(0).end, true)
                        .values()) {
                    if (value < certificate.get().lowest()
                            || value > certificate.get().highest()) {
                        return Outcome.INVALID;
                    }
                }
            }
        }
        return Outcome.PASS;
    }

    private Outcome recordingComplete() {
        List<SlowPoint> reference = judged.stream()
                .filter(point -> point.role() == ChannelRole.REFERENCE_POINT)
                .limit(1)
                .toList();
        if (reference.isEmpty() || plateaus.isEmpty()) {
            return Outcome.INVALID;
        }
        boolean isBelowBefore = reference.get(0).samples().firstEntry().getValue() < sterilizingCelsius;
        boolean isBelowAfter = reference.get(0).samples().tailMap(plateaus.get(0).end, false).values().stream()
                .anyMatch(value -> value < sterilizingCelsius - 1.0);
        return isBelowBefore && isBelowAfter ? Outcome.PASS : Outcome.INVALID;
    }
}
