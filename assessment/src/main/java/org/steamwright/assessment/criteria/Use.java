package org.steamwright.assessment.criteria;

import java.util.Optional;

/** What a criteria set does with a criterion. */
public enum Use {
    /** Counts for the verdict; without evidence the run can't pass. */
    DECIDES("decides"),
    /** Judged and printed, does not count. */
    ADVISES("advises"),
    /** Measured if possible and printed without a judgement. */
    REPORTS("reports"),
    /** Not asked. */
    OFF("off");

    private final String word;

    Use(String word) {
        this.word = word;
    }

    public String word() {
        return word;
    }

    public static Optional<Use> find(String word) {
        for (Use use : values()) {
            if (use.word.equals(word)) {
                return Optional.of(use);
            }
        }
        return Optional.empty();
    }
}
