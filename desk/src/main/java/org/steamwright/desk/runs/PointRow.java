package org.steamwright.desk.runs;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.cycle.ChannelStatistics;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.report.plot.Moments;

/**
 * Figures of one measuring point.
 *
 * @param name of the channel
 * @param role word, as in a visit file
 * @param place where it sat; may be blank
 * @param unit of its figures
 * @param reached when it reached the sterilization temperature; blank if it never did or is none
 * @param lowest of the holding time, cut downwards; blank without a holding time
 * @param highest of the holding time, cut upwards
 * @param mean of the holding time
 */
public record PointRow(
        String name,
        String role,
        String place,
        String unit,
        String reached,
        String lowest,
        String highest,
        String mean) {

    private static final int DECIMALS = 2;

    static List<PointRow> of(RunEvaluation evaluation) {
        return evaluation.corrected().channels().stream()
                .map(channel -> of(evaluation, channel))
                .toList();
    }

    private static PointRow of(RunEvaluation evaluation, CorrectedChannel channel) {
        Optional<ChannelStatistics> figures = evaluation.statistics().stream()
                .filter(one -> one.channel().equals(channel.name()))
                .findFirst();
        String reached = evaluation.plateau().map(Plateau::crossings).orElse(List.of()).stream()
                .filter(crossing -> crossing.channel().equals(channel.name()))
                .map(Crossing::sampleSeconds)
                .findFirst()
                .map(Moments::minutes)
                .orElse("");
        return new PointRow(
                channel.name(),
                RoleWord.of(channel.role()),
                channel.channel().position().toString(),
                channel.role() == ChannelRole.PRESSURE ? "kPa" : "°C",
                reached,
                figures.map(one -> Figures.lowSide(one.minimum(), DECIMALS)).orElse(""),
                figures.map(one -> Figures.highSide(one.maximum(), DECIMALS)).orElse(""),
                figures.map(one -> Figures.nearest(one.mean(), DECIMALS)).orElse(""));
    }
}
