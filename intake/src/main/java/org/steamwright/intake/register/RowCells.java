package org.steamwright.intake.register;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.intake.DateOrder;
import org.steamwright.intake.folder.ChamberFacts;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.MachineRow;
import org.steamwright.visit.register.SterilizerRecord;

/** Understands the cells of one row. */
final class RowCells {

    private static final Pattern PARTS = Pattern.compile("([0-9]{1,4})[./-]([0-9]{1,2})[./-]([0-9]{1,4})");
    private static final Pattern LITRES = Pattern.compile("([0-9]{1,4}(?:[.,][0-9]{1,3})?) ?(?:[lL]|litres?|liters?)?");
    private static final Pattern CELSIUS = Pattern.compile("([0-9]{2,3}(?:\\.[0-9]+)?) ?°?C?");
    private static final int MOST_DIGITS = 9;
    private static final int CYCLE_PARTS = 4;

    private final int line;
    private final Map<RegisterColumn, String> cells;
    private final TableMapping mapping;

    /** A cell can't be understood; the message says which and why. */
    static final class NotUnderstood extends Exception {
        private static final long serialVersionUID = 1L;

        NotUnderstood(RegisterColumn column, String found, String expected) {
            super("column " + column.word() + ": found \"" + found + "\", expected " + expected);
        }
    }

    RowCells(int line, Map<RegisterColumn, String> cells, TableMapping mapping) {
        this.line = line;
        this.cells = cells;
        this.mapping = mapping;
    }

    MachineRow row() throws NotUnderstood {
        Map<Duty, LocalDate> done = new EnumMap<>(Duty.class);
        done(RegisterColumn.VALIDATED_ON, Duty.VALIDATION, done);
        done(RegisterColumn.SERVICED_ON, Duty.SERVICE, done);
        done(RegisterColumn.ELECTRICAL_ON, Duty.ELECTRICAL_TEST, done);
        done(RegisterColumn.PERIODIC_ON, Duty.PERIODIC_TEST, done);
        return new MachineRow(
                line,
                text(RegisterColumn.ID),
                text(RegisterColumn.CLINIC_ID),
                text(RegisterColumn.CLINIC),
                text(RegisterColumn.SITE_ID),
                text(RegisterColumn.SITE),
                text(RegisterColumn.ADDRESS),
                zone(),
                text(RegisterColumn.ROOM_ID),
                text(RegisterColumn.ROOM),
                day(RegisterColumn.MOVED_ON),
                text(RegisterColumn.MAKER),
                text(RegisterColumn.MODEL),
                text(RegisterColumn.FAMILY),
                text(RegisterColumn.SERIAL),
                text(RegisterColumn.YEAR),
                litres(),
                size(),
                levels(),
                status(),
                cycles(),
                reading(),
                done,
                paper());
    }

    private String text(RegisterColumn column) {
        return cells.getOrDefault(column, "");
    }

    private void done(RegisterColumn column, Duty duty, Map<Duty, LocalDate> done) throws NotUnderstood {
        day(column).ifPresent(day -> done.put(duty, day));
    }

    private Optional<LocalDate> day(RegisterColumn column) throws NotUnderstood {
        String text = text(column);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Matcher parts = PARTS.matcher(text);
        if (!parts.matches()) {
            throw new NotUnderstood(column, text, "a day as year-month-day, such as 2026-03-02");
        }
        boolean isYearFirst = parts.group(1).length() == 4;
        if (!isYearFirst
                && (parts.group(3).length() != 4
                        || mapping.dateOrder().isEmpty()
                        || mapping.dateOrder().get() == DateOrder.YEAR_MONTH_DAY)) {
            throw new NotUnderstood(
                    column,
                    text,
                    "a day as year-month-day; a day or month written first is understood only if the mapping says which, by"
                            + " date-order, and with a year of four digits");
        }
        int first = Integer.parseInt(parts.group(1));
        int second = Integer.parseInt(parts.group(2));
        int third = Integer.parseInt(parts.group(3));
        try {
            if (isYearFirst) {
                return Optional.of(LocalDate.of(first, second, third));
            }
            return Optional.of(
                    mapping.dateOrder().get() == DateOrder.MONTH_DAY_YEAR
                            ? LocalDate.of(third, first, second)
                            : LocalDate.of(third, second, first));
        } catch (DateTimeException none) {
            throw new NotUnderstood(column, text, "a day that exists");
        }
    }

    private Optional<ZoneId> zone() throws NotUnderstood {
        String text = text(RegisterColumn.ZONE);
        if (text.isEmpty()) {
            return text(RegisterColumn.ROOM).isEmpty()
                            && text(RegisterColumn.ROOM_ID).isEmpty()
                    ? Optional.empty()
                    : mapping.zone();
        }
        try {
            return Optional.of(ZoneId.of(text));
        } catch (DateTimeException none) {
            throw new NotUnderstood(RegisterColumn.ZONE, text, "an IANA time zone, such as Australia/Adelaide");
        }
    }

    private Optional<Double> litres() throws NotUnderstood {
        String text = text(RegisterColumn.CHAMBER);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Matcher number = LITRES.matcher(text);
        if (!number.matches()) {
            throw new NotUnderstood(RegisterColumn.CHAMBER, text, "litres, such as 18 L");
        }
        return Optional.of(new BigDecimal(number.group(1).replace(',', '.')).doubleValue());
    }

    private Optional<ChamberSize> size() throws NotUnderstood {
        String text = text(RegisterColumn.CHAMBER_SIZE);
        Optional<ChamberSize> size = ChamberSize.find(text);
        if (!text.isEmpty() && size.isEmpty()) {
            throw new NotUnderstood(
                    RegisterColumn.CHAMBER_SIZE,
                    text,
                    ChamberSize.EXAMPLE + ", each side from 50 mm to 2000 mm, with one unit, mm or cm, at the end");
        }
        return size;
    }

    private OptionalInt levels() throws NotUnderstood {
        String text = text(RegisterColumn.TRAY_LEVELS);
        if (text.isEmpty()) {
            return OptionalInt.empty();
        }
        int levels = text.matches("[0-9]{1,2}") ? Integer.parseInt(text) : 0;
        if (levels < 1 || levels > ChamberFacts.MOST_LEVELS) {
            throw new NotUnderstood(
                    RegisterColumn.TRAY_LEVELS, text, "a whole number of levels, 1 to " + ChamberFacts.MOST_LEVELS);
        }
        return OptionalInt.of(levels);
    }

    private Optional<SterilizerRecord.Status> status() throws NotUnderstood {
        String text = text(RegisterColumn.STATUS);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        SterilizerRecord.Status status = RegisterWords.STATUS.get(text);
        if (status == null) {
            throw new NotUnderstood(
                    RegisterColumn.STATUS, text, "one of " + String.join(", ", RegisterWords.STATUS.keySet()));
        }
        return Optional.of(status);
    }

    private Optional<Counter.Reading> reading() throws NotUnderstood {
        String text = text(RegisterColumn.COUNTER);
        Optional<LocalDate> on = day(RegisterColumn.COUNTER_ON);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (!text.matches("[0-9]{1," + MOST_DIGITS + "}")) {
            throw new NotUnderstood(RegisterColumn.COUNTER, text, "a whole number without a mark for thousands");
        }
        if (on.isEmpty()) {
            throw new NotUnderstood(
                    RegisterColumn.COUNTER, text, "its day beside it, in a column " + RegisterColumn.COUNTER_ON.word());
        }
        return Optional.of(new Counter.Reading(on.get(), Long.parseLong(text), "imported table"));
    }

    private Optional<SterilizerRecord.PressurePaper> paper() throws NotUnderstood {
        String document = text(RegisterColumn.PRESSURE_DOCUMENT);
        Optional<LocalDate> on = day(RegisterColumn.PRESSURE_ON);
        Optional<LocalDate> next = day(RegisterColumn.PRESSURE_NEXT);
        if (on.isEmpty() && (next.isPresent() || !document.isEmpty())) {
            throw new NotUnderstood(
                    RegisterColumn.PRESSURE_ON,
                    "",
                    "the day of the examination that the document or the next day is of");
        }
        return on.map(day -> new SterilizerRecord.PressurePaper(document, day, next, ""));
    }

    private List<MachineRow.Cycle> cycles() throws NotUnderstood {
        String text = text(RegisterColumn.CYCLES);
        List<MachineRow.Cycle> cycles = new ArrayList<>();
        if (text.isEmpty()) {
            return cycles;
        }
        for (List<String> parts : parts(text)) {
            String whole = String.join("|", parts);
            String expected = "cycles parted by semicolons, each as name|type|temperature|in-use, such as"
                    + " 134 wrapped|B|134 °C|in-use";
            if (parts.size() != CYCLE_PARTS || parts.get(0).isEmpty()) {
                throw new NotUnderstood(RegisterColumn.CYCLES, whole, expected);
            }
            Matcher celsius = CELSIUS.matcher(parts.get(2));
            boolean isType = List.of("B", "N", "S").contains(parts.get(1));
            boolean isUse = List.of("in-use", "not-in-use").contains(parts.get(3));
            if (!celsius.matches() || !isType || !isUse) {
                throw new NotUnderstood(RegisterColumn.CYCLES, whole, expected);
            }
            cycles.add(new MachineRow.Cycle(
                    parts.get(0),
                    CycleType.valueOf(parts.get(1)),
                    Double.parseDouble(celsius.group(1)),
                    parts.get(3).equals("in-use")));
        }
        return cycles;
    }

    /** Cuts at semicolons and strokes; a sign behind a backslash is itself. */
    private static List<List<String>> parts(String text) {
        List<List<String>> all = new ArrayList<>();
        List<String> parts = new ArrayList<>();
        StringBuilder part = new StringBuilder();
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            if (sign == '\\' && i + 1 < text.length()) {
                i++;
                part.append(text.charAt(i));
            } else if (sign == '|' || sign == ';') {
                parts.add(part.toString().strip());
                part.setLength(0);
                if (sign == ';') {
                    all.add(parts);
                    parts = new ArrayList<>();
                }
            } else {
                part.append(sign);
            }
        }
        if (!parts.isEmpty() || !part.toString().isBlank()) {
            parts.add(part.toString().strip());
            all.add(parts);
        }
        return all;
    }
}
