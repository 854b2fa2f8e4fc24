package org.steamwright.assessment.uncertainty;

/**
 * What a contribution has in common with contributions to other channels, such as the laboratory's reference standard or the
 * electronics of one logger.
 *
 * <p>Two contributions of one group are correlated by the root of the product of their coefficients; contributions of
 * different groups, or of none, are independent.
 *
 * @param group name of what is shared; empty for nothing
 * @param coefficient share of the variance that is common, 0 to 1; 1 is one and the same error
 */
public record Correlation(String group, double coefficient) {

    /** Nothing is shared with any other channel. */
    public static final Correlation NONE = new Correlation("", 0);

    public Correlation {
        if (!(coefficient >= 0 && coefficient <= 1)) {
            throw new IllegalArgumentException("a correlation lies between 0 and 1, found " + coefficient);
        }
        if (group.isEmpty() != (coefficient == 0)) {
            throw new IllegalArgumentException(
                    "group \"%s\" with coefficient %s: a shared error has a name and is more than nothing"
                            .formatted(group, coefficient));
        }
    }

    /** One and the same error in every channel of the group. */
    public static Correlation full(String group) {
        return new Correlation(group, 1);
    }

    /** Whether an error of this kind has anything in common with one of that kind. */
    public boolean isSharedWith(Correlation other) {
        return !group.isEmpty() && group.equals(other.group);
    }
}
