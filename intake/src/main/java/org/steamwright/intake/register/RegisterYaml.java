package org.steamwright.intake.register;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.Period;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.steamwright.visit.register.ClinicRecord;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Part;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.Site;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;
import org.steamwright.visit.register.Week;

/**
 * Writes a register as {@code register.yaml}. Read again it is the same register; instruments stay in the file that keeps them.
 */
public final class RegisterYaml extends YamlLines {

    private RegisterYaml() {}

    /** The text of the file, lines ended by a line feed. */
    public static String write(RegisterFile.Contents contents) {
        RegisterYaml yaml = new RegisterYaml();
        yaml.plain("", "steamwright-register", RegisterFile.FORMAT_VERSION);
        contents.instrumentsFile().ifPresent(name -> yaml.key("", "instruments", name));
        Register register = contents.register();
        yaml.list("", "clinics", register.clinics(), yaml::clinic);
        yaml.list("", "sterilizers", register.sterilizers(), yaml::sterilizer);
        yaml.list("", "technicians", register.technicians(), yaml::technician);
        yaml.list("", "lots", register.lots(), yaml::lot);
        yaml.list("", "parts", register.parts(), yaml::part);
        yaml.list("", "testers", register.testers(), yaml::tester);
        return yaml.text();
    }

    private void day(String indent, String key, Optional<LocalDate> day) {
        day.ifPresent(value -> plain(indent, key, value));
    }

    private void count(String indent, String key, OptionalLong count) {
        if (count.isPresent()) {
            plain(indent, key, count.getAsLong());
        }
    }

    private void texts(String indent, String key, List<String> texts) {
        if (!texts.isEmpty()) {
            plain(
                    indent,
                    key,
                    "["
                            + String.join(
                                    ", ", texts.stream().map(YamlLines::quoted).toList()) + "]");
        }
    }

    private void duties(String indent, List<Duty> duties) {
        if (!duties.isEmpty()) {
            plain(
                    indent,
                    "duties",
                    "[" + String.join(", ", duties.stream().map(Duty::word).toList()) + "]");
        }
    }

    private static String period(Period period) {
        return period.toTotalMonths() > 0 ? period.toTotalMonths() + " months" : period.get(ChronoUnit.DAYS) + " days";
    }

    private void clinic(String in, ClinicRecord clinic) {
        key(in, "id", clinic.id());
        key(in, "name", clinic.name());
        key(in, "reference", clinic.reference());
        key(in, "contact", clinic.contact());
        list(in, "sites", clinic.sites(), this::site);
    }

    private void site(String in, Site site) {
        key(in, "id", site.id());
        key(in, "name", site.name());
        key(in, "address", site.address());
        key(in, "zone", site.zone().getId());
        site.altitudeMetres().ifPresent(metres -> plain(in, "altitude", number(metres) + " m"));
        key(in, "rules", site.rules());
        List<String> days =
                site.week().workingDays().stream().map(RegisterYaml::word).toList();
        plain(in, "working-days", "[" + String.join(", ", days) + "]");
        list(in, "closures", site.week().closures(), this::closure);
        list(in, "rooms", site.rooms(), this::room);
    }

    private static String word(DayOfWeek day) {
        return RegisterWords.DAY.entrySet().stream()
                .filter(entry -> entry.getValue() == day)
                .findFirst()
                .orElseThrow()
                .getKey();
    }

    private void closure(String in, Week.Closure closure) {
        plain(in, "from", closure.from());
        plain(in, "until", closure.until());
    }

    private void room(String in, Site.Room room) {
        key(in, "id", room.id());
        key(in, "name", room.name());
    }

    private void sterilizer(String in, SterilizerRecord machine) {
        SterilizerRecord.Identity identity = machine.identity();
        key(in, "id", machine.id());
        key(in, "maker", identity.maker());
        key(in, "model", identity.model());
        key(in, "family", identity.family());
        key(in, "serial", identity.serial());
        key(in, "year", identity.year());
        identity.chamberLitres().ifPresent(litres -> plain(in, "chamber", number(litres) + " L"));
        identity.chamberSize().ifPresent(size -> plain(in, "chamber-size", size.text()));
        identity.trayLevels().ifPresent(levels -> plain(in, "tray-levels", String.valueOf(levels)));
        plain(in, "status", machine.status().word());
        plain(in, "loaner", machine.isLoaner() ? "yes" : "no");
        key(in, "room", machine.home());
        list(in, "cycles", machine.cycles(), this::cycle);
        list(in, "firmware", machine.firmware(), this::firmware);
        if (!machine.counter().equals(Counter.UNREAD)) {
            line(in + "counter:");
            list(in + "  ", "readings", machine.counter().readings(), this::reading);
            list(in + "  ", "resets", machine.counter().resets(), this::reset);
        }
        list(in, "movements", machine.movements(), this::movement);
        list(in, "pressure-papers", machine.papers(), this::paper);
        list(in, "intervals", machine.intervals(), this::interval);
        list(in, "done", machine.done(), this::done);
        list(in, "changes", machine.changes(), this::change);
        list(in, "conditions", machine.conditions(), this::condition);
    }

    private void cycle(String in, SterilizerRecord.RegisteredCycle cycle) {
        definition(in, cycle.definition());
        plain(in, "in-use", cycle.isInUse() ? "yes" : "no");
    }

    private void firmware(String in, SterilizerRecord.Firmware firmware) {
        key(in, "version", firmware.version());
        plain(in, "since", firmware.since());
        key(in, "note", firmware.note());
    }

    private void reading(String in, Counter.Reading reading) {
        plain(in, "on", reading.on());
        plain(in, "shows", reading.shown());
        key(in, "evidence", reading.evidence());
    }

    private void reset(String in, Counter.Reset reset) {
        plain(in, "on", reset.on());
        plain(in, "before", reset.before());
        plain(in, "after", reset.after());
        key(in, "evidence", reset.evidence());
    }

    private void movement(String in, SterilizerRecord.Movement movement) {
        plain(in, "on", movement.on());
        key(in, "from", movement.from());
        key(in, "to", movement.to());
        key(in, "reason", movement.reason());
    }

    private void paper(String in, SterilizerRecord.PressurePaper paper) {
        key(in, "document", paper.document());
        plain(in, "examined-on", paper.examinedOn());
        day(in, "next-by", paper.nextBy());
        key(in, "by", paper.by());
    }

    private void interval(String in, SterilizerRecord.OwnInterval interval) {
        plain(in, "duty", interval.duty().word());
        interval.every().ifPresent(every -> plain(in, "every", period(every)));
        count(in, "cycles", interval.cycles());
        key(in, "because", interval.because());
    }

    private void done(String in, SterilizerRecord.Done done) {
        plain(in, "duty", done.duty().word());
        plain(in, "on", done.on());
        key(in, "evidence", done.evidence());
    }

    private void change(String in, SterilizerRecord.ChangeMade change) {
        plain(in, "on", change.on());
        key(in, "reason", change.reason());
        key(in, "what", change.what());
        day(in, "settled-on", change.settledOn());
    }

    private void condition(String in, SterilizerRecord.PassCondition condition) {
        key(in, "what", condition.what());
        key(in, "owner", condition.owner());
        plain(in, "until", condition.until());
        count(in, "at-cycles", condition.atCycles());
        day(in, "met-on", condition.metOn());
    }

    private void technician(String in, Technician technician) {
        key(in, "id", technician.id());
        key(in, "name", technician.name());
        list(in, "competences", technician.competences(), this::competence);
    }

    private void competence(String in, Technician.Competence competence) {
        plain(in, "from", competence.from());
        day(in, "until", competence.until());
        texts(in, "families", competence.families());
        duties(in, competence.duties());
        key(in, "document", competence.document());
    }

    private void lot(String in, Lot lot) {
        key(in, "id", lot.id());
        plain(in, "kind", lot.kind().word());
        key(in, "product", lot.product());
        key(in, "number", lot.number());
        plain(in, "expires", lot.expires());
        if (!lot.incubation().isZero()) {
            plain(in, "incubation", seconds(lot.incubation()));
        }
    }

    private void part(String in, Part part) {
        key(in, "id", part.id());
        key(in, "name", part.name());
        key(in, "number", part.number());
        texts(in, "families", part.families());
        duties(in, part.duties());
        if (part.stock().isPresent()) {
            plain(in, "stock", part.stock().getAsInt());
        }
        day(in, "shelf-life", part.shelfLife());
    }

    private void tester(String in, Tester tester) {
        key(in, "id", tester.id());
        key(in, "description", tester.description());
        key(in, "serial", tester.serial());
        list(in, "certificates", tester.certificates(), this::certificate);
    }

    private void certificate(String in, Tester.Certificate certificate) {
        key(in, "number", certificate.number());
        key(in, "laboratory", certificate.laboratory());
        plain(in, "calibrated-on", certificate.calibratedOn());
        plain(in, "due-on", certificate.dueOn());
    }
}
