package org.steamwright.assessment.criteria;

import java.util.Optional;

/**
 * How doubt is treated when a figure is held against a limit.
 *
 * @source ILAC-G8:09/2019, section 4.2 (page 9 and derived statements seen)
 */
public enum DecisionRule {
    /** The figure as measured decides; the doubt is printed beside it. */
    SIMPLE("simple"),
    /** The limit is drawn in by the expanded uncertainty; a figure in the guard band is undecided. */
    GUARDED("guarded"),
    /** Pass, conditional pass, conditional fail or fail. A conditional pass is undecided, a conditional fail fails. */
    FOUR_WORDS("four-words");

    private final String word;

    DecisionRule(String word) {
        this.word = word;
    }

    public String word() {
        return word;
    }

    public static Optional<DecisionRule> find(String word) {
        for (DecisionRule rule : values()) {
            if (rule.word.equals(word)) {
                return Optional.of(rule);
            }
        }
        return Optional.empty();
    }
}
