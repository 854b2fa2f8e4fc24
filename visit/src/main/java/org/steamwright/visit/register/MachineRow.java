package org.steamwright.visit.register;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.cycle.CycleType;

/**
 * One row of a table of machines: what somebody says about one machine and where it stands. Blank texts and empty values say
 * nothing and change nothing.
 *
 * @param line in its file, from 1
 * @param id of the machine; blank to find it by its serial number
 * @param clinicId blank to find the clinic by its name
 * @param clinic name
 * @param siteId blank to take one named after clinic and site
 * @param site name
 * @param address of the site
 * @param zone of the site
 * @param roomId blank to take one named after site and room
 * @param room name
 * @param movedOn day on which it came into that room, if it is another than the register has
 * @param maker as on the name plate
 * @param model as on the name plate
 * @param family model family
 * @param serial as on the name plate
 * @param year of manufacture
 * @param litres volume of the chamber
 * @param chamberSize its sides inside
 * @param trayLevels levels on which trays lie, one over the other
 * @param status whether it is in use
 * @param cycles that it offers
 * @param reading of the counter
 * @param done last day of each duty
 * @param paper of the pressure vessel
 */
public record MachineRow(
        int line,
        String id,
        String clinicId,
        String clinic,
        String siteId,
        String site,
        String address,
        Optional<ZoneId> zone,
        String roomId,
        String room,
        Optional<LocalDate> movedOn,
        String maker,
        String model,
        String family,
        String serial,
        String year,
        Optional<Double> litres,
        Optional<ChamberSize> chamberSize,
        OptionalInt trayLevels,
        Optional<SterilizerRecord.Status> status,
        List<Cycle> cycles,
        Optional<Counter.Reading> reading,
        Map<Duty, LocalDate> done,
        Optional<SterilizerRecord.PressurePaper> paper) {

    /**
     * A cycle as a table tells it.
     *
     * @param name as the machine calls it
     * @param type B, N or S
     * @param celsius sterilization temperature
     * @param isInUse whether the clinic runs it
     */
    public record Cycle(String name, CycleType type, double celsius, boolean isInUse) {}

    public MachineRow {
        cycles = List.copyOf(cycles);
        done = Map.copyOf(done);
    }
}
