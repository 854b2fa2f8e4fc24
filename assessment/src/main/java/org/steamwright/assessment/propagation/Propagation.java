package org.steamwright.assessment.propagation;

import java.util.List;
import org.steamwright.assessment.verdict.RunEvaluation;

/**
 * A way from the budgets of single readings to 95 % intervals of the figures of a run.
 *
 * <p>Every way uses the same model. What is one error for the whole run moves all readings of a channel together; what two
 * channels share moves both. Noise is taken out of the extremes by a local fit, since the largest of many noisy readings is
 * too large; boundaries of the plateau are taken where straight lines between the samples cross the limit, since a
 * sampled time is short or long by up to two intervals. The judged value itself always lies inside the interval.
 */
public interface Propagation {

    /** Probability with which the truth is held to lie in an interval. */
    double PROBABILITY = 0.95;

    /** Name and guide, as printed. */
    String title();

    /** The figures of a run, in the order of {@link Measurand}; those that the run does not have are left out. */
    List<PropagatedFigure> propagate(RunEvaluation evaluation);
}
