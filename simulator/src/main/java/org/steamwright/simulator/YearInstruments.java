package org.steamwright.simulator;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Distribution;

/** Reference instruments of the invented year with their calibrations, one a year, each a little further off. */
final class YearInstruments {

    private static final int CALIBRATIONS = 4;
    private static final int LAST_DAYS_AGO = 120;
    /** One was calibrated apart from the others, and is due soon. */
    private static final String EARLY = "TL-05";

    private static final int EARLY_DAYS_AGO = 326;
    private static final int DAYS = 365;
    private static final int LOT_DAYS = 300;

    private YearInstruments() {}

    /** Last good day of the indicators that a visit uses. */
    static LocalDate lotExpires(YearVisit visit) {
        return visit.day().plusDays(LOT_DAYS);
    }

    /** An entry of a visit, with the certificate that was in force on its day. */
    static String ofVisit(ReferenceInstrument instrument, LocalDate day, LocalDate end) {
        int back = 0;
        while (calibratedOn(instrument, back, end).isAfter(day)) {
            back++;
        }
        return head(instrument) + "    certificate:\n" + certificate(instrument, back, end, "      ")
                + contributions(instrument);
    }

    /** An entry of the register, with all certificates. */
    static String ofRegister(ReferenceInstrument instrument, LocalDate end) {
        StringBuilder text = new StringBuilder(head(instrument)).append("    certificates:\n");
        for (int back = CALIBRATIONS - 1; back >= 0; back--) {
            String certificate = certificate(instrument, back, end, "        ");
            text.append("      - ").append(certificate.stripLeading());
        }
        return text + contributions(instrument);
    }

    private static LocalDate calibratedOn(ReferenceInstrument instrument, int back, LocalDate end) {
        int last = instrument.id().equals(EARLY) ? EARLY_DAYS_AGO : LAST_DAYS_AGO;
        return end.minusDays(last + (long) DAYS * back);
    }

    private static String head(ReferenceInstrument instrument) {
        String unit = unit(instrument);
        return """
                  - id: %s
                    description: %s
                    measures: %s
                    range: {from: %s %s, to: %s %s}
                """.formatted(
                        instrument.id(),
                        instrument.description(),
                        instrument.quantity().name().toLowerCase(Locale.ROOT),
                        DemoText.plain(instrument.rangeLow()),
                        unit,
                        DemoText.plain(instrument.rangeHigh()),
                        unit);
    }

    private static String certificate(ReferenceInstrument instrument, int back, LocalDate end, String indent) {
        CalibrationCertificate certificate = instrument.certificate().orElseThrow();
        CalibrationPoint first = certificate.points().get(0);
        LocalDate on = calibratedOn(instrument, back, end);
        String unit = unit(instrument);
        List<String> points = certificate.points().stream()
                .map(point -> "[%s %s, %s %s]"
                        .formatted(
                                DemoText.plain(point.reference()),
                                unit,
                                DemoText.plain(point.indicated() - drifted(instrument, back)),
                                unit))
                .toList();
        return """
                number: K-%s-%s (invented)
                laboratory: Example Calibration (invented)
                calibrated-on: %s
                due-on: %s
                U: %s %s
                k: %s
                points: [%s]
                """.formatted(
                        on.getYear(),
                        instrument.id(),
                        on,
                        on.plusDays(DAYS),
                        DemoText.plain(first.expandedUncertainty()),
                        difference(instrument),
                        DemoText.plain(first.coverageFactor()),
                        String.join(", ", points))
                .lines()
                .map(line -> indent + line + "\n")
                .reduce("", String::concat);
    }

    /** How far it had still to go so many calibrations ago; the second sensor goes fastest. */
    private static double drifted(ReferenceInstrument instrument, int back) {
        double step = instrument.id().endsWith("2") ? 0.02 : 0.01;
        return back * step * (instrument.id().hashCode() % 2 == 0 ? 1 : -1);
    }

    private static String contributions(ReferenceInstrument instrument) {
        StringBuilder text = new StringBuilder();
        for (Contribution contribution : instrument.contributions()) {
            text.append(
                    contribution.distribution() == Distribution.RECTANGULAR
                            ? "    drift: ±%s %s\n"
                                    .formatted(DemoText.plain(contribution.stated()), difference(instrument))
                            : "    contributions:\n      - {name: %s, size: %s %s, distribution: standard, per-reading: yes, origin: %s}\n"
                                    .formatted(
                                            contribution.name(),
                                            DemoText.plain(contribution.stated()),
                                            difference(instrument),
                                            contribution.origin()));
        }
        return text.toString();
    }

    private static String unit(ReferenceInstrument instrument) {
        return instrument.quantity() == Quantity.TEMPERATURE ? "°C" : "kPa";
    }

    private static String difference(ReferenceInstrument instrument) {
        return instrument.quantity() == Quantity.TEMPERATURE ? "K" : "kPa";
    }
}
