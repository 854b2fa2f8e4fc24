package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.leakage.LeakTest;

/**
 * What an air leakage test offers to its criteria.
 *
 * @param corrected the corrected trace
 * @param pressure absolute
 * @param test empty if the periods could not be found
 * @param ambientKilopascal ambient pressure of the day
 * @param ambientHalfWidthKilopascal half-width within which it is known
 * @param ambientWords where it comes from
 */
public record LeakEvidence(
        CorrectedTrace corrected,
        CorrectedChannel pressure,
        Optional<LeakTest> test,
        double ambientKilopascal,
        double ambientHalfWidthKilopascal,
        String ambientWords) {

    /** Where the deciding pressures stand. */
    Evidence place() {
        return test.map(t -> Evidence.stretch(List.of(pressure.name()), t.isolationSeconds(), t.endSeconds()))
                .orElse(Evidence.stretch(
                        List.of(pressure.name()),
                        pressure.axis().first(),
                        pressure.axis().last()));
    }
}
