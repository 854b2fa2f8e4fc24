package org.steamwright.assessment.indicator;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * The biological indicators of one run together with the unexposed controls of their lots.
 *
 * <p>An indicator without growth proves something only if its lot can grow: a control that stayed clear, or none at all,
 * makes the test invalid and never a pass. Growth in an exposed indicator fails the test whatever the controls say.
 *
 * @param indicators exposed ones and controls, in any order
 * @param exposedOn day of the run at the site, against which the lots' last day is held
 * @source states after handbook section 5: CDC 2003 dental guideline (quoted on secondary pages) for the control, the
 *     order of precedence is common practice, no source
 */
public record BiologicalTest(List<Indicator> indicators, LocalDate exposedOn) {

    /** What was read after incubation. */
    public enum Reading {
        GROWTH,
        NO_GROWTH,
        /** Not incubated to the end. */
        AWAITED
    }

    /**
     * One indicator.
     *
     * @param id on its tag
     * @param isControl whether it is an unexposed control
     * @param lot lot number
     * @param expires last day of use, itself good; empty if not stated
     * @param reading what was read
     */
    public record Indicator(String id, boolean isControl, String lot, Optional<LocalDate> expires, Reading reading) {}

    /** What the test says, strongest first; that order is the precedence. */
    public enum Result {
        /** No indicator was exposed. */
        NONE_EXPOSED,
        /** At least one exposed indicator grew. */
        FAIL,
        /** A lot was out of date, or a lot has no control, or its control did not grow. */
        INVALID,
        /** Nothing speaks against it, but not everything has been read. */
        AWAITED,
        /** Every exposed indicator stayed clear and a control of each lot grew. */
        PASS
    }

    public BiologicalTest {
        indicators = List.copyOf(indicators);
    }

    /** The answer, as far as it can be known now. */
    public Result result() {
        List<Indicator> exposed = exposed();
        if (exposed.isEmpty()) {
            return Result.NONE_EXPOSED;
        }
        if (exposed.stream().anyMatch(indicator -> indicator.reading() == Reading.GROWTH)) {
            return Result.FAIL;
        }
        if (indicators.stream().anyMatch(this::isExpired)
                || exposed.stream().anyMatch(indicator -> isLotWithoutHope(indicator.lot()))) {
            return Result.INVALID;
        }
        return indicators.stream().anyMatch(indicator -> indicator.reading() == Reading.AWAITED)
                ? Result.AWAITED
                : Result.PASS;
    }

    /** The exposed indicators. */
    public List<Indicator> exposed() {
        return indicators.stream().filter(indicator -> !indicator.isControl()).toList();
    }

    /** The controls of a lot. */
    public List<Indicator> controls(String lot) {
        return indicators.stream()
                .filter(indicator -> indicator.isControl() && indicator.lot().equals(lot))
                .toList();
    }

    /** Those whose lot was out of date on the day of the run. */
    public List<Indicator> expired() {
        return indicators.stream().filter(this::isExpired).toList();
    }

    private boolean isExpired(Indicator indicator) {
        return indicator.expires().filter(exposedOn::isAfter).isPresent();
    }

    /** A control that stayed clear speaks against the lot even if another one grew. */
    private boolean isLotWithoutHope(String lot) {
        List<Indicator> controls = controls(lot);
        return controls.isEmpty() || controls.stream().anyMatch(indicator -> indicator.reading() == Reading.NO_GROWTH);
    }
}
