package org.steamwright.visit.job;

import java.util.Optional;

/**
 * What became of one task.
 *
 * @param task id in its list
 * @param outcome what became of it
 * @param why reason; needed where it was not possible
 * @param condition found
 * @param part that was fitted
 * @param before reading before, with unit; may be blank
 * @param after reading after, with unit; may be blank
 * @param reading that is held against the limit of the task, in its unit; empty if there is none
 * @param instrument id of the instrument used; may be blank
 */
public record TaskEntry(
        String task,
        Outcome outcome,
        String why,
        Condition condition,
        Optional<Part> part,
        String before,
        String after,
        Optional<Double> reading,
        String instrument) {

    /** What became of a task. */
    public enum Outcome {
        DONE("done"),
        NOT_DUE("not due"),
        NOT_APPLICABLE("not applicable"),
        NOT_POSSIBLE("not possible");

        private final String words;

        Outcome(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    /** State in which something was found. */
    public enum Condition {
        GOOD("good"),
        WORN("worn"),
        FAILED("failed"),
        NOT_STATED("");

        private final String words;

        Condition(String words) {
            this.words = words;
        }

        /** As printed; blank if nobody said. */
        public String words() {
            return words;
        }
    }

    /**
     * A part that was fitted.
     *
     * @param number of the part; may be blank
     * @param lot or serial number; may be blank
     * @param quantity at least one
     */
    public record Part(String number, String lot, int quantity) {

        public Part {
            if (quantity < 1 || (number.isBlank() && lot.isBlank())) {
                throw new IllegalArgumentException("a part has a number or a lot, and there is at least one of it");
            }
        }
    }

    public TaskEntry {
        if (outcome == Outcome.NOT_POSSIBLE && why.isBlank()) {
            throw new IllegalArgumentException("the task %s was not possible, and nobody says why".formatted(task));
        }
        if (outcome != Outcome.DONE && (part.isPresent() || reading.isPresent())) {
            throw new IllegalArgumentException(
                    "the task %s is '%s' and still has a part or a reading".formatted(task, outcome.words()));
        }
    }
}
