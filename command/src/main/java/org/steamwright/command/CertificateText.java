package org.steamwright.command;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.certificate.CalibratedItem;
import org.steamwright.intake.certificate.DigitalCertificate;
import org.steamwright.intake.certificate.ResultTable;
import org.steamwright.intake.certificate.TablePoint;

/** How a digital calibration certificate was understood, as lines for a terminal. */
final class CertificateText {

    private CertificateText() {}

    static List<String> of(DigitalCertificate certificate) {
        List<String> lines = new ArrayList<>();
        lines.add(certificate.file() + ", SHA-256 " + certificate.sha256());
        if (certificate.isSimulated()) {
            lines.add("SIMULATED: invented data, not a real certificate.");
        }
        lines.add("Calibration certificate " + certificate.number() + ", schema " + certificate.schemaVersion());
        lines.add("");
        lines.add("  Laboratory     " + certificate.laboratory());
        certificate.identifications().forEach(one -> lines.add("  Number         " + one));
        lines.add("  Calibrated on  " + certificate.calibratedOn());
        certificate.issuedOn().ifPresent(day -> lines.add("  Issued on      " + day));
        lines.add("  Due on         "
                + certificate
                        .recalibrateBy()
                        .map(Object::toString)
                        .orElse("not stated in the certificate; the visit file has to say it"));
        VerdictText.broken("  Signature      ", certificate.signature().text(), lines);
        lines.add("");
        int place = 1;
        for (CalibratedItem item : certificate.items()) {
            String maker = item.maker().isEmpty() ? "" : ", by " + item.maker();
            String model = item.model().isEmpty() ? "" : ", model " + item.model();
            VerdictText.broken("  Item " + place + "  ", item + maker + model, lines);
            place++;
        }
        for (ResultTable table : certificate.tables()) {
            lines.add("");
            table(table, certificate.items(), lines);
        }
        block("Conditions", certificate.conditions(), lines);
        block("Statements", certificate.statements(), lines);
        if (!certificate.remarks().isEmpty()) {
            lines.add("");
            for (Remark remark : certificate.remarks()) {
                VerdictText.broken(remark.rank().name().toLowerCase(Locale.ROOT) + " ", remark.toString(), lines);
            }
        }
        return lines;
    }

    private static void table(ResultTable table, List<CalibratedItem> items, List<String> lines) {
        String ofItems = table.items().isEmpty() || items.size() < 2 ? "" : ", item " + String.join(" ", table.items());
        lines.add("Result " + table.name() + ": " + table.kind().title() + ofItems + ", "
                + table.stage().title());
        if (!table.points().isEmpty()) {
            lines.add("     reference     indicated         error             U     k  "
                    + (table.points().stream()
                                    .anyMatch(point -> !point.conformity().isEmpty())
                            ? "conformity"
                            : ""));
        }
        for (TablePoint point : table.points()) {
            boolean isOneUnit = table.referenceUnit().equals(table.indicatedUnit());
            lines.add(("  " + cell(number(point.reference()), table.referenceUnit(), 12)
                            + cell(number(point.indicated()), table.indicatedUnit(), 14)
                            + (isOneUnit
                                    ? cell(number(point.error()), table.differenceUnit(), 14)
                                    : VerdictText.leftPadded("-", 14))
                            + cell(
                                    point.expanded()
                                            .map(CertificateText::number)
                                            .orElse("not stated"),
                                    point.expanded().isPresent() ? table.differenceUnit() : "",
                                    14)
                            + VerdictText.leftPadded(
                                    point.factor().map(CertificateText::number).orElse("-"), 6)
                            + "  " + point.conformity()
                            + (point.acceptance().isEmpty() ? "" : " (accepted " + point.acceptance() + ")")
                            + (point.tolerance().isEmpty() ? "" : " (tolerated " + point.tolerance() + ")"))
                    .stripTrailing());
        }
        probability(table, lines);
        table.figures().forEach(figure -> VerdictText.broken("  ", figure, lines));
        table.whyNotUsed().ifPresent(why -> VerdictText.broken("  Not used: ", why, lines));
    }

    private static void probability(ResultTable table, List<String> lines) {
        List<String> said = table.points().stream()
                .filter(point -> point.probability().isPresent())
                .map(point ->
                        "coverage probability " + number(point.probability().orElseThrow())
                                + (point.distribution().isEmpty() ? "" : ", distribution " + point.distribution()))
                .distinct()
                .toList();
        said.forEach(one -> lines.add("  U: " + one));
    }

    private static void block(String title, List<String> texts, List<String> lines) {
        if (!texts.isEmpty()) {
            lines.add("");
            lines.add(title);
            texts.forEach(text -> VerdictText.broken("  - ", text, lines));
        }
    }

    private static String cell(String number, String unit, int width) {
        return VerdictText.leftPadded(unit.isEmpty() ? number : number + " " + unit, width);
    }

    private static String number(double value) {
        BigDecimal plain =
                BigDecimal.valueOf(value).setScale(6, RoundingMode.HALF_EVEN).stripTrailingZeros();
        return plain.signum() == 0 ? "0" : plain.toPlainString();
    }
}
