package org.steamwright.assessment;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSet.CycleLimits;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.steam.SaturationCurve;

/** A criteria set of the tests in which everything but the check after the run decides by the simple rule, until a test changes it. */
public final class TestSet {

    public static final Source SOURCE =
            new Source("test set", "1", "", Source.Provenance.USER, Source.Confidence.HIGH, "made for the tests");

    private final Map<CriterionId, Requirement> requirements = new EnumMap<>(CriterionId.class);
    private Optional<Limit> bandWidth = Optional.of(atMost(4, Unit.KELVIN));
    private Optional<Limit> holdingTime = Optional.of(atLeast(180, Unit.SECONDS));
    private boolean isTheoreticalInBand;
    private SaturationCurve curve = IapwsR797.INSTANCE;

    private TestSet() {}

    public static TestSet strict() {
        TestSet set = new TestSet();
        for (CriterionId id : CriterionId.values()) {
            Use use = id == CriterionId.FIELD_CHECK_AFTER ? Use.OFF : Use.DECIDES;
            set.requirements.put(id, new Requirement(id, use, Optional.empty(), DecisionRule.SIMPLE, SOURCE));
        }
        return set.limit(CriterionId.SAMPLING_INTERVAL, atMost(2.5, Unit.SECONDS))
                .limit(CriterionId.EQUILIBRATION_TIME, atMost(15, Unit.SECONDS))
                .limit(CriterionId.PENETRATION_TIME, atMost(20, Unit.SECONDS))
                .limit(CriterionId.TEMPERATURE_SPREAD, atMost(2, Unit.KELVIN))
                .limit(CriterionId.TEMPERATURE_FLUCTUATION, atMost(1, Unit.KELVIN))
                .limit(CriterionId.SATURATION_DIFFERENCE, atMost(2, Unit.KELVIN))
                .limit(CriterionId.FREE_CHAMBER_EXCESS, atMost(2, Unit.KELVIN))
                .limit(CriterionId.PRESSURE_CHANGE_RATE, atMost(6000, Unit.KILOPASCAL_PER_MINUTE))
                .limit(CriterionId.LEAK_RATE, atMost(0.13, Unit.KILOPASCAL_PER_MINUTE))
                .limit(CriterionId.LEAK_START_PRESSURE, atMost(7, Unit.KILOPASCAL))
                .limit(CriterionId.LEAK_SETTLING, atMost(2, Unit.KILOPASCAL))
                .limit(CriterionId.LEAK_PERIOD, atLeast(590, Unit.SECONDS));
    }

    public static Limit atMost(double value, Unit unit) {
        return new Limit(Comparison.AT_MOST, value, unit, SOURCE);
    }

    public static Limit atLeast(double value, Unit unit) {
        return new Limit(Comparison.AT_LEAST, value, unit, SOURCE);
    }

    public TestSet limit(CriterionId id, Limit limit) {
        Requirement old = requirements.get(id);
        requirements.put(id, new Requirement(id, old.use(), Optional.of(limit), old.secondLimit(), old.rule(), SOURCE));
        return this;
    }

    public TestSet secondLimit(CriterionId id, Limit limit) {
        Requirement old = requirements.get(id);
        requirements.put(id, new Requirement(id, old.use(), old.limit(), Optional.of(limit), old.rule(), SOURCE));
        return this;
    }

    public TestSet withoutLimit(CriterionId id) {
        Requirement old = requirements.get(id);
        requirements.put(id, new Requirement(id, old.use(), Optional.empty(), old.rule(), SOURCE));
        return this;
    }

    public TestSet use(CriterionId id, Use use) {
        Requirement old = requirements.get(id);
        requirements.put(id, new Requirement(id, use, old.limit(), old.secondLimit(), old.rule(), SOURCE));
        return this;
    }

    public TestSet rule(CriterionId id, DecisionRule rule) {
        Requirement old = requirements.get(id);
        requirements.put(id, new Requirement(id, old.use(), old.limit(), old.secondLimit(), rule, SOURCE));
        return this;
    }

    public TestSet remove(CriterionId id) {
        requirements.remove(id);
        return this;
    }

    public TestSet bandWidth(Optional<Limit> width) {
        bandWidth = width;
        return this;
    }

    public TestSet holdingTime(Optional<Limit> time) {
        holdingTime = time;
        return this;
    }

    public TestSet theoreticalInBand() {
        isTheoreticalInBand = true;
        return this;
    }

    public TestSet curve(SaturationCurve newCurve) {
        curve = newCurve;
        return this;
    }

    public CriteriaSet build() {
        return new CriteriaSet(
                "test",
                "1",
                "0".repeat(64),
                "Set of the tests",
                curve,
                SOURCE,
                isTheoreticalInBand,
                holdingTime
                        .map(time -> List.of(new CycleLimits(134, time, bandWidth)))
                        .orElse(List.of()),
                requirements,
                Optional.of(12),
                3);
    }
}
