package org.steamwright.intake.register;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;

/** The beginning of a visit file: what the register knows, and comments where the visit has to say something. */
public final class VisitDraft extends YamlLines {

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
    public record Visit(
            String reportNumber,
            String purpose,
            LocalDate day,
            String criteriaSet,
            Optional<Technician> technician,
            boolean hasInstruments) {}

    private VisitDraft() {}

    /** The text of the file. */
    public static String of(Register register, SterilizerRecord machine, Visit visit) {
        VisitDraft draft = new VisitDraft();
        draft.head(register.findPlace(machine), visit);
        draft.machine(machine);
        draft.rest(visit);
        return draft.text();
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
        // a key without a value is none
        place.flatMap(one -> one.site().altitudeMetres())
                .ifPresentOrElse(
                        metres -> {
                            line("conditions:");
                            line("  altitude: " + number(metres) + " m");
                        },
                        () -> line("# conditions:"));
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
        identity.chamberLitres().ifPresent(litres -> line("    chamber: " + number(litres) + " L"));
        identity.chamberSize().ifPresent(size -> line("    chamber-size: " + size.text()));
        identity.trayLevels().ifPresent(levels -> line("    tray-levels: " + levels));
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
        list(
                "    ",
                "cycles",
                machine.cycles().stream()
                        .filter(SterilizerRecord.RegisteredCycle::isInUse)
                        .map(SterilizerRecord.RegisteredCycle::definition)
                        .toList(),
                this::definition);
        line("");
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
}
