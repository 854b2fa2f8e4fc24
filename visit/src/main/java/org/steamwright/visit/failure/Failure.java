package org.steamwright.visit.failure;

import java.util.List;
import java.util.Optional;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.FailureNote;

/**
 * One kind of evidence that failed at one steriliser, and what follows from it.
 *
 * @param sterilizer key
 * @param kind of evidence
 * @param blame what it points to
 * @param isAsFound whether it was like that before anybody touched anything
 * @param what failed, one sentence each
 * @param outOfService cycles that must not be run now; empty if everything was shown good again at this visit
 * @param isAllOut whether the steriliser is out of service as a whole
 * @param scope what is tested again, and why
 * @param note what was done about it; empty if nobody wrote anything down
 * @param lookBack loads in question; empty where no load can be
 */
public record Failure(
        String sterilizer,
        EarlierEvidence.Kind kind,
        Blame blame,
        boolean isAsFound,
        List<String> what,
        List<String> outOfService,
        boolean isAllOut,
        RetestScope scope,
        Optional<FailureNote> note,
        Optional<LookBack> lookBack) {

    /** What a failure points to. The technician decides; this is where to look first. */
    public enum Blame {
        MEASUREMENT("the measurement, not the steriliser"),
        LOAD("the load"),
        MACHINE("the steriliser"),
        INDICATOR_ALONE("the indicator alone; the recordings are good"),
        DANGER("electrical or pressure danger");

        private final String words;

        Blame(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    public Failure {
        what = List.copyOf(what);
        outOfService = List.copyOf(outOfService);
    }

    /** Tests that are asked for, in order. */
    public List<String> retests() {
        return scope.tests();
    }

    /** Whether somebody closed it: cause, action and effect are on record. */
    public boolean isClosed() {
        return note.flatMap(FailureNote::closedOn).isPresent();
    }
}
