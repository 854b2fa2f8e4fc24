package org.steamwright.intake.register;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;

/**
 * Writes the machines of a register as a table, one row each, that {@link RegisterTable} reads again: compared with the register it
 * came from it changes nothing. Of histories only the last entry stands in it. No cell begins with a sign that a spreadsheet
 * would run.
 */
public final class RegisterCsv {

    private RegisterCsv() {}

    /** The text of the file: UTF-8, commas, lines ended as RFC 4180 says. */
    public static String write(Register register) {
        StringWriter text = new StringWriter();
        Map<String, Register.Place> places = register.places();
        try (CsvWriter writer = CsvWriter.builder().build(text)) {
            writer.writeRecord(RegisterColumn.words());
            for (SterilizerRecord machine : register.sterilizers()) {
                Map<RegisterColumn, String> cells = cells(machine, Optional.ofNullable(places.get(machine.room())));
                List<String> row = new ArrayList<>();
                for (RegisterColumn column : RegisterColumn.values()) {
                    row.add(CellText.write(cells.getOrDefault(column, "")));
                }
                writer.writeRecord(row);
            }
        } catch (IOException impossible) {
            throw new IllegalStateException("a text in memory can't fail to be written", impossible);
        }
        return text.toString();
    }

    private static Map<RegisterColumn, String> cells(SterilizerRecord machine, Optional<Register.Place> place) {
        Map<RegisterColumn, String> cells = new EnumMap<>(RegisterColumn.class);
        cells.put(RegisterColumn.ID, machine.id());
        SterilizerRecord.Identity identity = machine.identity();
        cells.put(RegisterColumn.SERIAL, identity.serial());
        cells.put(RegisterColumn.MAKER, identity.maker());
        cells.put(RegisterColumn.MODEL, identity.model());
        cells.put(RegisterColumn.FAMILY, identity.family());
        cells.put(RegisterColumn.YEAR, identity.year());
        identity.chamberLitres().ifPresent(litres -> cells.put(RegisterColumn.CHAMBER, number(litres) + " L"));
        identity.chamberSize().ifPresent(size -> cells.put(RegisterColumn.CHAMBER_SIZE, size.text()));
        identity.trayLevels().ifPresent(levels -> cells.put(RegisterColumn.TRAY_LEVELS, String.valueOf(levels)));
        cells.put(RegisterColumn.STATUS, machine.status().word());
        place.ifPresent(found -> {
            cells.put(RegisterColumn.CLINIC_ID, found.clinic().id());
            cells.put(RegisterColumn.CLINIC, found.clinic().name());
            cells.put(RegisterColumn.SITE_ID, found.site().id());
            cells.put(RegisterColumn.SITE, found.site().name());
            cells.put(RegisterColumn.ADDRESS, found.site().address());
            cells.put(RegisterColumn.ZONE, found.site().zone().getId());
            cells.put(RegisterColumn.ROOM_ID, found.room().id());
            cells.put(RegisterColumn.ROOM, found.room().name());
        });
        List<SterilizerRecord.Movement> movements = machine.movements();
        if (!movements.isEmpty()) {
            cells.put(
                    RegisterColumn.MOVED_ON,
                    movements.get(movements.size() - 1).on().toString());
        }
        cells.put(
                RegisterColumn.CYCLES,
                String.join(
                        "; ", machine.cycles().stream().map(RegisterCsv::cycle).toList()));
        List<Counter.Reading> readings = machine.counter().readings();
        if (!readings.isEmpty()) {
            Counter.Reading last = readings.get(readings.size() - 1);
            cells.put(RegisterColumn.COUNTER, String.valueOf(last.shown()));
            cells.put(RegisterColumn.COUNTER_ON, last.on().toString());
        }
        done(machine, Duty.VALIDATION, RegisterColumn.VALIDATED_ON, cells);
        done(machine, Duty.SERVICE, RegisterColumn.SERVICED_ON, cells);
        done(machine, Duty.ELECTRICAL_TEST, RegisterColumn.ELECTRICAL_ON, cells);
        done(machine, Duty.PERIODIC_TEST, RegisterColumn.PERIODIC_ON, cells);
        if (!machine.papers().isEmpty()) {
            SterilizerRecord.PressurePaper last =
                    machine.papers().get(machine.papers().size() - 1);
            cells.put(RegisterColumn.PRESSURE_DOCUMENT, last.document());
            cells.put(RegisterColumn.PRESSURE_ON, last.examinedOn().toString());
            cells.put(
                    RegisterColumn.PRESSURE_NEXT,
                    last.nextBy().map(LocalDate::toString).orElse(""));
        }
        return cells;
    }

    private static void done(
            SterilizerRecord machine, Duty duty, RegisterColumn column, Map<RegisterColumn, String> cells) {
        machine.lastDone(duty).ifPresent(last -> cells.put(column, last.on().toString()));
    }

    private static String cycle(SterilizerRecord.RegisteredCycle cycle) {
        String name = cycle.definition()
                .name()
                .replace("\\", "\\\\")
                .replace("|", "\\|")
                .replace(";", "\\;");
        return String.join(
                "|",
                name,
                cycle.definition().type().name(),
                number(cycle.definition().sterilizingTemperature().celsius()) + " °C",
                cycle.isInUse() ? "in-use" : "not-in-use");
    }

    private static String number(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
