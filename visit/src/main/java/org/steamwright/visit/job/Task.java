package org.steamwright.visit.job;

import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;

/**
 * One task of a list.
 *
 * @param id word that stays
 * @param title what to do or to check
 * @param caution printed beside it; may be blank
 * @param limit that a reading is held against; empty if a person judges
 */
public record Task(String id, String title, String caution, Optional<TaskLimit> limit) {

    /**
     * A limit of a task. Local rules and the maker's instructions set it; the file says which.
     *
     * @param comparison which side is good; the limit itself is good
     * @param value in {@code unit}
     * @param unit as written, such as Ω
     * @param source where it comes from and how sure that is; never blank
     */
    public record TaskLimit(Comparison comparison, double value, String unit, String source) {

        public TaskLimit {
            if (!Double.isFinite(value) || unit.isBlank() || source.isBlank()) {
                throw new IllegalArgumentException("a limit has a value, a unit and a source");
            }
        }

        /** Whether the reading meets it. NaN meets nothing. */
        public boolean isMetBy(double reading) {
            return comparison == Comparison.AT_LEAST ? reading >= value : reading <= value;
        }
    }

    public Task {
        if (id.isBlank() || title.isBlank()) {
            throw new IllegalArgumentException("a task has an id and a title");
        }
    }
}
