package org.steamwright.assessment.criteria;

/**
 * One kind of question that a criteria set may ask.
 *
 * @param <E> what the answer is drawn from
 */
public interface Criterion<E> {

    /** Which one it is. */
    CriterionId id();

    /**
     * The answer.
     *
     * @param evidence what was recorded and found
     * @param requirement what the criteria set asks; its {@code id} is this criterion's
     */
    Finding judge(E evidence, Requirement requirement);
}
