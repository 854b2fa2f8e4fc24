package org.steamwright.assessment.cycle;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.quantity.Temperature;

/**
 * What the cycle under test is meant to do; the phases are looked for with it in hand.
 *
 * @param name as the sterilizer calls it
 * @param type B, N or S
 * @param sterilizingTemperature lower limit of the sterilization temperature band
 * @param holdingTime that the maker declares; empty if only the criteria set's minimum counts
 * @param airRemovalPulses number of evacuations before the plateau; empty if not declared
 * @param pulseDepth greatest absolute pressure at the bottom of each pulse, in kilopascal; empty if not declared
 * @param dryingTime shortest drying that is declared; empty if not declared
 */
public record CycleDefinition(
        String name,
        CycleType type,
        Temperature sterilizingTemperature,
        Optional<Duration> holdingTime,
        OptionalInt airRemovalPulses,
        Optional<Double> pulseDepth,
        Optional<Duration> dryingTime) {

    public CycleDefinition {
        double celsius = sterilizingTemperature.celsius();
        if (celsius < 100 || celsius > 150) {
            throw new IllegalArgumentException(
                    "cycle %s: %s °C is no sterilisation temperature of a steam steriliser (100 to 150 °C)"
                            .formatted(name, celsius));
        }
        if (holdingTime.isPresent()
                && (holdingTime.get().isNegative() || holdingTime.get().isZero())) {
            throw new IllegalArgumentException("cycle " + name + ": a holding time is longer than nothing");
        }
    }

    /** A cycle of which only name, type and temperature are known. */
    public static CycleDefinition of(String name, CycleType type, double celsius) {
        return new CycleDefinition(
                name,
                type,
                Temperature.ofCelsius(celsius),
                Optional.empty(),
                OptionalInt.empty(),
                Optional.empty(),
                Optional.empty());
    }
}
