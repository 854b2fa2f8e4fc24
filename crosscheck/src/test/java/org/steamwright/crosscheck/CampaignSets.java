package org.steamwright.crosscheck;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.criteriasets.Presets;

/** The criteria sets of the campaigns: every preset as it is, and one in which everything decides. */
final class CampaignSets {

    private static final Presets PRESETS = new Presets();
    private static final List<CriteriaSet> ALL =
            PRESETS.names().stream().map(PRESETS::get).toList();

    private CampaignSets() {}

    /** A preset that knows the cycle and asks for no more time than it declares; by seed. */
    static CriteriaSet preset(long seed, CycleDefinition cycle) {
        double celsius = cycle.sterilizingTemperature().celsius();
        double declared =
                cycle.holdingTime().map(time -> time.toMillis() / 1000.0).orElse(0.0);
        List<CriteriaSet> fitting = new ArrayList<>();
        for (CriteriaSet set : ALL) {
            if (set.findCycle(celsius)
                    .filter(limits -> limits.holdingTime().value() <= declared)
                    .isPresent()) {
                fitting.add(set);
            }
        }
        if (fitting.isEmpty()) {
            throw new IllegalStateException("no preset for %s °C held %s s".formatted(celsius, declared));
        }
        return fitting.get((int) Math.floorMod(seed, (long) fitting.size()));
    }

    /** That preset with every criterion of a run deciding, those without a limit given the usual one. */
    static CriteriaSet everythingDecides(CriteriaSet preset) {
        Map<CriterionId, Requirement> requirements = new EnumMap<>(CriterionId.class);
        for (CriterionId id : CriterionId.values()) {
            Optional<Requirement> own =
                    Optional.ofNullable(preset.requirements().get(id));
            boolean isRun = id.group() == CriterionId.Group.RUN || id.group() == CriterionId.Group.EVIDENCE;
            if (!isRun || id == CriterionId.FREE_CHAMBER_EXCESS || id == CriterionId.PENETRATION_TIME) {
                own.ifPresent(requirement -> requirements.put(id, requirement));
                continue;
            }
            Optional<Limit> limit = own.flatMap(Requirement::limit).or(() -> usual(id));
            requirements.put(
                    id,
                    new Requirement(
                            id,
                            Use.DECIDES,
                            limit,
                            own.map(Requirement::rule).orElse(org.steamwright.assessment.criteria.DecisionRule.SIMPLE),
                            own.map(Requirement::source).orElse(InventedSets.SOURCE)));
        }
        return new CriteriaSet(
                preset.name(),
                preset.version() + "-everything",
                preset.sha256(),
                preset.title(),
                preset.curve(),
                preset.curveSource(),
                preset.isTheoreticalInBand(),
                preset.cycles(),
                requirements,
                preset.revalidation(),
                preset.consecutiveRuns());
    }

    private static Optional<Limit> usual(CriterionId id) {
        return switch (id) {
            case SAMPLING_INTERVAL -> atMost(2.5, Unit.SECONDS);
            case EQUILIBRATION_TIME -> atMost(15, Unit.SECONDS);
            case TEMPERATURE_SPREAD, SATURATION_DIFFERENCE -> atMost(2, Unit.KELVIN);
            case TEMPERATURE_FLUCTUATION -> atMost(1, Unit.KELVIN);
            case PRESSURE_CHANGE_RATE -> atMost(1000, Unit.KILOPASCAL_PER_MINUTE);
            default -> Optional.empty();
        };
    }

    private static Optional<Limit> atMost(double value, Unit unit) {
        return Optional.of(new Limit(Comparison.AT_MOST, value, unit, InventedSets.SOURCE));
    }
}
