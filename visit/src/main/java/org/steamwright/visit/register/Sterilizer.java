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
 * @param plate what was read off the name plate on the day; empty if nobody said so
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
        List<CycleDefinition> cycles,
        Optional<NamePlate> plate) {

    public Sterilizer {
        cycles = List.copyOf(cycles);
        if (key.isBlank() || serial.isBlank()) {
            throw new IllegalArgumentException("a steriliser has a key and a serial number");
        }
    }

    /** A sterilizer of which nobody said that its name plate was read. */
    public Sterilizer(
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
        this(
                key,
                maker,
                model,
                serial,
                year,
                chamberLitres,
                chamberSize,
                trayLevels,
                firmware,
                location,
                pressurePapers,
                counterAtArrival,
                counterAtDeparture,
                cycles,
                Optional.empty());
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

    /** The serial number that its name plate says, if that is another one: then nothing measured here belongs to it. */
    public Optional<String> findOtherSerial() {
        return plate.filter(read -> read.isOther(serial)).map(NamePlate::serial);
    }

    /** The cycle of that name, ignoring case. */
    public Optional<CycleDefinition> findCycle(String name) {
        return cycles.stream()
                .filter(cycle -> cycle.name().equalsIgnoreCase(name))
                .findFirst();
    }
}
