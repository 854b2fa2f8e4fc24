package org.steamwright.desk.runs;

import java.util.List;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.report.plot.Moments;
import org.steamwright.visit.AssessedRun;

/**
 * The clock of one recording, before and after the alignment.
 *
 * @param file name
 * @param stamped first sample as the logger stamped it; blank if it has elapsed time only
 * @param aligned the same on the clock of the run
 * @param offset seconds that were added; blank if the stamps were taken as they are
 * @param method how the offset was found, with its words
 * @param note why there is none although one was asked for
 */
public record ClockRow(String file, String stamped, String aligned, String offset, String method, String note) {

    private static final int DECIMALS = 2;

    static List<ClockRow> of(AssessedRun run) {
        Clocks clocks = run.evaluation().run().clocks();
        var zone = run.evaluation().run().trace().zone();
        return clocks.recordings().stream()
                .map(recording -> new ClockRow(
                        recording.file(),
                        recording
                                .stamped()
                                .map(moment -> Moments.clock(moment, zone))
                                .orElse(""),
                        recording
                                .aligned()
                                .map(moment -> Moments.clock(moment, zone))
                                .orElse(""),
                        recording
                                .offset()
                                .map(offset -> Figures.nearest(offset.secondsAtStart(), DECIMALS)
                                        + (offset.secondsAtStart() == offset.secondsAtEnd()
                                                ? ""
                                                : " … " + Figures.nearest(offset.secondsAtEnd(), DECIMALS))
                                        + " s ± " + Figures.highSide(offset.halfWidth(), DECIMALS) + " s")
                                .orElse(""),
                        recording
                                .offset()
                                .map(offset -> offset.method().words() + ": " + offset.words())
                                .orElse(""),
                        recording.note()))
                .toList();
    }
}
