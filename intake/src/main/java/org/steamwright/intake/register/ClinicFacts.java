package org.steamwright.intake.register;

import static org.steamwright.intake.register.RegisterFile.checked;
import static org.steamwright.intake.register.RegisterFile.list;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Fields;
import org.steamwright.intake.folder.Measure;
import org.steamwright.visit.register.ClinicRecord;
import org.steamwright.visit.register.Site;
import org.steamwright.visit.register.Week;

/** Clinics with their sites and rooms. */
final class ClinicFacts {

    private ClinicFacts() {}

    static Optional<ClinicRecord> clinic(Fields fields) {
        Optional<String> id = fields.needText("id", "riverside");
        Optional<String> name = fields.needText("name", "Riverside Dental Care (invented)");
        String reference = fields.text("reference");
        String contact = fields.text("contact");
        List<Site> sites = list(fields, "sites", RegisterShape.SITE, ClinicFacts::site);
        return id.isEmpty() || name.isEmpty()
                ? Optional.empty()
                : checked(fields.entry(), () -> new ClinicRecord(id.get(), name.get(), reference, contact, sites));
    }

    private static Optional<Site> site(Fields fields) {
        Optional<String> id = fields.needText("id", "riverside-main");
        Optional<ZoneId> zone = fields.need("zone", "Australia/Adelaide").flatMap(Entry::zone);
        String name = fields.text("name");
        String address = fields.text("address");
        Optional<Double> altitude = fields.quantity("altitude", Measure.ALTITUDE);
        String rules = fields.text("rules");
        List<DayOfWeek> days = new ArrayList<>();
        for (Entry day : fields.list("working-days")) {
            day.word(RegisterWords.DAY).ifPresent(days::add);
        }
        List<Week.Closure> closures = list(fields, "closures", RegisterShape.CLOSURE, ClinicFacts::closure);
        Week week = new Week(days.isEmpty() ? Week.USUAL.workingDays() : days, closures);
        List<Site.Room> rooms = list(fields, "rooms", RegisterShape.ROOM, ClinicFacts::room);
        return id.isEmpty() || zone.isEmpty()
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new Site(id.get(), name, address, zone.get(), altitude, rules, week, rooms));
    }

    private static Optional<Week.Closure> closure(Fields fields) {
        Optional<LocalDate> from = fields.need("from", "2026-12-21").flatMap(Entry::date);
        Optional<LocalDate> until = fields.need("until", "2027-01-04").flatMap(Entry::date);
        return from.isEmpty() || until.isEmpty()
                ? Optional.empty()
                : checked(fields.entry(), () -> new Week.Closure(from.get(), until.get()));
    }

    private static Optional<Site.Room> room(Fields fields) {
        String name = fields.text("name");
        return fields.needText("id", "riverside-steri").map(id -> new Site.Room(id, name));
    }
}
