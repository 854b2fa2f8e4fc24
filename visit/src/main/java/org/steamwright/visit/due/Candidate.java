package org.steamwright.visit.due;

import java.time.LocalDate;
import java.util.Optional;
import org.steamwright.assessment.criteria.Source;

/**
 * One reason why something is due, with the day it gives.
 *
 * @param cause kind of reason
 * @param day last day that is still in time; empty if none can be said
 * @param toleratedUntil last day that is not yet called overdue; the day itself without a tolerance
 * @param forecast where the day is foretold from the counter; empty otherwise
 * @param reason in words, complete in itself
 * @param source where the rule comes from
 */
public record Candidate(
        Cause cause,
        Optional<LocalDate> day,
        Optional<LocalDate> toleratedUntil,
        Optional<Forecast.Expected> forecast,
        String reason,
        Source source) {

    /** Kinds of reasons. */
    public enum Cause {
        /** So much time after it was done last. */
        DATE("date"),
        /** So many cycles after it was done last. */
        COUNT("count"),
        /** A pass under a condition lapses. */
        CONDITION("condition"),
        /** Something happened since: repair, move, other firmware. */
        EVENT("event"),
        /** A certificate, paper or competence runs out. */
        CERTIFICATE("certificate"),
        /** Nothing shows that it was ever done. */
        NO_EVIDENCE("no evidence");

        private final String word;

        Cause(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    /** A reason that gives that day, without tolerance. */
    static Candidate on(Cause cause, LocalDate day, String reason, Source source) {
        return new Candidate(cause, Optional.of(day), Optional.of(day), Optional.empty(), reason, source);
    }

    /** A reason that gives no day. */
    static Candidate withoutDay(Cause cause, String reason, Source source) {
        return new Candidate(cause, Optional.empty(), Optional.empty(), Optional.empty(), reason, source);
    }
}
