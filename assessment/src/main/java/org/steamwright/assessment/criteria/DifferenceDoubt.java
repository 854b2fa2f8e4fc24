package org.steamwright.assessment.criteria;

import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;

/** The doubt of the difference between two independent channels. */
final class DifferenceDoubt {

    static final String BASIS = "expanded uncertainty of each difference; the worst end of any pair";

    private DifferenceDoubt() {}

    static double of(CorrectedChannel a, CorrectedChannel b) {
        return ExpandedUncertainty.ofDifference(a.expanded(), b.expanded()).value();
    }
}
