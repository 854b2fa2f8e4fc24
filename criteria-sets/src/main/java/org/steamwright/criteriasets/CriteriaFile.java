package org.steamwright.criteriasets;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSet.CycleLimits;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.steam.ShortFormula;

/**
 * What one criteria set file says, before it is laid on the set it is based on.
 *
 * @param place of the top of the file
 * @param namePlace of its name
 * @param name word
 * @param version word or number
 * @param title for people
 * @param basedOn name of a preset; empty if the file stands on its own
 * @param notes for people
 * @param formula of the theoretical temperature
 * @param isTheoreticalInBand whether the theoretical temperature has to stay in the band
 * @param rule for every entry that names none
 * @param revalidation period
 * @param runs consecutive runs
 * @param cycles by sterilization temperature, in the order of the file
 * @param entries by criterion
 */
record CriteriaFile(
        Place place,
        Place namePlace,
        String name,
        String version,
        String title,
        Optional<YamlBlock.Text> basedOn,
        Optional<String> notes,
        Optional<Formula> formula,
        Optional<Boolean> isTheoreticalInBand,
        Optional<DecisionRule> rule,
        Optional<Period> revalidation,
        Optional<Runs> runs,
        List<CycleLimits> cycles,
        Map<CriterionId, Entry> entries) {

    /** The one version of the format. */
    static final String FORMAT_VERSION = "1";

    static final String FORMAT_KEY = "steamwright-criteria-set";
    static final String NOT_STATED = "not stated";

    private static final int LONGEST_REVALIDATION_MONTHS = 120;
    private static final int MOST_RUNS = 20;
    private static final double LOWEST_STERILIZING_CELSIUS = 100;
    private static final double HIGHEST_STERILIZING_CELSIUS = 150;
    private static final double LONGEST_HOLDING_SECONDS = 14_400;
    private static final double WIDEST_BAND_KELVIN = 20;

    private static final List<SaturationCurve> CURVES = List.of(IapwsR797.INSTANCE, ShortFormula.INSTANCE);
    private static final List<Boolean> YES_OR_NO = List.of(true, false);
    private static final List<DecisionRule> RULES = List.of(DecisionRule.values());
    private static final List<Use> USES = List.of(Use.values());
    private static final List<Provenance> PROVENANCES =
            Arrays.stream(Provenance.values()).filter(Provenance::isForFiles).toList();
    private static final List<Confidence> CONFIDENCES = List.of(Confidence.values());
    private static final List<String> CRITERION_WORDS = words(List.of(CriterionId.values()), CriterionId::word);

    private static final List<String> TOP_KEYS = List.of(
            FORMAT_KEY,
            "name",
            "version",
            "title",
            "based-on",
            "notes",
            "formula",
            "theoretical-temperature-in-band",
            "decision-rule",
            "revalidation",
            "consecutive-runs",
            "cycles",
            "criteria");

    /**
     * Formula of the theoretical temperature.
     *
     * @param curve itself
     * @param source why that one
     */
    record Formula(SaturationCurve curve, Source source) {}

    /**
     * Period of revalidation.
     *
     * @param months empty if the set does not state one
     * @param source of the period, or of the silence
     */
    record Period(Optional<Integer> months, Source source) {}

    /**
     * Consecutive loaded runs.
     *
     * @param count at least 1
     * @param source of the count
     */
    record Runs(int count, Source source) {}

    /**
     * What the file says about one criterion.
     *
     * @param use whether it counts
     * @param limit of its own
     * @param secondLimit of its own
     * @param rule of its own
     * @param source empty only where it is off
     */
    record Entry(
            Use use,
            Optional<Limit> limit,
            Optional<Limit> secondLimit,
            Optional<DecisionRule> rule,
            Optional<Source> source) {}

    /** Reads a file. */
    static CriteriaFile read(byte[] bytes, String fileName) {
        YamlBlock top = YamlBlock.read(bytes, fileName);
        if (!top.has(FORMAT_KEY)) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.NOT_A_CRITERIA_SET,
                    top.place(),
                    "no '" + FORMAT_KEY + "'",
                    "'" + FORMAT_KEY + ": 1' at the top",
                    "Add that line if this is meant to be a criteria set; otherwise another file was named.");
        }
        YamlBlock.Text format = top.text(FORMAT_KEY);
        if (!format.text().equals(FORMAT_VERSION)) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.UNKNOWN_FORMAT_VERSION,
                    format.place(),
                    "'" + format.text() + "'",
                    "'" + FORMAT_VERSION + "'",
                    "The file was written for another version of the program; a newer program may read it.");
        }
        top.allowOnly(TOP_KEYS);
        YamlBlock.Text name = top.text("name");
        if (!name.text().matches("[a-z0-9]+(-[a-z0-9]+)*")) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.NAME_NOT_FREE,
                    name.place(),
                    "'" + name.text() + "'",
                    "a word of small letters, digits and single hyphens",
                    "Write, for example, 'high-street-clinic'; the title may say it in full.");
        }
        return new CriteriaFile(
                top.place(),
                name.place(),
                name.text(),
                top.text("version").text(),
                top.text("title").text(),
                top.findText("based-on"),
                top.findText("notes").map(YamlBlock.Text::text),
                top.findBlock("formula").map(CriteriaFile::formula),
                top.findText("theoretical-temperature-in-band").map(CriteriaFile::yesOrNo),
                top.findText("decision-rule").map(CriteriaFile::rule),
                top.findBlock("revalidation").map(CriteriaFile::period),
                top.findBlock("consecutive-runs").map(CriteriaFile::runs),
                cycles(top),
                entries(top.findBlock("criteria")));
    }

    /** The same with everything that this file does not say taken from the base. */
    CriteriaFile onTopOf(CriteriaFile base) {
        Map<Double, CycleLimits> allCycles = new LinkedHashMap<>();
        base.cycles.forEach(cycle -> allCycles.put(cycle.sterilizingCelsius(), cycle));
        cycles.forEach(cycle -> allCycles.put(cycle.sterilizingCelsius(), cycle));
        Map<CriterionId, Entry> allEntries = new EnumMap<>(CriterionId.class);
        allEntries.putAll(base.entries);
        allEntries.putAll(entries);
        return new CriteriaFile(
                place,
                namePlace,
                name,
                version,
                title,
                basedOn,
                notes.or(base::notes),
                formula.or(base::formula),
                isTheoreticalInBand.or(base::isTheoreticalInBand),
                rule.or(base::rule),
                revalidation.or(base::revalidation),
                runs.or(base::runs),
                List.copyOf(allCycles.values()),
                allEntries);
    }

    /** The set, once nothing is open any more. */
    CriteriaSet toSet(String sha256) {
        Formula itsFormula = needed(formula, "formula");
        boolean itsInBand = needed(isTheoreticalInBand, "theoretical-temperature-in-band");
        DecisionRule itsRule = needed(rule, "decision-rule");
        Period itsPeriod = needed(revalidation, "revalidation");
        Runs itsRuns = needed(runs, "consecutive-runs");
        if (cycles.isEmpty()) {
            throw missing("cycles");
        }
        for (CriterionId id : CriterionId.values()) {
            Optional<Use> use = Optional.ofNullable(entries.get(id)).map(Entry::use);
            if (id.isIndispensable() && !use.equals(Optional.of(Use.DECIDES))) {
                throw evidenceNotDeciding(place.below("criteria", place.line()).below(id.word(), place.line()), use);
            }
        }
        Map<CriterionId, Requirement> requirements = new EnumMap<>(CriterionId.class);
        entries.forEach((id, entry) -> entry.source()
                .ifPresent(source -> requirements.put(
                        id,
                        new Requirement(
                                id,
                                entry.use(),
                                entry.limit(),
                                entry.secondLimit(),
                                entry.rule().orElse(itsRule),
                                source))));
        return new CriteriaSet(
                name,
                version,
                sha256,
                title,
                itsFormula.curve(),
                itsFormula.source(),
                itsInBand,
                cycles,
                requirements,
                itsPeriod.months(),
                itsRuns.count(),
                notes.orElse(""),
                Optional.of(itsPeriod.source()),
                Optional.of(itsRuns.source()));
    }

    private <T> T needed(Optional<T> value, String key) {
        return value.orElseThrow(() -> missing(key));
    }

    private CriteriaFileException missing(String key) {
        return CriteriaFileException.ofPlace(
                CriteriaMessage.MISSING_KEY,
                place,
                "no '" + key + "'",
                "'" + key + ":' in a set that is not based on another",
                "Add it, or write 'based-on:' with the name of a preset to take the rest from there.");
    }

    private static CriteriaFileException evidenceNotDeciding(Place where, Optional<Use> use) {
        return CriteriaFileException.ofPlace(
                CriteriaMessage.EVIDENCE_NOT_DECIDING,
                where,
                use.map(word -> "'use: " + word.word() + "'").orElse("no entry"),
                "'use: decides'",
                "Whether the recording and the instruments can carry a verdict counts in every set;"
                        + " without that a pass says nothing.");
    }

    private static Formula formula(YamlBlock block) {
        block.allowOnly(List.of("use", "source"));
        SaturationCurve curve = oneOf(block.text("use"), CURVES, SaturationCurve::id);
        return new Formula(curve, neededSource(block));
    }

    private static boolean yesOrNo(YamlBlock.Text text) {
        return oneOf(text, YES_OR_NO, String::valueOf);
    }

    private static DecisionRule rule(YamlBlock.Text text) {
        return oneOf(text, RULES, DecisionRule::word);
    }

    private static Period period(YamlBlock block) {
        block.allowOnly(List.of("after", "source"));
        YamlBlock.Text after = block.text("after");
        if (after.text().equals(NOT_STATED)) {
            return new Period(Optional.empty(), neededSource(block));
        }
        if (!after.text().matches("[0-9]{1,4} months?")) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.UNREADABLE_QUANTITY,
                    after.place(),
                    "'" + after.text() + "'",
                    "a whole number of months, or '" + NOT_STATED + "'",
                    "Write it as, for example, '12 months'.");
        }
        int months = Integer.parseInt(after.text().substring(0, after.text().indexOf(' ')));
        if (months < 1 || months > LONGEST_REVALIDATION_MONTHS) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.IMPLAUSIBLE_VALUE,
                    after.place(),
                    "'" + after.text() + "'",
                    "1 to " + LONGEST_REVALIDATION_MONTHS + " months",
                    "Check the number; write '" + NOT_STATED + "' if the set names no period.");
        }
        return new Period(Optional.of(months), neededSource(block));
    }

    private static Runs runs(YamlBlock block) {
        block.allowOnly(List.of("count", "source"));
        return new Runs(StatedQuantity.count(block.text("count"), MOST_RUNS), neededSource(block));
    }

    private static List<CycleLimits> cycles(YamlBlock top) {
        List<CycleLimits> cycles = new ArrayList<>();
        for (YamlBlock block : top.blocks("cycles")) {
            block.allowOnly(List.of("sterilizing-temperature", "holding-time", "band-width"));
            YamlBlock.Text stated = block.text("sterilizing-temperature");
            double celsius = StatedQuantity.read(stated, Unit.CELSIUS, Double.MAX_VALUE);
            if (celsius < LOWEST_STERILIZING_CELSIUS || celsius > HIGHEST_STERILIZING_CELSIUS) {
                throw CriteriaFileException.ofPlace(
                        CriteriaMessage.IMPLAUSIBLE_VALUE,
                        stated.place(),
                        "'" + stated.text() + "'",
                        "100 to 150 °C",
                        "Steam sterilization is done between these temperatures; check the number.");
            }
            if (cycles.stream().anyMatch(cycle -> cycle.sterilizingCelsius() == celsius)) {
                throw CriteriaFileException.ofPlace(
                        CriteriaMessage.CYCLE_TWICE,
                        stated.place(),
                        "'" + stated.text() + "' a second time",
                        "every sterilizing temperature once",
                        "A set holds one minimum for a temperature; put the other practice into a set of its own.");
            }
            cycles.add(new CycleLimits(
                    celsius,
                    cycleLimit(block.block("holding-time"), Comparison.AT_LEAST, Unit.SECONDS, LONGEST_HOLDING_SECONDS),
                    block.findBlock("band-width")
                            .map(width -> cycleLimit(width, Comparison.AT_MOST, Unit.KELVIN, WIDEST_BAND_KELVIN))));
        }
        return cycles;
    }

    private static Limit cycleLimit(YamlBlock block, Comparison comparison, Unit unit, double highest) {
        String key = comparison == Comparison.AT_LEAST ? "at-least" : "at-most";
        String otherKey = comparison == Comparison.AT_LEAST ? "at-most" : "at-least";
        refuseOtherSide(block, key, otherKey);
        block.allowOnly(List.of(key, "source"));
        double value = StatedQuantity.read(block.text(key), unit, highest);
        return new Limit(comparison, value, unit, neededSource(block));
    }

    private static void refuseOtherSide(YamlBlock block, String key, String otherKey) {
        if (block.has(otherKey)) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.WRONG_SIDE,
                    block.placeOf(otherKey),
                    "'" + otherKey + "'",
                    "'" + key + "'",
                    "The good side of a limit belongs to the criterion and can't be turned round.");
        }
    }

    private static Map<CriterionId, Entry> entries(Optional<YamlBlock> criteria) {
        Map<CriterionId, Entry> entries = new EnumMap<>(CriterionId.class);
        if (criteria.isEmpty()) {
            return entries;
        }
        YamlBlock block = criteria.get();
        block.allowOnly(CRITERION_WORDS);
        for (CriterionId id : CriterionId.values()) {
            block.findBlock(id.word()).ifPresent(entry -> entries.put(id, entry(id, entry)));
        }
        return entries;
    }

    private static Entry entry(CriterionId id, YamlBlock block) {
        CriterionShape shape = CriterionShape.of(id);
        boolean isOwnLimit = shape.isStatedInEntry();
        if (isOwnLimit) {
            refuseOtherSide(block, shape.key(), shape.otherKey());
        } else {
            refuseLimit(block, shape);
        }
        List<String> known = new ArrayList<>(List.of("use", "rule"));
        if (isOwnLimit) {
            known.add(shape.key());
            shape.second().ifPresent(second -> known.add(second.key()));
        }
        known.add("source");
        block.allowOnly(known);
        Use use = oneOf(block.text("use"), USES, Use::word);
        if (id.isIndispensable() && use != Use.DECIDES) {
            throw evidenceNotDeciding(block.placeOf("use"), Optional.of(use));
        }
        Optional<Source> source = block.findBlock("source").map(CriteriaFile::source);
        if (source.isEmpty() && use != Use.OFF) {
            throw missingSource(block);
        }
        boolean isNeeded = shape.origin() == CriterionShape.Origin.ENTRY && (use == Use.DECIDES || use == Use.ADVISES);
        Optional<Limit> limit =
                limit(block, shape.comparison(), shape.key(), shape.unit(), shape.highest(), isNeeded, source);
        Optional<Limit> second = shape.second()
                .flatMap(other ->
                        limit(block, shape.comparison(), other.key(), other.unit(), other.highest(), isNeeded, source));
        return new Entry(use, limit, second, block.findText("rule").map(CriteriaFile::rule), source);
    }

    private static void refuseLimit(YamlBlock block, CriterionShape shape) {
        for (String key : List.of("at-least", "at-most")) {
            if (block.has(key)) {
                throw CriteriaFileException.ofPlace(
                        CriteriaMessage.LIMIT_NOT_TAKEN,
                        block.placeOf(key),
                        "'" + key + "'",
                        "no limit in this entry",
                        shape.origin() == CriterionShape.Origin.NONE
                                ? "This criterion is answered by yes or no; take the line out."
                                : "It comes from " + shape.origin().words()
                                        + "; state it there and take the line out.");
            }
        }
    }

    private static Optional<Limit> limit(
            YamlBlock block,
            Comparison comparison,
            String key,
            Unit unit,
            double highest,
            boolean isNeeded,
            Optional<Source> source) {
        Optional<YamlBlock.Text> text = block.findText(key);
        if (text.isEmpty() && isNeeded) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.MISSING_LIMIT,
                    block.place(),
                    "no '" + key + "'",
                    "'" + key + ":' with a limit where the use is 'decides' or 'advises'",
                    "State the limit, or write 'use: reports' to print the figure without a judgement.");
        }
        if (text.isPresent() && source.isEmpty()) {
            throw missingSource(block);
        }
        return text.map(stated -> new Limit(
                comparison,
                unit == Unit.COUNT
                        ? StatedQuantity.count(stated, (int) highest)
                        : StatedQuantity.read(stated, unit, highest),
                unit,
                source.orElseThrow()));
    }

    private static Source neededSource(YamlBlock block) {
        return block.findBlock("source").map(CriteriaFile::source).orElseThrow(() -> missingSource(block));
    }

    private static CriteriaFileException missingSource(YamlBlock block) {
        return CriteriaFileException.ofPlace(
                CriteriaMessage.MISSING_SOURCE,
                block.place(),
                "no 'source'",
                "'source:' with document, provenance and confidence",
                "Say where the demand comes from; for a rule of your own name the paper it stands in"
                        + " and write 'provenance: user'.");
    }

    private static Source source(YamlBlock block) {
        block.allowOnly(List.of("document", "edition", "clause", "provenance", "confidence", "note"));
        return new Source(
                block.text("document").text(),
                block.findText("edition").map(YamlBlock.Text::text).orElse(""),
                block.findText("clause").map(YamlBlock.Text::text).orElse(""),
                oneOf(block.text("provenance"), PROVENANCES, CriteriaFile::word),
                oneOf(block.text("confidence"), CONFIDENCES, CriteriaFile::word),
                block.findText("note").map(YamlBlock.Text::text).orElse(""));
    }

    /** The word of a constant in a file: FROM_MEMORY is 'from-memory'. */
    static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The choice whose word was written. */
    private static <T> T oneOf(YamlBlock.Text text, List<T> choices, Function<T, String> word) {
        for (T choice : choices) {
            if (word.apply(choice).equals(text.text())) {
                return choice;
            }
        }
        List<String> words = words(choices, word);
        throw CriteriaFileException.ofPlace(
                CriteriaMessage.UNKNOWN_WORD,
                text.place(),
                "'" + text.text() + "'",
                "one of " + String.join(", ", words),
                "Nearest is '" + NearestWord.of(text.text(), words) + "'.");
    }

    private static <T> List<String> words(List<T> choices, Function<T, String> word) {
        List<String> words = new ArrayList<>();
        for (T choice : choices) {
            words.add(word.apply(choice));
        }
        return words;
    }
}
