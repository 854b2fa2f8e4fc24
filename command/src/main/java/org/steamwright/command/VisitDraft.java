package org.steamwright.command;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;

/** The beginning of a visit file: what the register knows, and comments where the visit has to say something. */
final class VisitDraft {

    private final StringBuilder text = new StringBuilder();

    /**
     * What does not come from the register.
     *
     * @param reportNumber by which the record will know the visit
     * @param purpose in words
     * @param day of the visit at the site
     * @param criteriaSet name of a preset
     * @param technician who goes
     * @param hasInstruments whether the register of instruments lies beside the file
     */
    record Visit(
            String reportNumber,
            String purpose,
            LocalDate day,
            String criteriaSet,
            Optional<Technician> technician,
            boolean hasInstruments) {}

    private VisitDraft() {}

    static String of(Register register, SterilizerRecord machine, Visit visit) {
        VisitDraft draft = new VisitDraft();
        draft.head(register.findPlace(machine), visit);
        draft.machine(machine);
        draft.rest(visit);
        return draft.text.toString();
    }

    private void head(Optional<Register.Place> place, Visit visit) {
        line("steamwright-visit: 1");
        key("", "report-number", visit.reportNumber);
        key("", "purpose", visit.purpose);
        line("date: " + visit.day);
        ZoneId zone = place.map(one -> one.site().zone()).orElse(ZoneId.of("UTC"));
        line("zone: " + zone.getId() + (place.isPresent() ? "" : "   # the register knows no site: correct it"));
        key("", "criteria-set", visit.criteriaSet);
        line("");
        place.ifPresent(one -> {
            line("clinic:");
            key("  ", "name", one.clinic().name());
            key("  ", "address", one.site().address());
            key("  ", "room", one.room().name());
            key("  ", "contact", one.clinic().contact());
            key("  ", "reference", one.clinic().reference());
            line("");
        });
        visit.technician.ifPresent(technician -> {
            line("people:");
            line("  - name: " + quoted(technician.name()));
            line("    role: technician");
            line("");
        });
        line("conditions:");
        place.flatMap(one -> one.site().altitudeMetres())
                .ifPresent(metres -> line("  altitude: " + plain(metres) + " m"));
        line("  # barometer: read it on site, with its unit, before the first leak test");
        line("");
    }

    private void machine(SterilizerRecord machine) {
        SterilizerRecord.Identity identity = machine.identity();
        line("# Hold the name plate beside these lines before anything is touched.");
        line("sterilizers:");
        line("  - key: A");
        key("    ", "maker", identity.maker());
        key("    ", "model", identity.model());
        key("    ", "serial", identity.serial());
        key("    ", "year", identity.year());
        identity.chamberLitres().ifPresent(litres -> line("    chamber: " + plain(litres) + " L"));
        if (!machine.firmware().isEmpty()) {
            key(
                    "    ",
                    "firmware",
                    machine.firmware().get(machine.firmware().size() - 1).version());
        }
        machine.counter().readings().stream()
                .reduce((earlier, later) -> later)
                .ifPresent(last ->
                        line("    # counter-at-arrival: read it; it showed " + last.shown() + " on " + last.on()));
        line("    cycles:");
        machine.cycles().stream()
                .filter(SterilizerRecord.RegisteredCycle::isInUse)
                .map(SterilizerRecord.RegisteredCycle::definition)
                .forEach(this::cycle);
        line("");
    }

    private void cycle(CycleDefinition cycle) {
        line("      - name: " + quoted(cycle.name()));
        line("        type: " + cycle.type());
        line("        sterilizing-temperature: "
                + plain(cycle.sterilizingTemperature().celsius()) + " °C");
        cycle.holdingTime().ifPresent(time -> line("        holding-time: " + time.toSeconds() + " s"));
        if (cycle.airRemovalPulses().isPresent()) {
            line("        air-removal-pulses: " + cycle.airRemovalPulses().getAsInt());
        }
        cycle.pulseDepth().ifPresent(depth -> line("        pulse-depth: " + plain(depth) + " kPa absolute"));
        cycle.dryingTime().ifPresent(time -> line("        drying-time: " + time.toSeconds() + " s"));
    }

    private void rest(Visit visit) {
        if (visit.hasInstruments) {
            line("register: instruments.yaml");
        } else {
            line("# instruments: name those that you use, with their certificates");
        }
        line("");
        line(
                "# runs: one entry for each, in the order in which they are made; docs/reference/visit-folder.md shows how.");
        line("# Nothing of last year is in this file: what was tested is written down as it is tested.");
    }

    private void line(String line) {
        text.append(line).append('\n');
    }

    private void key(String indent, String key, String value) {
        if (!value.isBlank()) {
            line(indent + key + ": " + quoted(value));
        }
    }

    private static String quoted(String value) {
        return '"' + value.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
    }

    private static String plain(double figure) {
        BigDecimal exact = BigDecimal.valueOf(figure).stripTrailingZeros();
        return String.format(
                Locale.ROOT, "%s", exact.setScale(Math.max(0, exact.scale())).toPlainString());
    }
}
