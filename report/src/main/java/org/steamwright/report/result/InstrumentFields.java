package org.steamwright.report.result;

import java.io.IOException;
import java.util.List;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.calibration.Drift;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;

/** Instruments with their certificates, and budgets line by line. */
final class InstrumentFields {
    private InstrumentFields() {}

    static void write(ReferenceInstrument instrument, Fields fields) throws IOException {
        String unit = UnitNames.indicated(instrument.quantity());
        fields.element();
        fields.text("id", instrument.id());
        fields.text("description", instrument.description());
        fields.word("quantity", instrument.quantity());
        fields.number("rangeLow" + unit, instrument.rangeLow());
        fields.number("rangeHigh" + unit, instrument.rangeHigh());
        if (instrument.certificate().isPresent()) {
            certificate("certificate", instrument.certificate().get(), instrument.quantity(), fields);
        }
        fields.list("contributions");
        for (Contribution contribution : instrument.contributions()) {
            String unitOfLine = UnitNames.difference(instrument.quantity());
            contribution(contribution, unitOfLine, unitOfLine, fields);
        }
        fields.endList();
        if (!instrument.history().equals(InstrumentHistory.NONE)) {
            history(instrument, fields);
        }
        fields.endObject();
    }

    private static void history(ReferenceInstrument instrument, Fields fields) throws IOException {
        Quantity quantity = instrument.quantity();
        InstrumentHistory history = instrument.history();
        String unit = UnitNames.indicated(quantity);
        String difference = UnitNames.difference(quantity);
        fields.object("history");
        fields.list("calibrations");
        for (CalibrationEvent event : history.calibrations()) {
            fields.element();
            certificate("certificate", event.certificate(), quantity, fields);
            if (event.isAdjusted()) {
                points("asFound", event.asFound(), quantity, fields);
            }
            fields.endObject();
        }
        fields.endList();
        fields.list("drifts");
        for (Drift drift : history.drifts()) {
            fields.element();
            fields.text("from", drift.from().day().toString());
            fields.text("to", drift.to().day().toString());
            fields.list("points");
            for (Drift.Point point : drift.points()) {
                fields.element();
                fields.number("indicated" + unit, point.indicated());
                fields.number("change" + difference, point.change());
                fields.number("changePerYear" + difference, drift.perYear(point));
                fields.number("standardUncertainty" + difference, point.standardUncertainty());
                fields.endObject();
            }
            fields.endList();
            fields.endObject();
        }
        fields.endList();
        fields.list("checks");
        for (FieldCheck check : history.checks()) {
            fields.element();
            fields.text("on", check.day().toString());
            fields.text("when", check.moment().word());
            fields.text("method", check.method());
            fields.text("against", check.against());
            fields.text("by", check.author());
            if (check.tolerance().isPresent()) {
                fields.number("tolerance" + difference, check.tolerance().get());
            }
            if (instrument.on(check.day()).certificate().isPresent()) {
                fields.number(
                        "deviation" + difference,
                        check.worst(instrument.on(check.day()).certificate().get())
                                .deviation());
            }
            fields.list("readings");
            for (FieldCheck.Pair pair : check.pairs()) {
                fields.element();
                fields.number("reference" + unit, pair.reference());
                fields.number("indicated" + unit, pair.indicated());
                fields.endObject();
            }
            fields.endList();
            fields.endObject();
        }
        fields.endList();
        fields.list("quarantines");
        for (Quarantine quarantine : history.quarantines()) {
            fields.element();
            fields.text("from", quarantine.from().toString());
            fields.text("until", quarantine.until().map(String::valueOf).orElse(""));
            fields.text("reason", quarantine.reason());
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    /** A budget whose lines and result may differ in unit, as a rise per minute does from a pressure. */
    static void budget(Budget budget, Fields fields) throws IOException {
        boolean isRate = budget.unit().equals("kPa/min");
        String unit = budget.unit().equals("K") ? "Kelvin" : "Kilopascal";
        budget(budget, unit, isRate ? "KilopascalPerMinute" : unit, fields);
    }

    private static void budget(Budget budget, String stated, String unit, Fields fields) throws IOException {
        fields.object("budget");
        fields.text("of", budget.quantity());
        fields.list("contributions");
        for (Contribution contribution : budget.contributions()) {
            contribution(contribution, stated, unit, fields);
        }
        fields.endList();
        fields.number("combinedStandardUncertainty" + unit, budget.combined());
        fields.number("effectiveDegreesOfFreedom", budget.effectiveDegreesOfFreedom());
        fields.number("coverageFactor", budget.coverageFactor());
        fields.number("expandedUncertainty" + unit, budget.expanded().value());
        fields.endObject();
    }

    private static void certificate(String name, CalibrationCertificate certificate, Quantity quantity, Fields fields)
            throws IOException {
        fields.object(name);
        fields.text("number", certificate.number());
        fields.text("laboratory", certificate.laboratory());
        fields.text("calibratedOn", certificate.calibratedOn().toString());
        fields.text("dueOn", certificate.dueOn().toString());
        points("points", certificate.points(), quantity, fields);
        if (certificate.file().isPresent()) {
            file(certificate.file().get(), quantity, fields);
        }
        fields.endObject();
    }

    private static void file(CertificateFile file, Quantity quantity, Fields fields) throws IOException {
        fields.object("file");
        fields.text("name", file.name());
        fields.text("sha256", file.sha256());
        fields.text("schemaVersion", file.schemaVersion());
        fields.text("item", file.item());
        fields.word("state", file.state());
        fields.word("signature", file.signature());
        fields.text("signatureText", file.signatureText());
        points("asFound", file.asFound(), quantity, fields);
        fields.endObject();
    }

    private static void points(String name, List<CalibrationPoint> points, Quantity quantity, Fields fields)
            throws IOException {
        String unit = UnitNames.indicated(quantity);
        String difference = UnitNames.difference(quantity);
        fields.list(name);
        for (CalibrationPoint point : points) {
            fields.element();
            fields.number("reference" + unit, point.reference());
            fields.number("indicated" + unit, point.indicated());
            fields.number("correction" + difference, point.correction());
            fields.number("expandedUncertainty" + difference, point.expandedUncertainty());
            fields.number("coverageFactor", point.coverageFactor());
            fields.endObject();
        }
        fields.endList();
    }

    private static void contribution(Contribution contribution, String stated, String unit, Fields fields)
            throws IOException {
        fields.element();
        fields.text("name", contribution.name());
        fields.number("stated" + stated, contribution.stated());
        fields.word("distribution", contribution.distribution());
        fields.number("divisor", contribution.divisor());
        fields.number("sensitivity", contribution.sensitivity());
        fields.number("degreesOfFreedom", contribution.degreesOfFreedom());
        fields.number("standardUncertainty" + unit, contribution.standardUncertainty());
        fields.text("origin", contribution.origin());
        if (contribution.isPerReading()) {
            fields.flag("isPerReading", true);
        }
        if (!contribution.correlation().group().isEmpty()) {
            fields.text("commonWith", contribution.correlation().group());
            fields.number("correlation", contribution.correlation().coefficient());
        }
        fields.endObject();
    }
}
