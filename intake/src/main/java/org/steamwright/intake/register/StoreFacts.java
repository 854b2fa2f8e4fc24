package org.steamwright.intake.register;

import static org.steamwright.intake.register.RegisterFile.checked;
import static org.steamwright.intake.register.RegisterFile.list;

import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Fields;
import org.steamwright.intake.folder.Measure;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Part;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;

/** People, lots and parts of the office. */
final class StoreFacts {

    private static final double MILLISECONDS = 1000;

    private StoreFacts() {}

    static Optional<Technician> technician(Fields fields) {
        Optional<String> id = fields.needText("id", "KS");
        Optional<String> name = fields.needText("name", "Kim Sample (invented)");
        List<Technician.Competence> competences =
                list(fields, "competences", RegisterShape.COMPETENCE, StoreFacts::competence);
        return id.isEmpty() || name.isEmpty()
                ? Optional.empty()
                : checked(fields.entry(), () -> new Technician(id.get(), name.get(), competences));
    }

    private static Optional<Technician.Competence> competence(Fields fields) {
        List<String> families = fields.texts("families");
        List<Duty> duties = duties(fields);
        Optional<LocalDate> from = fields.need("from", "2026-01-01").flatMap(Entry::date);
        Optional<LocalDate> until = fields.date("until");
        String document = fields.text("document");
        return from.isEmpty()
                ? Optional.empty()
                : checked(
                        fields.entry(), () -> new Technician.Competence(families, duties, from.get(), until, document));
    }

    private static List<Duty> duties(Fields fields) {
        List<Duty> duties = new ArrayList<>();
        for (Entry one : fields.list("duties")) {
            one.word(RegisterWords.DUTY).ifPresent(duties::add);
        }
        return duties;
    }

    static Optional<Lot> lot(Fields fields) {
        Optional<String> id = fields.needText("id", "BI-77");
        Optional<Lot.Kind> kind = fields.need("kind", "biological").flatMap(entry -> entry.word(RegisterWords.LOT));
        String product = fields.text("product");
        Optional<String> number = fields.needText("number", "\"77\"");
        Optional<LocalDate> expires = fields.need("expires", "2026-06-30").flatMap(Periods::expiry);
        Duration incubation = fields.quantity("incubation", Measure.DURATION)
                .map(seconds -> Duration.ofMillis(Math.round(seconds * MILLISECONDS)))
                .orElse(Duration.ZERO);
        return id.isEmpty() || kind.isEmpty() || number.isEmpty() || expires.isEmpty()
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new Lot(id.get(), kind.get(), product, number.get(), expires.get(), incubation));
    }

    static Optional<Part> part(Fields fields) {
        Optional<String> id = fields.needText("id", "P-01");
        Optional<String> name = fields.needText("name", "door seal");
        String number = fields.text("number");
        List<String> families = fields.texts("families");
        List<Duty> duties = duties(fields);
        OptionalInt stock = fields.count("stock");
        Optional<LocalDate> shelfLife = fields.find("shelf-life").flatMap(Periods::expiry);
        return id.isEmpty() || name.isEmpty()
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new Part(id.get(), name.get(), number, families, duties, stock, shelfLife));
    }

    static Optional<Tester> tester(Fields fields) {
        Optional<String> id = fields.needText("id", "ET-01");
        String description = fields.text("description");
        String serial = fields.text("serial");
        List<Tester.Certificate> certificates =
                list(fields, "certificates", RegisterShape.TESTER_CERTIFICATE, StoreFacts::certificate);
        return id.flatMap(known -> checked(fields.entry(), () -> new Tester(known, description, serial, certificates)));
    }

    private static Optional<Tester.Certificate> certificate(Fields fields) {
        Optional<String> number = fields.needText("number", "K-2026-0311");
        String laboratory = fields.text("laboratory");
        Optional<LocalDate> calibratedOn =
                fields.need("calibrated-on", "2026-01-12").flatMap(Entry::date);
        Optional<LocalDate> dueOn = fields.need("due-on", "2027-01-12").flatMap(Entry::date);
        return number.isEmpty() || calibratedOn.isEmpty() || dueOn.isEmpty()
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new Tester.Certificate(number.get(), laboratory, calibratedOn.get(), dueOn.get()));
    }
}
