package org.steamwright.visit.job;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A steam penetration device that went through a cycle.
 *
 * @param sterilizer key
 * @param cycle name of the cycle
 * @param machineCycle cycle number that the steriliser gave; empty if not read
 * @param kind of load that the device stands for
 * @param device in neutral words
 * @param lot of the device or its indicator; blank if not stated
 * @param expires last day of use; empty if not stated
 * @param result read by a person
 * @param readBy who read it; blank if nobody said
 * @param isAsFound whether it was made before anything was touched
 * @param note anything else; may be blank
 */
public record PenetrationTest(
        String sterilizer,
        String cycle,
        OptionalInt machineCycle,
        Kind kind,
        String device,
        String lot,
        Optional<LocalDate> expires,
        Result result,
        String readBy,
        boolean isAsFound,
        String note) {

    /** Kinds of load that a device stands for. */
    public enum Kind {
        HOLLOW("hollow"),
        POROUS("porous");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    /** What the person saw. */
    public enum Result {
        PASS("pass"),
        FAIL("fail"),
        UNCLEAR("unclear");

        private final String words;

        Result(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    public PenetrationTest {
        if (device.isBlank() || cycle.isBlank()) {
            throw new IllegalArgumentException("a steam penetration test has a device and a cycle");
        }
    }

    /** Whether the device was out of date on that day. One without a last day is not. */
    public boolean isExpired(LocalDate day) {
        return expires.filter(last -> day.isAfter(last)).isPresent();
    }

    /** Whether the result says anything: in date on that day, and clear. A fail speaks even when out of date. */
    public boolean isEvidence(Optional<LocalDate> day) {
        return result == Result.FAIL
                || (result == Result.PASS && day.filter(this::isExpired).isEmpty());
    }
}
