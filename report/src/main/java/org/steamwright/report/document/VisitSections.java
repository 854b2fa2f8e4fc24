package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.figures;
import static org.steamwright.report.document.Sheet.Column.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.quantity.LeakRate;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.plot.Moments;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.CheckItem;
import org.steamwright.visit.CheckResult;
import org.steamwright.visit.CheckWords;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.SetChange;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.NamePlate;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** What belongs to the visit and not to one run: parties, machines, scope, instruments, checklists, leak tests, closing. */
final class VisitSections {

    /** Digits of a fingerprint that are printed; the whole stands in the result file. */
    private static final int SHA_SHOWN = 16;

    private final Sheet sheet;
    private final AssessedVisit assessed;
    private final Visit visit;

    private final PictureSection photos;

    VisitSections(Sheet sheet, AssessedVisit assessed, PictureSection photos) {
        this.sheet = sheet;
        this.photos = photos;
        this.assessed = assessed;
        this.visit = assessed.visit();
    }

    void write() {
        sheet.chapter("The visit", true);
        sheet.keep(this::parties);
        for (Sterilizer sterilizer : visit.sterilizers()) {
            sheet.keep(() -> sterilizer(sterilizer));
            photos.ofSterilizer(sterilizer.key());
        }
        sheet.keep(this::scope);
        sheet.keep(this::conditions);
        sheet.keep(this::instruments);
        for (Checklist list : visit.checklists()) {
            if (!list.items().isEmpty()) {
                sheet.keep(() -> checklist(list));
            }
        }
        List<AssessedRun> leaks = assessed.runs().stream()
                .filter(run -> run.run().test().kind() == TestKind.LEAK)
                .toList();
        if (!leaks.isEmpty()) {
            sheet.keep(() -> leakTests(leaks));
        }
    }

    void writeClosing() {
        sheet.chapter("Closing", false);
        list("Deviations", visit.deviations(), "None were noted.");
        list("Recommendations", visit.recommendations(), "None.");
        list("Next due", visit.nextDue(), "Not stated.");
        list("Not tested", visit.notTested(), "Nothing was left out that the visit folder names.");
        sheet.keep(this::files);
        sheet.keep(this::remarks);
    }

    private void parties() {
        sheet.heading("Parties");
        Sheet.Facts facts = sheet.facts();
        facts.need("Report number", visit.reportNumber());
        facts.need("Service company", visit.company());
        visit.clinic().ifPresent(clinic -> {
            facts.add("Clinic", clinic.name());
            facts.need("Premises", Wording.join(", ", clinic.address(), clinic.room()));
            facts.add("Contact", clinic.contact());
            facts.add("Customer or order no.", clinic.reference());
        });
        if (visit.clinic().isEmpty()) {
            facts.need("Clinic", "");
        }
        for (Person person : visit.people()) {
            facts.add(
                    person.role().isBlank() ? "Person" : person.role(),
                    Wording.join(
                            ". ",
                            Wording.join(", ", person.name(), person.organisation(), person.authorisation()),
                            person.confirms().isBlank() ? "" : Sentence.of("Confirms: %s", person.confirms())));
        }
        facts.end();
    }

    private void sterilizer(Sterilizer sterilizer) {
        sheet.heading(Sentence.of("Steriliser %s", sterilizer.key()));
        Sheet.Facts facts = sheet.facts();
        facts.need("Make and model", Wording.join(" ", sterilizer.maker(), sterilizer.model()));
        facts.need("Serial number", sterilizer.serial());
        facts.add(
                "Name plate",
                sterilizer.plate().map(plate -> plate(plate, sterilizer)).orElse(""));
        facts.add("Year", sterilizer.year());
        facts.add(
                "Chamber",
                Wording.join(
                        ", ",
                        sterilizer
                                .chamberLitres()
                                .map(v -> Wording.plain(v) + " L")
                                .orElse(""),
                        sterilizer.chamberSize().map(ChamberSize::text).orElse("")));
        facts.add("Firmware", sterilizer.firmware());
        facts.add("Place", sterilizer.location());
        facts.add("Pressure papers", sterilizer.pressurePapers());
        facts.add("Cycle counter", counter(sterilizer));
        facts.add(
                "Cycles",
                Sentence.list(
                        "; ",
                        sterilizer.cycles().stream().map(VisitSections::cycle).toList()));
        facts.end();
    }

    private static String plate(NamePlate plate, Sterilizer sterilizer) {
        String read = !plate.isRead()
                ? "not read"
                : Sentence.of(
                        plate.isOther(sterilizer.serial()) ? "says %s: not the steriliser of this visit" : "says %s",
                        plate.serial());
        List<String> parts = new ArrayList<>();
        parts.add(read);
        parts.add(plate.readBy().isBlank() ? "" : Sentence.of("read by %s", plate.readBy()));
        plate.photos()
                .forEach(photo -> parts.add(Sentence.of(
                        "photo %s, SHA-256 %s…", photo.name(), photo.sha256().substring(0, SHA_SHOWN))));
        return Sentence.list("; ", parts);
    }

    private static String counter(Sterilizer sterilizer) {
        String arrival = sterilizer.counterAtArrival().isPresent()
                ? Sentence.of("%s at arrival", sterilizer.counterAtArrival().getAsInt())
                : "";
        String departure = sterilizer.counterAtDeparture().isPresent()
                ? Sentence.of("%s at departure", sterilizer.counterAtDeparture().getAsInt())
                : "";
        return Wording.join(", ", arrival, departure);
    }

    static String cycle(CycleDefinition cycle) {
        List<String> parts = new ArrayList<>();
        parts.add(Sentence.of("%s (type %s)", cycle.name(), cycle.type()));
        String at = Wording.plain(cycle.sterilizingTemperature().celsius()) + " °C";
        if (!cycle.name().equals(at)) {
            parts.add(at);
        }
        cycle.holdingTime().ifPresent(time -> parts.add(Sentence.of("holding time %s s", time.toSeconds())));
        cycle.airRemovalPulses()
                .ifPresent(count -> parts.add(Wording.count(count, "%s air removal pulse", "%s air removal pulses")));
        cycle.pulseDepth()
                .ifPresent(depth -> parts.add(Sentence.of("pulses down to %s kPa abs", Wording.plain(depth))));
        cycle.dryingTime().ifPresent(time -> parts.add(Sentence.of("drying %s s", time.toSeconds())));
        return Sentence.list(", ", parts);
    }

    private void scope() {
        CriteriaSet set = visit.criteriaSet();
        sheet.heading("Scope and rules");
        Sheet.Facts facts = sheet.facts();
        facts.need("Purpose", visit.purpose());
        facts.need("Day", visit.date().map(Wording::day).orElse(""));
        facts.add("Time zone of the site", visit.zone().getId());
        facts.add("Criteria set", set.title());
        facts.add(
                "Set changed",
                Sentence.list(
                        " ",
                        visit.setChanges().stream().map(SetChange::sentence).toList()));
        facts.add("Name and version", Wording.join(" ", set.name(), set.version()));
        facts.add("SHA-256 of the set", set.sha256());
        facts.add("Decision rule", decisionRules(set));
        facts.add("Saturation formula", Wording.join(" – ", set.curve().title(), Wording.cite(set.curveSource())));
        facts.add(
                "Loaded runs needed",
                Wording.count(set.consecutiveRuns(), "%s passing run", "%s passing runs in a row"));
        facts.add(
                "Requalification",
                set.revalidation().map(m -> Sentence.of("after %s months", m)).orElse("the set states no period"));
        facts.add("Not tested", Sentence.list("; ", visit.notTested()));
        facts.end();
    }

    private static String decisionRules(CriteriaSet set) {
        List<String> rules = new ArrayList<>();
        for (DecisionRule rule : DecisionRule.values()) {
            long number = set.requirements().values().stream()
                    .filter(requirement -> requirement.use() == Use.DECIDES && requirement.rule() == rule)
                    .count();
            if (number > 0) {
                rules.add(Sentence.of("%s for %s deciding criteria", rule.word(), number));
            }
        }
        return rules.isEmpty()
                ? ""
                : Sentence.of("%s; the simple and the guarded outcome are both printed", Sentence.list(", ", rules));
    }

    private void conditions() {
        Conditions conditions = visit.conditions();
        sheet.heading("Conditions of the day");
        Sheet.Facts facts = sheet.facts();
        facts.add(
                "Barometer",
                conditions
                        .barometerKilopascal()
                        .map(v -> Wording.join(", ", Wording.plain(v) + " kPa", conditions.barometerSource()))
                        .orElse("no reading"));
        facts.add(
                "Altitude",
                conditions.altitudeMetres().map(v -> Wording.plain(v) + " m").orElse(""));
        facts.add("Room", room(conditions));
        facts.add(
                "Mains",
                conditions.supplyVoltage().map(v -> Wording.plain(v) + " V").orElse(""));
        facts.add(
                "Feed water",
                conditions
                        .waterConductivity()
                        .map(v -> Wording.plain(v) + " µS/cm")
                        .orElse(""));
        assessed.runs().stream()
                .map(run -> run.evaluation().run().ambient())
                .distinct()
                .forEach(ambient -> facts.add("Ambient pressure used", ambient(ambient)));
        facts.end();
    }

    private static String room(Conditions conditions) {
        return Wording.join(
                ", ",
                conditions.roomCelsius().map(v -> Wording.plain(v) + " °C").orElse(""),
                conditions
                        .roomHumidityPercent()
                        .map(v -> Sentence.of("%s % relative humidity", Wording.plain(v)))
                        .orElse(""));
    }

    private static String ambient(Ambient ambient) {
        String basis = ambient.basis().words();
        return Wording.join(
                ", ",
                Sentence.of(
                        "%s ± %s",
                        Figures.nearest(ambient.pressure().kilopascal(), 2) + " kPa",
                        Wording.plain(ambient.halfWidthKilopascal()) + " kPa"),
                ambient.note().isBlank() ? basis : Sentence.of("%s (%s)", basis, ambient.note()));
    }

    private void instruments() {
        sheet.heading("Reference instruments");
        Map<String, ReferenceInstrument> all = new TreeMap<>(visit.instruments());
        if (all.isEmpty()) {
            sheet.paragraph("No reference instrument was declared, so nothing shows that the readings can be traced.");
            return;
        }
        sheet.table(
                words("Instrument", 35.6),
                words("Range", 26),
                words("Certificate", 42),
                words("Corrections, with U and k", 70.4));
        Html html = sheet.html();
        for (ReferenceInstrument known : all.values()) {
            // the certificate of the day, not one that came later
            ReferenceInstrument instrument = visit.date().map(known::on).orElse(known);
            html.open("tr");
            html.open("td").text(instrument.id());
            html.element("span", "under", instrument.description()).close();
            html.element("td", "", range(instrument));
            html.open("td");
            instrument.certificate().ifPresentOrElse(this::certificate, () -> html.text("none"));
            html.close();
            html.open("td", "class", "small last");
            instrument.certificate().ifPresent(certificate -> points(certificate, instrument.quantity()));
            html.close().close();
        }
        sheet.endTable();
        sheet.aside("Corrections are interpolated in straight lines between the points of a certificate and never "
                + "extrapolated.");
        new CheckSection(sheet, assessed).write();
    }

    private void certificate(CalibrationCertificate certificate) {
        Html html = sheet.html();
        html.text(Wording.join(", ", certificate.number(), certificate.laboratory()));
        html.element(
                "span",
                "under",
                Sentence.of(
                        inDate(certificate),
                        Wording.day(certificate.calibratedOn()),
                        Wording.day(certificate.dueOn())));
        certificate.file().ifPresent(file -> {
            html.element(
                    "span",
                    "under",
                    Sentence.of(
                            "file %s, SHA-256 %s…, schema %s",
                            file.name(), file.sha256().substring(0, SHA_SHOWN), file.schemaVersion()));
            html.element(
                    "span",
                    "under",
                    Wording.join("; ", file.item(), file.state().title()));
            html.element("span", "under", file.signatureText());
        });
    }

    private void points(CalibrationCertificate certificate, Quantity quantity) {
        String unit = quantity.unit();
        String difference = quantity == Quantity.TEMPERATURE ? "K" : unit;
        boolean isFirst = true;
        for (CalibrationPoint point : certificate.points()) {
            if (!isFirst) {
                sheet.html().empty("br");
            }
            isFirst = false;
            sheet.html()
                    .text(Sentence.of(
                            "at %s: %s, U %s (k %s)",
                            Figures.nearest(point.indicated(), 2) + " " + unit,
                            signed(point.correction(), 3) + " " + difference,
                            Figures.nearest(point.expandedUncertainty(), 3),
                            Wording.plain(point.coverageFactor())));
        }
    }

    private String inDate(CalibrationCertificate certificate) {
        return visit.date()
                .map(day -> day.isBefore(certificate.calibratedOn()) || day.isAfter(certificate.dueOn())
                        ? "%s to %s; not in date on the day of the tests"
                        : "%s to %s; in date on the day of the tests")
                .orElse("%s to %s");
    }

    private static String range(ReferenceInstrument instrument) {
        String unit = instrument.quantity().unit();
        boolean low = Double.isFinite(instrument.rangeLow());
        boolean high = Double.isFinite(instrument.rangeHigh());
        if (!low && !high) {
            return Wording.NOT_STATED;
        }
        return Sentence.of(
                "%s to %s",
                low ? Wording.plain(instrument.rangeLow()) : "…",
                (high ? Wording.plain(instrument.rangeHigh()) : "…") + " " + unit);
    }

    static String signed(double value, int decimals) {
        String text = Figures.nearest(value, decimals);
        return text.startsWith("−") ? text : "+" + text;
    }

    private void checklist(Checklist list) {
        sheet.heading(
                visit.sterilizers().size() > 1
                        ? Sentence.of("%s – steriliser %s", list.section().title(), list.sterilizer())
                        : list.section().title());
        sheet.table(
                words("Check", 50),
                words("Result", 24),
                words("As found", 22),
                words("As left", 22),
                words("Limit", 24),
                words("Remark", 32));
        for (CheckItem item : list.items()) {
            String remark = Wording.join(
                    "; ",
                    item.remark(),
                    item.instrument().isBlank() ? "" : Sentence.of("instrument %s", item.instrument()));
            sheet.cells(item.title(), result(list, item), item.asFound(), item.asLeft(), item.limit(), remark);
        }
        sheet.endTable();
    }

    /** The result as it was chosen, or the words that stand there, with a word beside them where they decide nothing. */
    private static String result(Checklist list, CheckItem item) {
        String shown = CheckWords.shown(item.result());
        return switch (CheckResult.of(list.section(), item)) {
            case UNKNOWN, NOT_SAID, UNEXPLAINED -> Sentence.of("%s (not assessed)", shown);
            case GOOD, LEFT_OUT, OPEN, FAILED -> shown;
        };
    }

    /** All leak tests of the visit side by side. */
    private void leakTests(List<AssessedRun> runs) {
        sheet.heading("Leak tests");
        sheet.paragraph(
                "The chamber is evacuated, isolated, left to settle, and then watched. p1 is read at isolation, p2 "
                        + "after settling, p3 at the end; the rate is (p3 − p2) divided by the measuring time.");
        sheet.table(
                words("Run", 33),
                figures("p1, p2, p3 (kPa abs)", 22),
                figures("settling, measuring", 22),
                figures("rate", 27),
                figures("at constant temperature", 25),
                words("limit", 25),
                words("Verdict", 20));
        runs.forEach(this::leakRow);
        sheet.endTable();
        sheet.aside(
                "Each rate is given in kPa/min, mbar/min and mmHg/min. The value at constant temperature brings p3 to "
                        + "the chamber temperature of p2 by the ideal gas law; it stands beside the rate and decides nothing.");
    }

    private void leakRow(AssessedRun assessedRun) {
        Html html = sheet.html();
        VisitRun run = assessedRun.run();
        Optional<LeakTest> found = assessedRun.evaluation().leakTest();
        html.open("tr");
        html.open("td").text(Sentence.of("%s – steriliser %s", run.number(), run.sterilizer()));
        html.element("span", "under", Wording.join(" · ", run.stage(), run.startCondition()))
                .close();
        if (found.isEmpty()) {
            for (int i = 0; i < 4; i++) {
                html.element("td", "n", "–");
            }
        } else {
            LeakTest leak = found.get();
            lines(
                    Figures.nearest(leak.isolationKilopascal(), 2),
                    Figures.nearest(leak.settledKilopascal(), 2),
                    Figures.nearest(leak.endKilopascal(), 2));
            lines(
                    Moments.length(leak.settlingPeriodSeconds()),
                    Moments.length(leak.measuringPeriodSeconds()),
                    leak.isDeclared() ? "declared" : "found in the trace");
            rates(Optional.of(leak.rate()));
            rates(leak.temperatureCorrectedRate());
        }
        var finding = assessedRun.evaluation().findings().stream()
                .filter(f -> f.id() == CriterionId.LEAK_RATE)
                .findFirst();
        html.element(
                "td",
                "together",
                finding.flatMap(Finding::limit).map(Limit::toString).orElse("none"));
        html.open("td", "class", "last");
        sheet.verdict(assessedRun);
        html.close().close();
    }

    private void rates(Optional<LeakRate> rate) {
        if (rate.isEmpty()) {
            lines("–");
            return;
        }
        lines(
                Figures.highSide(rate.get().kilopascalPerMinute(), 3) + " kPa/min",
                Figures.highSide(rate.get().millibarPerMinute(), 2) + " mbar/min",
                Figures.highSide(rate.get().millimetreOfMercuryPerMinute(), 2) + " mmHg/min");
    }

    private void lines(String... texts) {
        Html html = sheet.html();
        html.open("td", "class", "n");
        for (int i = 0; i < texts.length; i++) {
            if (i > 0) {
                html.empty("br");
            }
            html.text(texts[i]);
        }
        html.close();
    }

    private void list(String title, List<String> lines, String none) {
        sheet.keep(() -> {
            sheet.heading(title);
            if (lines.isEmpty()) {
                sheet.paragraph(none);
            } else {
                sheet.bullets(lines);
            }
        });
    }

    private void files() {
        sheet.heading("Recordings");
        sheet.table(words("File", 50), words("Run", 14), figures("Size", 26), words("SHA-256", 84));
        for (VisitRun run : visit.runs()) {
            for (Trace.SourceFile file : run.test().trace().files()) {
                sheet.cells(
                        file.isSimulated() ? Sentence.of("%s (simulated)", file.name()) : file.name(),
                        String.valueOf(run.number()),
                        Sentence.of("%s bytes", file.bytes()),
                        file.sha256());
            }
        }
        sheet.endTable();
        sheet.aside("Whoever holds these files can compute every figure of this report again.");
    }

    private void remarks() {
        List<Remark> all = new ArrayList<>(visit.remarks());
        for (VisitRun run : visit.runs()) {
            for (Remark remark : run.test().trace().remarks()) {
                if (!all.contains(remark)) {
                    all.add(remark);
                }
            }
        }
        sheet.heading("Remarks on reading the files");
        if (all.isEmpty()) {
            sheet.paragraph("Nothing about the files was odd.");
            return;
        }
        sheet.table(words("Remark", 35.6), words("Where", 44), words("What", 94.4));
        for (Remark remark : all) {
            String rank = switch (remark.rank()) {
                case NOTE -> "note";
                case DOUBT -> "to be answered before signing";
                case UNUSABLE -> "not usable";
            };
            sheet.cells(Wording.join(", ", remark.id(), rank), remark.where(), remark.text());
        }
        sheet.endTable();
    }
}
