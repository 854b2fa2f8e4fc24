package org.steamwright.assessment.indicator;

import java.time.LocalDate;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;

/**
 * One chemical indicator beside the thermometry. Evidence only, in either direction.
 *
 * @param id of the indicator
 * @param channel whose temperature was taken; blank if none
 * @param agreement how the colour and the temperature fit
 * @param isQuestion whether somebody has to explain it before anybody signs
 * @param sentence what was found, for people
 */
public record ChemicalComparison(String id, String channel, Agreement agreement, boolean isQuestion, String sentence) {

    /**
     * Compares one indicator.
     *
     * @param indicator what was read
     * @param channel in the same place; empty if no sensor lay there
     * @param day of the run at the site; empty if nobody told it
     */
    public static ChemicalComparison of(
            ChemicalIndicator indicator, Optional<CorrectedChannel> channel, Optional<LocalDate> day) {
        Agreement agreement = channel.map(indicator::agreement).orElse(Agreement.NOT_COMPARED);
        boolean isExpired = day.filter(indicator::isExpiredOn).isPresent();
        String sentence = switch (agreement) {
            case AGREES -> "As the temperature beside it lets expect.";
            case END_POINT_MISSED ->
                "The stated time was stayed for, yet the end point was missed: look for air, a dry place, or a pack that steam did not reach.";
            case END_POINT_UNEXPECTED ->
                "It changed although the stated time was not stayed for: look for a hot dry place, a wrong or old indicator, a sensor that reads low.";
            case CANNOT_TELL -> "Either colour would have been no surprise.";
            default -> indicator.isQuestion() ? "Its end point counts as not reached." : "";
        };
        return new ChemicalComparison(
                indicator.id(),
                channel.map(CorrectedChannel::name).orElse(""),
                agreement,
                indicator.isQuestion() || isExpired || agreement.isContradiction(),
                isExpired ? (sentence + " It was out of date on the day.").strip() : sentence);
    }
}
