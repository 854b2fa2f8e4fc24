package org.steamwright.intake.folder;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Distribution;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.Weighing;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.OtherCycles;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.qualification.Qualification;

/** The fixed words of a visit file and what they stand for, in the order of the reference page. */
final class Words {

    static final Map<String, TestKind> KIND = words(
            "empty-chamber", TestKind.EMPTY_CHAMBER, "reference-load", TestKind.LOADED, "air-leakage", TestKind.LEAK);
    static final Map<String, CycleType> CYCLE_TYPE = words("B", CycleType.B, "N", CycleType.N, "S", CycleType.S);
    static final Map<String, ChannelRole> ROLE = words(
            "reference-point",
            ChannelRole.REFERENCE_POINT,
            "free-chamber",
            ChannelRole.FREE_CHAMBER,
            "load",
            ChannelRole.LOAD,
            "challenge-pack",
            ChannelRole.CHALLENGE_PACK,
            "pressure",
            ChannelRole.PRESSURE,
            "ambient",
            ChannelRole.AMBIENT);
    static final Map<String, PressureReference> REFERENCE =
            words("absolute", PressureReference.ABSOLUTE, "gauge", PressureReference.GAUGE);
    static final Map<String, Quantity> MEASURES =
            words("temperature", Quantity.TEMPERATURE, "pressure", Quantity.PRESSURE);
    static final Map<String, Distribution> DISTRIBUTION = words(
            "normal",
            Distribution.NORMAL,
            "rectangular",
            Distribution.RECTANGULAR,
            "triangular",
            Distribution.TRIANGULAR,
            "arcsine",
            Distribution.ARCSINE,
            "standard",
            Distribution.STANDARD);
    static final Map<String, Checklist.Section> SECTION = words(
            "as-found",
            Checklist.Section.AS_FOUND,
            "maintenance",
            Checklist.Section.MAINTENANCE,
            "installation",
            Checklist.Section.INSTALLATION,
            "safety",
            Checklist.Section.SAFETY,
            "verification",
            Checklist.Section.VERIFICATION,
            "steam-penetration",
            Checklist.Section.STEAM_PENETRATION);
    static final Map<String, String> STAGE = words(
            "without-sensors",
            "without sensors",
            "with-sensors",
            "with sensors",
            "after",
            "after",
            "as-found",
            "as found");
    static final Map<String, FieldCheck.Moment> WHEN =
            words("before", FieldCheck.Moment.BEFORE, "after", FieldCheck.Moment.AFTER);
    static final Map<String, Phase.Kind> PHASE = words(
            "air-removal",
            Phase.Kind.AIR_REMOVAL,
            "conditioning",
            Phase.Kind.CONDITIONING,
            "heating",
            Phase.Kind.HEATING,
            "exhaust",
            Phase.Kind.EXHAUST,
            "drying",
            Phase.Kind.DRYING);
    static final Map<String, StatedBorder.End> BORDER_END =
            words("from", StatedBorder.End.FROM, "to", StatedBorder.End.TO);
    static final Map<String, String> FAMILY =
            words("solid", "solid", "hollow-a", "hollow A", "hollow-b", "hollow B", "porous", "porous");
    static final Map<String, Weighing.Kind> WEIGHING =
            words("solid", Weighing.Kind.SOLID, "porous", Weighing.Kind.POROUS);
    static final Map<String, Optional<Boolean>> GROWTH =
            words("no-growth", Optional.of(false), "growth", Optional.of(true), "awaited", Optional.empty());
    static final Map<String, ChemicalIndicator.Type> CHEMICAL_TYPE = words(
            "1",
            ChemicalIndicator.Type.PROCESS,
            "2",
            ChemicalIndicator.Type.SPECIFIC_TEST,
            "3",
            ChemicalIndicator.Type.SINGLE_VARIABLE,
            "4",
            ChemicalIndicator.Type.MULTIVARIABLE,
            "5",
            ChemicalIndicator.Type.INTEGRATING,
            "6",
            ChemicalIndicator.Type.EMULATING);
    static final Map<String, ChemicalIndicator.Result> END_POINT = words(
            "reached",
            ChemicalIndicator.Result.REACHED,
            "not-reached",
            ChemicalIndicator.Result.NOT_REACHED,
            "unclear",
            ChemicalIndicator.Result.UNCLEAR);
    static final Map<String, String> EVENT = words("air-removal", "air-removal");
    static final Map<String, OtherCycles.Kind> OTHER_CYCLE = words(
            "warm-up",
            OtherCycles.Kind.WARM_UP,
            "own-test",
            OtherCycles.Kind.OWN_TEST,
            "service",
            OtherCycles.Kind.SERVICE,
            "clinic",
            OtherCycles.Kind.CLINIC,
            "stopped",
            OtherCycles.Kind.STOPPED,
            "failed",
            OtherCycles.Kind.FAILED,
            "other",
            OtherCycles.Kind.OTHER);
    static final Map<String, TaskList.Part> TASK_PART = words(
            "maintenance",
            TaskList.Part.MAINTENANCE,
            "safety",
            TaskList.Part.SAFETY,
            "installation",
            TaskList.Part.INSTALLATION);
    static final Map<String, Qualification.Kind> ASKED_FOR = words(
            "leak",
            Qualification.Kind.LEAK,
            "operational",
            Qualification.Kind.OPERATIONAL,
            "performance",
            Qualification.Kind.PERFORMANCE);
    static final Map<String, TaskEntry.Outcome> TASK_OUTCOME = words(
            "done",
            TaskEntry.Outcome.DONE,
            "not-due",
            TaskEntry.Outcome.NOT_DUE,
            "not-applicable",
            TaskEntry.Outcome.NOT_APPLICABLE,
            "not-possible",
            TaskEntry.Outcome.NOT_POSSIBLE);
    static final Map<String, TaskEntry.Condition> TASK_CONDITION = words(
            "good", TaskEntry.Condition.GOOD, "worn", TaskEntry.Condition.WORN, "failed", TaskEntry.Condition.FAILED);
    static final Map<String, DecisionRule> RULE = words(
            "simple", DecisionRule.SIMPLE, "guarded", DecisionRule.GUARDED, "four-words", DecisionRule.FOUR_WORDS);
    static final Map<String, Boolean> FOUND_OR_LEFT = words("as-found", true, "as-left", false);
    static final Map<String, PenetrationTest.Kind> PENETRATION =
            words("hollow", PenetrationTest.Kind.HOLLOW, "porous", PenetrationTest.Kind.POROUS);
    static final Map<String, PenetrationTest.Result> PENETRATION_RESULT = words(
            "pass",
            PenetrationTest.Result.PASS,
            "fail",
            PenetrationTest.Result.FAIL,
            "unclear",
            PenetrationTest.Result.UNCLEAR);
    static final Map<String, Boolean> PACKS = words("dry", true, "wet", false);
    static final Map<String, Boolean> SEALS = words("intact", true, "not-intact", false);
    static final Map<String, ReferenceLoad.Slowest> SLOWEST = words(
            "mapped",
            ReferenceLoad.Slowest.MAPPED,
            "measured",
            ReferenceLoad.Slowest.MEASURED,
            "instructions",
            ReferenceLoad.Slowest.INSTRUCTIONS,
            "judged",
            ReferenceLoad.Slowest.JUDGED);
    static final Map<String, EarlierEvidence.Kind> EVIDENCE = words(
            "air-leakage",
            EarlierEvidence.Kind.AIR_LEAKAGE,
            "steam-penetration",
            EarlierEvidence.Kind.STEAM_PENETRATION,
            "biological",
            EarlierEvidence.Kind.BIOLOGICAL,
            "thermometric",
            EarlierEvidence.Kind.THERMOMETRIC,
            "indication",
            EarlierEvidence.Kind.INDICATION,
            "safety",
            EarlierEvidence.Kind.SAFETY);
    static final Map<String, EndingEvent> ENDING_EVENT = words(
            "moved",
            EndingEvent.MOVED,
            "repaired",
            EndingEvent.REPAIRED,
            "adjusted",
            EndingEvent.ADJUSTED,
            "firmware",
            EndingEvent.FIRMWARE,
            "supply",
            EndingEvent.SUPPLY,
            "test-failed",
            EndingEvent.TEST_FAILED,
            "long-standstill",
            EndingEvent.LONG_STANDSTILL,
            "new-load",
            EndingEvent.NEW_LOAD,
            "new-cycle",
            EndingEvent.NEW_CYCLE);
    static final Map<String, Boolean> YES_OR_NO = words("yes", true, "no", false, "true", true, "false", false);

    private Words() {}

    /** The meaning of a word; empty after a problem was added. */
    static <E> Optional<E> find(String text, Map<String, E> words, Spot spot) {
        E meaning = words.get(text);
        if (meaning != null) {
            return Optional.of(meaning);
        }
        spot.problem(
                Mistake.UNKNOWN_WORD,
                Flaw.notAmong("found \"%s\", expected one of %s.", text, words.keySet())
                        .with(didYouMeanOr(text, words)));
        return Optional.empty();
    }

    private static <E> String didYouMeanOr(String text, Map<String, E> words) {
        String near = Nearest.didYouMean(text, words.keySet());
        return near.isEmpty() ? " Write one of these words." : near;
    }

    /** The word of a meaning. */
    static <E> String of(E meaning, Map<String, E> words) {
        for (Map.Entry<String, E> entry : words.entrySet()) {
            if (entry.getValue().equals(meaning)) {
                return entry.getKey();
            }
        }
        throw new IllegalArgumentException("no word for " + meaning);
    }

    @SuppressWarnings("unchecked")
    private static <E> Map<String, E> words(Object... wordsAndMeanings) {
        Map<String, E> map = new LinkedHashMap<>();
        for (int i = 0; i < wordsAndMeanings.length; i += 2) {
            map.put((String) wordsAndMeanings[i], (E) wordsAndMeanings[i + 1]);
        }
        return map;
    }
}
