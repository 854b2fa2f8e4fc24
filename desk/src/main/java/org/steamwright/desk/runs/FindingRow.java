package org.steamwright.desk.runs;

import java.util.Optional;
import org.steamwright.assessment.criteria.Evidence;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.report.plot.Moments;

/**
 * A finding as it stands beside the curves.
 *
 * @param place number among the findings of the run, from 0, by which the curves know it
 * @param id of the criterion
 * @param title for people
 * @param outcome word
 * @param frame name of the word's frame
 * @param use word of what the finding counts for
 * @param isDeciding whether it counts for the verdict
 * @param sentence what was found and why
 * @param required limit; blank if there is none
 * @param measured figure; blank if there is none
 * @param interval ends of its doubt; blank without doubt
 * @param source where the limit is laid down
 * @param where moment or stretch, in minutes and seconds; blank if it has no place on the curve
 * @param ruler margin
 */
public record FindingRow(
        int place,
        String id,
        String title,
        String outcome,
        String frame,
        String use,
        boolean isDeciding,
        String sentence,
        String required,
        String measured,
        String interval,
        String source,
        String where,
        Optional<Ruler> ruler) {

    static FindingRow of(int place, Finding finding) {
        return new FindingRow(
                place,
                finding.id().word(),
                finding.id().title(),
                finding.outcome().words(),
                frame(finding.outcome().words()),
                finding.use().word(),
                finding.use() == Use.DECIDES,
                finding.sentence(),
                finding.limit().map(Limit::toString).orElse(""),
                finding.printedMeasured(),
                finding.measured().map(figure -> interval(finding, figure)).orElse(""),
                finding.limit().map(Limit::source).orElse(finding.source()).citation(),
                where(finding.evidence()),
                finding.outcome() == Outcome.NOT_ASSESSED ? Optional.empty() : Ruler.of(finding));
    }

    private static String interval(Finding finding, Figure figure) {
        return figure.low() < figure.high()
                ? finding.printed(figure.low()) + " … " + finding.printed(figure.high())
                : "";
    }

    private static String where(Evidence evidence) {
        if (evidence.atSeconds().isPresent()) {
            return Moments.minutes(evidence.atSeconds().getAsDouble());
        }
        return evidence.fromSeconds().isPresent() && evidence.toSeconds().isPresent()
                ? Moments.minutes(evidence.fromSeconds().getAsDouble()) + " – "
                        + Moments.minutes(evidence.toSeconds().getAsDouble())
                : "";
    }

    /** How the frame of a verdict word is called in the style sheet. */
    static String frame(String word) {
        return word.replace(' ', '-');
    }

    /** Whether the curves can show it. */
    public boolean isOnCurve() {
        return !where.isEmpty();
    }
}
