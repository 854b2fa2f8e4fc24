package org.steamwright.assessment.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.RunEvidence;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.trace.ChannelRole;

/**
 * From patterns in the findings to what the trade would look at first.
 *
 * <p>Common practice, no source: hints never change a verdict, and the technician decides.
 */
final class Hints {

    /** A point this much colder than theory, in kelvin, points at air. Own choice. */
    private static final double COLD_KELVIN = 1.0;

    /** A point this much hotter than theory, in kelvin, points at superheat or a wrong pressure. Own choice. */
    private static final double HOT_KELVIN = 1.5;

    /** A load that leads the reference point by this much, in seconds, points at the clocks. Own choice. */
    private static final double LEAD_SECONDS = 5.0;

    /** A pack this much later than the reference point, in seconds, is late. Own choice. */
    private static final double LATE_SECONDS = 15.0;

    private Hints() {}

    static List<Hint> of(List<Finding> findings, RunEvidence evidence, Optional<SteamCondition> steam) {
        List<Hint> hints = new ArrayList<>();
        boolean isPackSlow = isOpen(findings, CriterionId.PENETRATION_TIME) || isPackLate(evidence);
        boolean isCold = steam.filter(s -> s.coldestDifference() < -COLD_KELVIN).isPresent() || isPackAbsent(evidence);
        if (isPackSlow && (isCold || isOpen(findings, CriterionId.AIR_REMOVAL_PULSES))) {
            hints.add(new Hint(
                    "The challenge pack arrived late and stayed colder than saturated steam.",
                    "air left in the pack: too few or too shallow evacuations, a leak, an overpacked or wrongly placed pack",
                    "Repeat the leak test, compare the depth of the evacuations with last time, run the pack alone."));
        } else if (isPackSlow || isOpen(findings, CriterionId.EQUILIBRATION_TIME)) {
            hints.add(new Hint(
                    "Some points reached temperature late, without staying cold.",
                    "slow penetration: a load that is too heavy or too dense, a cold start, a weak steam supply, a slow sensor",
                    "Repeat with a lighter load and warmed chamber; check how the slow sensor lies."));
        }
        if (isOpen(findings, CriterionId.AIR_REMOVAL_PULSES)) {
            hints.add(
                    new Hint(
                            "Evacuations are missing or not deep enough.",
                            "worn vacuum pump or its membrane, a leak at seal or valve, warm cooling water, another program than declared",
                            "Note the lowest pressure the pump reaches; repeat the leak test; check which program was started."));
        }
        if (isOpen(findings, CriterionId.SATURATION_DIFFERENCE)) {
            hints.add(steamHint(evidence, steam));
        }
        if (isOpen(findings, CriterionId.TEMPERATURE_SPREAD) && !isPackSlow) {
            hints.add(new Hint(
                    "One place stayed apart from the others.",
                    "a sensor on metal, on the wall or in condensate; a cold place; overload; a calibration that does not fit",
                    "Look how the sensor lies; swap it with another and repeat."));
        }
        if (isOpen(findings, CriterionId.HIGHEST_TEMPERATURE)
                || isOpen(findings, CriterionId.TEMPERATURE_FLUCTUATION)) {
            hints.add(new Hint(
                    "The plateau was not steady inside its band.",
                    "the controller or its sensor drifts, a valve sticks, scale on the heater",
                    "Compare the steriliser's own display with the reference at the same moment."));
        }
        if (isShortHold(findings) && !isPackSlow) {
            hints.add(new Hint(
                    "The holding time came out short.",
                    "the steriliser counts from its own sensor, which runs ahead of the load or reads high",
                    "Compare its sensor with the reference point; the maker's instructions say how the time is set."));
        }
        if (isLoadLeading(evidence)) {
            hints.add(new Hint(
                    "A load point reached temperature long before the reference point.",
                    "loggers whose clocks disagree, or channels that were mixed up",
                    "Compare the clocks; look whether pressure and temperature pulse at the same moments."));
        }
        if (isOpen(findings, CriterionId.PRESSURE_KIND)) {
            hints.add(new Hint(
                    "The pressure does not fit the open door.",
                    "gauge and absolute mixed up, a wrong unit, a wrong barometer reading",
                    "Read the channel with the door open and compare it with the barometer."));
        }
        return List.copyOf(hints);
    }

    static List<Hint> ofLeak(List<Finding> findings) {
        List<Hint> hints = new ArrayList<>();
        if (isOpen(findings, CriterionId.LEAK_SETTLING)) {
            hints.add(new Hint(
                    "The pressure rose fast right after the pump was cut off.",
                    "water left in a chamber that was not dry or not cool",
                    "Dry and cool the chamber and repeat the test before looking for a leak."));
        }
        if (isOpen(findings, CriterionId.LEAK_RATE)) {
            hints.add(new Hint(
                    "The pressure rose too fast under vacuum.",
                    "door seal, air filter and its valve, drain valve, hoses; cables through the seal if sensors are in",
                    "Repeat without sensors: if only the test with sensors fails, look at the cable passage first."));
        }
        return List.copyOf(hints);
    }

    private static Hint steamHint(RunEvidence evidence, Optional<SteamCondition> steam) {
        boolean isAllOneSided = steam.filter(s -> s.hottestDifference() < 0 || s.coldestDifference() > 0)
                .isPresent();
        boolean hasSeveral = evidence.measured().size() > 1;
        if (isAllOneSided && hasSeveral) {
            return new Hint(
                    "All points lie on the same side of the theoretical temperature.",
                    "the pressure is wrong (calibration, barometer, gauge or absolute), or air is mixed in evenly",
                    "Check the pressure channel with the door open and against its certificate.");
        }
        if (steam.filter(s -> s.hottestDifference() > HOT_KELVIN && !s.isColdWorse())
                .isPresent()) {
            return new Hint(
                    "A point was hotter than saturated steam of that pressure.",
                    "superheat: a dry chamber wall, a sensor near the heater, too little water",
                    "Move the sensor away from the wall; check the water supply.");
        }
        return new Hint(
                "A point was colder than saturated steam of that pressure.",
                "air or another gas left, condensate at the sensor, a slow sensor",
                "Look how the sensor lies; repeat the leak test and the steam penetration test.");
    }

    private static boolean isOpen(List<Finding> findings, CriterionId id) {
        return findings.stream()
                .anyMatch(finding -> finding.id() == id
                        && (finding.outcome() == Outcome.FAIL
                                || finding.outcome() == Outcome.UNDECIDED
                                || finding.outcome() == Outcome.INVALID));
    }

    private static boolean isShortHold(List<Finding> findings) {
        return findings.stream()
                .anyMatch(finding ->
                        finding.id() == CriterionId.MINIMUM_HOLDING_TIME && finding.outcome() == Outcome.FAIL);
    }

    /** Whether a challenge pack came late or never, whether or not the criteria set judges that. */
    private static boolean isPackLate(RunEvidence evidence) {
        return evidence.asRead()
                .filter(plateau -> evidence.judged().stream()
                        .filter(point -> point.role() == ChannelRole.CHALLENGE_PACK)
                        .anyMatch(point -> plateau.findCrossing(point.name())
                                .map(crossing -> crossing.sampleSeconds() - plateau.reachedSeconds() > LATE_SECONDS)
                                .orElse(true)))
                .isPresent();
    }

    /** Whether a challenge pack stayed below the band for the whole plateau. */
    private static boolean isPackAbsent(RunEvidence evidence) {
        return evidence.asRead()
                .filter(plateau -> evidence.judged().stream()
                        .anyMatch(point -> point.role() == ChannelRole.CHALLENGE_PACK
                                && plateau.latecomers().contains(point.name())))
                .isPresent();
    }

    private static boolean isLoadLeading(RunEvidence evidence) {
        if (!evidence.isReferenceDeclared() || evidence.asRead().isEmpty()) {
            return false;
        }
        Plateau plateau = evidence.asRead().get();
        for (Crossing crossing : plateau.crossings()) {
            boolean isLoad = evidence.measured().stream()
                    .anyMatch(point -> point.name().equals(crossing.channel())
                            && (point.role() == ChannelRole.LOAD || point.role() == ChannelRole.CHALLENGE_PACK));
            if (isLoad && crossing.sampleSeconds() < plateau.reachedSeconds() - LEAD_SECONDS) {
                return true;
            }
        }
        return false;
    }
}
