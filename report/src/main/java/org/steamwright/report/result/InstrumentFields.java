package org.steamwright.report.result;

import java.io.IOException;
import java.util.List;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CertificateFile;
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
            certificate(instrument.certificate().get(), instrument.quantity(), fields);
        }
        fields.list("contributions");
        for (Contribution contribution : instrument.contributions()) {
            contribution(contribution, UnitNames.difference(instrument.quantity()), fields);
        }
        fields.endList();
        fields.endObject();
    }

    static void budget(Budget budget, Quantity quantity, Fields fields) throws IOException {
        String unit = UnitNames.difference(quantity);
        fields.object("budget");
        fields.text("of", budget.quantity());
        fields.list("contributions");
        for (Contribution contribution : budget.contributions()) {
            contribution(contribution, unit, fields);
        }
        fields.endList();
        fields.number("combinedStandardUncertainty" + unit, budget.combined());
        fields.number("effectiveDegreesOfFreedom", budget.effectiveDegreesOfFreedom());
        fields.number("coverageFactor", budget.coverageFactor());
        fields.number("expandedUncertainty" + unit, budget.expanded().value());
        fields.endObject();
    }

    private static void certificate(CalibrationCertificate certificate, Quantity quantity, Fields fields)
            throws IOException {
        String unit = UnitNames.indicated(quantity);
        String difference = UnitNames.difference(quantity);
        fields.object("certificate");
        fields.text("number", certificate.number());
        fields.text("laboratory", certificate.laboratory());
        fields.text("calibratedOn", certificate.calibratedOn().toString());
        fields.text("dueOn", certificate.dueOn().toString());
        points("points", certificate.points(), unit, difference, fields);
        if (certificate.file().isPresent()) {
            file(certificate.file().get(), unit, difference, fields);
        }
        fields.endObject();
    }

    private static void file(CertificateFile file, String unit, String difference, Fields fields) throws IOException {
        fields.object("file");
        fields.text("name", file.name());
        fields.text("sha256", file.sha256());
        fields.text("schemaVersion", file.schemaVersion());
        fields.text("item", file.item());
        fields.word("state", file.state());
        fields.word("signature", file.signature());
        fields.text("signatureText", file.signatureText());
        points("asFound", file.asFound(), unit, difference, fields);
        fields.endObject();
    }

    private static void points(
            String name, List<CalibrationPoint> points, String unit, String difference, Fields fields)
            throws IOException {
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

    private static void contribution(Contribution contribution, String unit, Fields fields) throws IOException {
        fields.element();
        fields.text("name", contribution.name());
        fields.number("stated" + unit, contribution.stated());
        fields.word("distribution", contribution.distribution());
        fields.number("divisor", contribution.divisor());
        fields.number("sensitivity", contribution.sensitivity());
        fields.number("degreesOfFreedom", contribution.degreesOfFreedom());
        fields.number("standardUncertainty" + unit, contribution.standardUncertainty());
        fields.text("origin", contribution.origin());
        fields.endObject();
    }
}
