package org.steamwright.visit;

import java.time.LocalDate;
import java.util.Optional;
import org.steamwright.assessment.indicator.Resistance;

/**
 * One biological indicator of a run, or its unexposed control.
 *
 * @param id on the tag
 * @param isControl whether it is the unexposed control of the lot
 * @param product kind of indicator in neutral words
 * @param lot lot number
 * @param expires last day of use; empty if not stated
 * @param population spores per carrier as stated; empty if not stated
 * @param position letter on the chamber plan; may be blank
 * @param grown whether growth was seen; empty while it is awaited
 * @param incubation start, end and temperature, in words; may be blank
 * @param resistance of its spores as the lot's certificate states it; empty if not stated
 * @param channel name of the channel whose sensor lay beside it; blank takes the one at the same position
 * @param incubatedUntil end of the incubation that its maker asks for; empty if not stated
 * @param readOn when the result was read; empty if not stated
 * @param readBy who read it; may be blank
 */
public record IndicatorUse(
        String id,
        boolean isControl,
        String product,
        String lot,
        Optional<LocalDate> expires,
        Optional<Double> population,
        String position,
        Optional<Boolean> grown,
        String incubation,
        Optional<Resistance> resistance,
        String channel,
        Optional<SiteMoment> incubatedUntil,
        Optional<SiteMoment> readOn,
        String readBy) {

    /** An indicator of which no more is known than what decides. */
    public IndicatorUse(
            String id,
            boolean isControl,
            String product,
            String lot,
            Optional<LocalDate> expires,
            Optional<Double> population,
            String position,
            Optional<Boolean> grown,
            String incubation) {
        this(
                id,
                isControl,
                product,
                lot,
                expires,
                population,
                position,
                grown,
                incubation,
                Optional.empty(),
                "",
                Optional.empty(),
                Optional.empty(),
                "");
    }

    /**
     * Whether no growth was read before the incubation had ended, so that it may still grow. Growth counts whenever it is
     * seen. Without both moments nobody can tell, and it is not early.
     *
     * @source handbook, standards section 5: pending until the time to read is reached; practice, trap 68
     */
    public boolean isReadEarly() {
        return grown.filter(one -> !one).isPresent()
                && readOn.isPresent()
                && incubatedUntil.filter(readOn.get()::isBefore).isPresent();
    }
}
