package org.steamwright.visit.register;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.cycle.CycleDefinition;

/**
 * One sterilizer as found at the visit. Blank fields were not stated.
 *
 * @param key short and unique within the visit, such as 'A'
 * @param maker as on the name plate
 * @param model as on the name plate
 * @param serial as on the name plate; never blank
 * @param year of manufacture
 * @param chamberLitres volume of the chamber
 * @param chamberSize its sides inside
 * @param trayLevels levels on which trays lie, one over the other
 * @param firmware version
 * @param location room and place
 * @param pressurePapers papers of the pressure vessel and their next date
 * @param counterAtArrival cycle counter
 * @param counterAtDeparture cycle counter
 * @param cycles available and in use
 */
public record Sterilizer(
        String key,
        String maker,
        String model,
        String serial,
        String year,
        Optional<Double> chamberLitres,
        Optional<ChamberSize> chamberSize,
        OptionalInt trayLevels,
        String firmware,
        String location,
        String pressurePapers,
        OptionalInt counterAtArrival,
        OptionalInt counterAtDeparture,
        List<CycleDefinition> cycles) {

    public Sterilizer {
        cycles = List.copyOf(cycles);
        if (key.isBlank() || serial.isBlank()) {
            throw new IllegalArgumentException("a steriliser has a key and a serial number");
        }
    }

    /** A sterilizer whose sides and tray levels nobody stated. */
    public Sterilizer(
            String key,
            String maker,
            String model,
            String serial,
            String year,
            Optional<Double> chamberLitres,
            String firmware,
            String location,
            String pressurePapers,
            OptionalInt counterAtArrival,
            OptionalInt counterAtDeparture,
            List<CycleDefinition> cycles) {
        this(
                key,
                maker,
                model,
                serial,
                year,
                chamberLitres,
                Optional.empty(),
                OptionalInt.empty(),
                firmware,
                location,
                pressurePapers,
                counterAtArrival,
                counterAtDeparture,
                cycles);
    }

    /** The cycle of that name, ignoring case. */
    public Optional<CycleDefinition> findCycle(String name) {
        return cycles.stream()
                .filter(cycle -> cycle.name().equalsIgnoreCase(name))
                .findFirst();
    }
}
