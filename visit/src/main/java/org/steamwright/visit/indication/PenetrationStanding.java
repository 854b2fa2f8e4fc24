package org.steamwright.visit.indication;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.PenetrationTest.Result;

/**
 * The steam penetration tests of one cycle of one steriliser, with devices of one kind, read together: the last one that
 * says anything counts.
 *
 * @param sterilizer key
 * @param cycle name
 * @param kind of device
 * @param standing what they say together
 * @param sentence for people
 */
public record PenetrationStanding(
        String sterilizer, String cycle, PenetrationTest.Kind kind, Standing standing, String sentence) {

    /** What the tests say together. Only {@link #PASS} is a pass. */
    public enum Standing {
        PASS("pass"),
        FAIL("fail"),
        /** Out of date or unclear: proves nothing. */
        VOID("void"),
        /** Made before anything was touched only. */
        AS_FOUND_ONLY("as found only");

        private final String words;

        Standing(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    /**
     * Reads them.
     *
     * @param tests of one cycle and one kind, in the order in which they were made; at least one
     * @param day of the visit; empty if not known, then no device is out of date
     */
    public static PenetrationStanding of(List<PenetrationTest> tests, Optional<LocalDate> day) {
        PenetrationTest first = tests.get(0);
        List<PenetrationTest> now =
                tests.stream().filter(test -> !test.isAsFound()).toList();
        Optional<PenetrationTest> last =
                now.stream().filter(test -> test.isEvidence(day)).reduce((one, later) -> later);
        Standing standing = now.isEmpty()
                ? Standing.AS_FOUND_ONLY
                : last.map(test -> test.result() == Result.PASS ? Standing.PASS : Standing.FAIL)
                        .orElse(Standing.VOID);
        long failed = now.stream().filter(test -> test.result() == Result.FAIL).count();
        String text = switch (standing) {
            case PASS ->
                "Steam reached into the %s device%s."
                        .formatted(
                                first.kind().words(),
                                failed == 0
                                        ? ""
                                        : "; %s of %s tests before had failed, the cause belongs into the report"
                                                .formatted(failed, now.size()));
            case FAIL ->
                "Steam did not reach into the %s device. Nothing that the device stands for is qualified by this cycle."
                        .formatted(first.kind().words());
            case VOID -> "Proves nothing: %s. Repeat it with a fresh device.".formatted(whyVoid(now, day));
            case AS_FOUND_ONLY -> "Was made before anything was touched only, so it tells about the past.";
        };
        return new PenetrationStanding(first.sterilizer(), first.cycle(), first.kind(), standing, text);
    }

    private static String whyVoid(List<PenetrationTest> tests, Optional<LocalDate> day) {
        PenetrationTest last = tests.get(tests.size() - 1);
        return day.filter(last::isExpired).isPresent()
                ? "the device of lot %s was out of date on the day"
                        .formatted(last.lot().isBlank() ? "not stated" : last.lot())
                : "its reading is unclear";
    }
}
