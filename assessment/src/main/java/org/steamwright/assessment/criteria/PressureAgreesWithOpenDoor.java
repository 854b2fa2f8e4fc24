package org.steamwright.assessment.criteria;

import java.util.List;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.quantity.PressureReference;

/**
 * Whether the pressure channel reads about ambient (absolute) or about zero (gauge) before and after the cycle, as it was
 * declared.
 *
 * <p>202.9 kPa gauge read as absolute looks like a perfect 121 °C cycle; only the open door gives it away.
 */
public final class PressureAgreesWithOpenDoor implements Criterion<RunEvidence> {

    /** Distance within which a reading counts as about ambient or about zero, beyond the doubts, in kPa. Own choice. */
    private static final double ALLOWANCE_KILOPASCAL = 1.5;

    @Override
    public CriterionId id() {
        return CriterionId.PRESSURE_KIND;
    }

    @Override
    public Finding judge(RunEvidence evidence, Requirement requirement) {
        return evidence.corrected()
                .pressure()
                .map(pressure -> judge(
                        pressure,
                        evidence.ambientKilopascal(),
                        evidence.ambientHalfWidthKilopascal(),
                        evidence.ambientWords(),
                        requirement))
                .orElseGet(() -> Findings.notApplicable(requirement, "Not assessed: no pressure was recorded."));
    }

    /** Whether a recorded pressure is what it was declared to be, as far as the open door shows; true without one. */
    static boolean isTrusted(RunEvidence evidence) {
        return evidence.corrected()
                .pressure()
                .map(pressure -> {
                    double ambient = evidence.ambientKilopascal();
                    double allowance = allowance(pressure, evidence.ambientHalfWidthKilopascal());
                    double first = pressure.at(0);
                    double last = pressure.at(pressure.size() - 1);
                    double other = otherKind(pressure, ambient);
                    return !isAbout(first, other, allowance)
                            && !isAbout(last, other, allowance)
                            && (isAbout(first, ambient, allowance) || isAbout(last, ambient, allowance));
                })
                .orElse(true);
    }

    /** The same for any pressure channel. */
    static Finding judge(
            CorrectedChannel pressure, double ambient, double halfWidth, String ambientWords, Requirement requirement) {
        double allowance = allowance(pressure, halfWidth);
        double first = pressure.at(0);
        double last = pressure.at(pressure.size() - 1);
        String words = "before %s, after %s, ambient %s (%s)"
                .formatted(
                        Figures.shown(first, Unit.KILOPASCAL),
                        Figures.shown(last, Unit.KILOPASCAL),
                        Figures.shown(ambient, Unit.KILOPASCAL),
                        ambientWords);
        Evidence evidence = Evidence.stretch(
                List.of(pressure.name()),
                pressure.axis().first(),
                pressure.axis().last());
        boolean isGauge = isGauge(pressure);
        double other = otherKind(pressure, ambient);
        if (isAbout(first, other, allowance) || isAbout(last, other, allowance)) {
            return Findings.invalid(
                    requirement,
                    evidence,
                    "Channel %s is declared %s, but with the open door it reads as if it were %s. As absolute pressure: %s."
                            .formatted(
                                    pressure.name(),
                                    isGauge ? "gauge" : "absolute",
                                    isGauge ? "absolute" : "gauge",
                                    words));
        }
        if (isAbout(first, ambient, allowance) || isAbout(last, ambient, allowance)) {
            return Findings.met(requirement, evidence, "The pressure agrees with the open door: " + words + ".");
        }
        return Findings.invalid(
                requirement,
                evidence,
                "The pressure never reads ambient, so whether it is absolute or gauge can not be shown: " + words
                        + ". Record some seconds with the door open.");
    }

    private static double allowance(CorrectedChannel pressure, double halfWidth) {
        return ALLOWANCE_KILOPASCAL + halfWidth + pressure.expanded().value();
    }

    private static boolean isGauge(CorrectedChannel pressure) {
        return pressure.channel()
                .reference()
                .filter(reference -> reference == PressureReference.GAUGE)
                .isPresent();
    }

    /** What the open door would read, as absolute pressure, if the channel were of the kind it was not declared. */
    private static double otherKind(CorrectedChannel pressure, double ambient) {
        // a gauge pressure taken as absolute reads about 0, an absolute one taken as gauge about twice ambient
        return isGauge(pressure) ? 2 * ambient : 0;
    }

    private static boolean isAbout(double reading, double expected, double allowance) {
        return Math.abs(reading - expected) <= allowance;
    }
}
