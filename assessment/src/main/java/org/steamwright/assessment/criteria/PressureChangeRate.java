package org.steamwright.assessment.criteria;

import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.TimeAxis;

/**
 * The fastest change of the chamber pressure in any phase, between samples at least {@link #WINDOW_SECONDS} apart.
 *
 * <p>The window keeps the resolution of the recording from looking like a fast change.
 */
public final class PressureChangeRate implements Criterion<RunEvidence> {

    /** Shortest time between the two samples, in seconds. Own choice, no source. */
    public static final double WINDOW_SECONDS = 2.0;

    private static final double SECONDS_PER_MINUTE = 60.0;

    @Override
    public CriterionId id() {
        return CriterionId.PRESSURE_CHANGE_RATE;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        if (evidence.corrected().pressure().isEmpty()) {
            return Findings.missing(requirement, "Not assessed: no pressure was recorded.");
        }
        CorrectedChannel pressure = evidence.corrected().pressure().get();
        TimeAxis axis = pressure.axis();
        double fastest = -1;
        double moment = axis.first();
        double over = WINDOW_SECONDS;
        int before = 0;
        for (int i = 1; i < pressure.size(); i++) {
            while (before + 1 < i && axis.at(i) - axis.at(before + 1) >= WINDOW_SECONDS) {
                before++;
            }
            double seconds = axis.at(i) - axis.at(before);
            double change = Math.abs(pressure.at(i) - pressure.at(before));
            if (seconds >= WINDOW_SECONDS && change / seconds > fastest) {
                fastest = change / seconds;
                moment = axis.at(i);
                over = seconds;
            }
        }
        if (fastest < 0) {
            return Findings.missing(requirement, "Not assessed: too few pressures were recorded.");
        }
        double resolution = pressure.channel().column().resolution();
        Figure figure = Figure.withDoubt(
                fastest * SECONDS_PER_MINUTE,
                resolution / over * SECONDS_PER_MINUTE,
                Unit.KILOPASCAL_PER_MINUTE,
                "resolution of both readings; the calibration cancels");
        Evidence place = Evidence.at(pressure.name(), moment, axis.first(), axis.last());
        String sentence = "The pressure changed fastest at %s, by %s."
                .formatted(
                        Figures.moment(moment),
                        Figures.shown(figure.value(), Unit.KILOPASCAL_PER_MINUTE, Comparison.AT_MOST));
        return requirement.limit().isEmpty()
                ? Findings.reported(requirement, figure, place, sentence)
                : Findings.judged(requirement, requirement.limit().get(), figure, place, sentence);
    }
}
