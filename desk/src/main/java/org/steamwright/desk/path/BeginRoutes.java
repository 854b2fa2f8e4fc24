package org.steamwright.desk.path;

import java.io.IOException;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.TypedDay;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.VisitDraft;
import org.steamwright.records.Subject;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;

/** The list of visits, and beginning one. */
final class BeginRoutes {

    private static final String INSTRUMENTS_FILE = "instruments.yaml";

    private final Office office;

    BeginRoutes(Office office) {
        this.office = office;
    }

    /** How many newer visits the page leaves out; none if nothing sensible was asked for. */
    static int from(Ask ask) {
        String typed = ask.typed("from");
        return typed.matches("\\d{1,8}") ? Integer.parseInt(typed) : 0;
    }

    /** The steriliser for which a page of the register leads here; nothing if none does. */
    static Map<String, String> asked(Ask ask) {
        return ask.typed("machine").isBlank() ? Map.of() : Map.of("machine", ask.typed("machine"));
    }

    Reply visits(Map<String, String> typed, Optional<Complaint> complaint, int status, int from) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("list", VisitList.of(office, typed, from));
        values.put("complaint", complaint);
        return new Reply.Page("path/visits.jte", values, status);
    }

    Reply begin(Ask ask) throws IOException, FilingException, RegisterException {
        Map<String, String> typed = new LinkedHashMap<>();
        for (String field : List.of(
                "number", "purpose", "date", "criteria-set", "machine", "clinic", "serial", "zone", "technician")) {
            typed.put(field, ask.typed(field));
        }
        Optional<LocalDate> day =
                TypedDay.of(ask.typed("date"), ask.frame().words().language());
        if (day.isEmpty()) {
            return visits(
                    typed,
                    Optional.of(Complaint.said(
                            ask.frame().say("path.no-day", ask.typed("date")),
                            ask.frame().say("path.no-day-remedy"))),
                    422,
                    0);
        }
        try {
            Draft draft = begun(ask, typed, day.get());
            return new Reply.Next(Context.address(draft) + "/" + Stage.IDENTITY.word());
        } catch (DraftRefusal refused) {
            return visits(typed, Optional.of(new Complaint(refused.getMessage() + ".", refused.remedy())), 422, 0);
        }
    }

    private Draft begun(Ask ask, Map<String, String> typed, LocalDate day)
            throws IOException, FilingException, RegisterException, DraftRefusal {
        String machine = typed.getOrDefault("machine", "");
        String name = typed.getOrDefault("technician", "");
        RegisterFiling filing = new RegisterFiling(office.records());
        // a serial number that is typed alone means the machine that the register has
        boolean isTypedAlone = typed.getOrDefault("clinic", "").isBlank();
        String wanted = machine.isBlank() && isTypedAlone ? typed.getOrDefault("serial", "") : machine;
        List<Subject> meant = filing.machines(wanted);
        if (meant.size() > 1) {
            throw Drafts.several(wanted, meant);
        }
        Optional<Subject> subject = meant.stream().findFirst();
        Register register = subject.isPresent() ? filing.around(subject.get()) : Register.EMPTY;
        Optional<SterilizerRecord> known = register.sterilizers().stream().findFirst();
        if (known.isPresent()) {
            Map<String, byte[]> instruments = filing.instrumentFiles();
            Optional<Technician> technician = register.technicians().stream()
                    .filter(one -> one.name().equals(name))
                    .findFirst();
            Draft draft = office.drafts()
                    .open(
                            ask.author(),
                            subject.get(),
                            new VisitDraft.Visit(
                                    typed.getOrDefault("number", ""),
                                    typed.getOrDefault("purpose", ""),
                                    day,
                                    set(typed, subject.get(), register, day),
                                    technician,
                                    instruments.containsKey(INSTRUMENTS_FILE)),
                            instruments);
            return technician.isPresent() || name.isBlank()
                    ? draft
                    : draft.add(FactPath.of("people"), technicianOf(name), ask.author(), "");
        }
        Map<String, Object> start = new LinkedHashMap<>();
        start.put("purpose", typed.getOrDefault("purpose", ""));
        start.put("date", day.toString());
        start.put("zone", zone(typed.getOrDefault("zone", "")));
        start.put(
                "criteria-set",
                subject.map(one -> set(typed, one, register, day)).orElseGet(() -> set(typed)));
        start.put("clinic", Map.of("name", typed.getOrDefault("clinic", "")));
        String serial = subject.map(one -> one.text("serial")).orElse(typed.getOrDefault("serial", ""));
        start.put("sterilizers", List.of(sterilizer(serial, filing.machines(serial))));
        if (!name.isBlank()) {
            start.put("people", List.of(technicianOf(name)));
        }
        return office.drafts().open(ask.author(), typed.getOrDefault("number", ""), start);
    }

    /** The criteria set that was chosen; else the one of the site's rules, else that of the visit before. */
    private String set(Map<String, String> typed, Subject machine, Register register, LocalDate day) {
        String chosen = typed.getOrDefault("criteria-set", "");
        return chosen.isBlank() ? OfficeSet.of(office, machine, register, day).orElseGet(() -> set(typed)) : chosen;
    }

    private static String set(Map<String, String> typed) {
        String chosen = typed.getOrDefault("criteria-set", "");
        return chosen.isBlank() ? OfficeSet.USUAL : chosen;
    }

    /** What a name plate says, as far as only one machine of the record can be meant. */
    private static Map<String, Object> sterilizer(String serial, List<Subject> meant) {
        Map<String, Object> sterilizer = new LinkedHashMap<>();
        sterilizer.put("key", "A");
        sterilizer.put("serial", serial);
        if (meant.size() == 1) {
            for (String key : List.of("maker", "model")) {
                // what nobody ever read from the plate is left out, not stated as nothing
                Optional.of(meant.get(0).text(key))
                        .filter(text -> !text.isBlank())
                        .ifPresent(text -> sterilizer.put(key, text));
            }
        }
        return sterilizer;
    }

    private static Map<String, String> technicianOf(String name) {
        return Map.of("name", name, "role", "technician");
    }

    private String zone(String typed) {
        return typed.isBlank() ? office.clock().getZone().getId() : typed;
    }
}
