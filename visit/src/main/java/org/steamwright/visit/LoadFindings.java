package org.steamwright.visit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Evidence;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Judgement;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.dryness.LoadDryness;
import org.steamwright.assessment.indicator.BiologicalTest;
import org.steamwright.assessment.indicator.BiologicalTest.Indicator;
import org.steamwright.assessment.indicator.BiologicalTest.Reading;
import org.steamwright.assessment.verdict.TestKind;

/** Findings that come from the load and not from the recording: moisture left in it, and biological indicators. */
final class LoadFindings {

    private final CriteriaSet set;
    private final VisitRun run;
    private final Optional<LocalDate> day;

    /**
     * @param set limits in force
     * @param run whose load is looked at
     * @param day of the run at the site; empty if nobody told it
     */
    LoadFindings(CriteriaSet set, VisitRun run, Optional<LocalDate> day) {
        this.set = set;
        this.run = run;
        this.day = day;
    }

    /** Dryness and indicators of a loaded run; indicators alone where an empty chamber held some; nothing otherwise. */
    List<Finding> find() {
        List<Finding> findings = new ArrayList<>();
        if (run.test().kind() == TestKind.LOADED) {
            findings.add(dryness());
        }
        if (run.test().kind() == TestKind.LOADED || !run.indicators().isEmpty()) {
            findings.add(indicators());
        }
        return List.copyOf(findings);
    }

    private Finding dryness() {
        CriterionId id = CriterionId.LOAD_DRYNESS;
        Optional<Requirement> asked = set.find(id);
        Optional<AfterRun> wet = run.after().filter(AfterRun::isWet);
        if (wet.isPresent()) {
            // whatever the set asks for and the balance says
            return withUse(
                    id,
                    Use.DECIDES,
                    Outcome.FAIL,
                    wet.get().by().isBlank()
                            ? "Packs were wet to the eye when they were taken out. A wet pack is not sterile."
                            : "Packs were wet to the eye when they were taken out, says %s. A wet pack is not sterile."
                                    .formatted(wet.get().by().strip()));
        }
        if (asked.isEmpty()) {
            return open(id, Outcome.NOT_ASSESSED, "Not assessed: the criteria set does not ask for the moisture left.");
        }
        if (run.weighings().isEmpty()) {
            return open(id, Outcome.NOT_ASSESSED, "Not assessed: nothing was weighed before and after the run.");
        }
        Optional<Weighing> impossible = run.weighings().stream()
                .filter(w -> !isMass(w.beforeGram()) || !isMass(w.afterGram()))
                .findFirst();
        if (impossible.isPresent()) {
            return open(
                    id,
                    Outcome.INVALID,
                    "The masses of %s can't be used (%s g before, %s g after): a load weighs more than nothing. Weigh it again."
                            .formatted(
                                    impossible.get().item(),
                                    impossible.get().beforeGram(),
                                    impossible.get().afterGram()));
        }
        Weighing worst = run.weighings().stream()
                .min(Comparator.comparingDouble(weighing -> margin(asked.get(), weighing)))
                .orElseThrow();
        return judged(asked.get(), worst);
    }

    private static boolean isMass(double gram) {
        return gram > 0 && Double.isFinite(gram);
    }

    private static LoadDryness moisture(Weighing weighing) {
        return new LoadDryness(weighing.beforeGram(), weighing.afterGram(), 0);
    }

    /** The limit for that kind of load: the second one of the requirement for porous loads where there is one. */
    private static Optional<Limit> limit(Requirement asked, Weighing weighing) {
        return weighing.kind() == Weighing.Kind.POROUS ? asked.secondLimit().or(asked::limit) : asked.limit();
    }

    private static double margin(Requirement asked, Weighing weighing) {
        double percent = moisture(weighing).moisturePercent();
        return limit(asked, weighing).map(limit -> limit.margin(percent)).orElse(-percent);
    }

    private Finding judged(Requirement asked, Weighing weighing) {
        LoadDryness dryness = moisture(weighing);
        Optional<Limit> limit = limit(asked, weighing);
        Figure figure = Figure.withDoubt(
                dryness.moisturePercent(),
                dryness.expandedUncertaintyPercent(),
                Unit.PERCENT,
                "mass before and after; uncertainty of the balance not stated");
        Optional<Judgement> judgement = asked.use() == Use.REPORTS
                ? Optional.empty()
                : limit.map(those -> Judgement.of(figure, those, asked.rule()));
        String sentence = "%s went from %s g to %s g, a change of %s %% of its dry mass%s."
                .formatted(
                        Words.capital(weighing.item().strip()),
                        Figures.nearest(weighing.beforeGram(), 1),
                        Figures.nearest(weighing.afterGram(), 1),
                        Figures.highSide(dryness.moisturePercent(), 2),
                        judgement.isPresent()
                                ? limit.map(those -> "; the limit is " + those).orElse("")
                                : "; reported only");
        if (run.weighings().size() > 1) {
            sentence +=
                    " It is the worst of %s weighed.".formatted(run.weighings().size());
        }
        if (dryness.moisturePercent() < 0) {
            sentence += " It became lighter: was it dry when it was first weighed?";
        }
        return new Finding(
                asked.id(),
                asked.use(),
                judgement.map(Judgement::decided).orElse(Outcome.NOT_ASSESSED),
                judgement,
                Optional.of(figure),
                limit,
                asked.rule(),
                limit.map(Limit::source).orElse(asked.source()),
                Evidence.NONE,
                sentence);
    }

    private Finding indicators() {
        CriterionId id = CriterionId.BIOLOGICAL_INDICATORS;
        List<Indicator> indicators =
                run.indicators().stream().map(LoadFindings::indicator).toList();
        BiologicalTest test = new BiologicalTest(indicators, day.orElse(LocalDate.MIN));
        List<String> grown = test.exposed().stream()
                .filter(indicator -> indicator.reading() == Reading.GROWTH)
                .map(Indicator::id)
                .toList();
        if (!grown.isEmpty()) {
            String sentence = "Growth in %s of %s exposed indicators (%s): spores survived this run."
                    .formatted(grown.size(), test.exposed().size(), Words.list(grown));
            return withUse(id, Use.DECIDES, Outcome.FAIL, sentence);
        }
        boolean isAsked = set.find(id)
                .map(Requirement::use)
                .filter(use -> use == Use.DECIDES)
                .isPresent();
        if (!isAsked && test.exposed().stream().anyMatch(indicator -> indicator.reading() == Reading.AWAITED)) {
            // growth would decide, asked or not; so nothing is decided before it was looked for
            return withUse(
                    id,
                    Use.DECIDES,
                    Outcome.AWAITED,
                    "Awaited: " + awaited(indicators)
                            + " not read to the end of incubation yet. The criteria set does not ask for indicators, but growth would decide."
                            + early());
        }
        if (set.find(id).isEmpty()) {
            return open(
                    id,
                    Outcome.NOT_ASSESSED,
                    indicators.isEmpty()
                            ? "Not assessed: the criteria set does not ask for biological indicators."
                            : "Not assessed: the criteria set does not ask for biological indicators; %s exposed, no growth read."
                                    .formatted(test.exposed().size()));
        }
        if (test.exposed().isEmpty()) {
            return open(id, Outcome.NOT_ASSESSED, "Not assessed: no biological indicator was exposed in this run.");
        }
        if (day.isEmpty() && indicators.stream().anyMatch(i -> i.expires().isPresent())) {
            return open(
                    id,
                    Outcome.INVALID,
                    "The day of the run is not known, so nobody can tell whether the indicators were in date. State the date of the visit.");
        }
        return switch (test.result()) {
            case PASS ->
                open(
                        id,
                        Outcome.PASS,
                        "None of %s exposed indicators grew, and the unexposed control of each lot did."
                                .formatted(test.exposed().size()));
            case AWAITED ->
                open(
                        id,
                        Outcome.AWAITED,
                        "Awaited: " + awaited(indicators) + " not read to the end of incubation yet." + early());
            case INVALID -> open(id, Outcome.INVALID, whyInvalid(test));
            case FAIL, NONE_EXPOSED -> throw new IllegalStateException("handled above: " + test.result());
        };
    }

    static Indicator indicator(IndicatorUse use) {
        Reading reading = use.isReadEarly()
                ? Reading.AWAITED
                : use.grown()
                        .map(grown -> grown ? Reading.GROWTH : Reading.NO_GROWTH)
                        .orElse(Reading.AWAITED);
        return new Indicator(use.id(), use.isControl(), use.lot(), use.expires(), reading);
    }

    private String early() {
        return run.indicators().stream()
                .filter(IndicatorUse::isReadEarly)
                .map(use ->
                        " %s was read on %s, before its incubation ended on %s: no growth by then does not count yet."
                                .formatted(
                                        use.id(),
                                        use.readOn().map(SiteMoment::words).orElse(""),
                                        use.incubatedUntil()
                                                .map(SiteMoment::words)
                                                .orElse("")))
                .collect(Collectors.joining());
    }

    private static String awaited(List<Indicator> indicators) {
        List<String> names = indicators.stream()
                .filter(indicator -> indicator.reading() == Reading.AWAITED)
                .map(indicator -> indicator.isControl() ? "control " + indicator.id() : indicator.id())
                .toList();
        return Words.list(names) + (names.size() == 1 ? " is" : " are");
    }

    private static String whyInvalid(BiologicalTest test) {
        if (!test.expired().isEmpty()) {
            Indicator expired = test.expired().get(0);
            return "Indicator %s of lot %s was out of date on the day (last day %s), so this test proves nothing. Repeat it with a fresh lot."
                    .formatted(
                            expired.id(),
                            expired.lot(),
                            expired.expires().map(Words::day).orElse(""));
        }
        for (Indicator exposed : test.exposed()) {
            List<Indicator> controls = test.controls(exposed.lot());
            if (controls.isEmpty()) {
                return "Lot %s has no unexposed control, so this test proves nothing. Repeat it with a control of the same lot."
                        .formatted(exposed.lot());
            }
            if (controls.stream().anyMatch(control -> control.reading() == Reading.NO_GROWTH)) {
                return "The control of lot %s did not grow, so this test proves nothing. Repeat it with a fresh lot."
                        .formatted(exposed.lot());
            }
        }
        throw new IllegalStateException("an invalid test without a reason");
    }

    private Finding open(CriterionId id, Outcome outcome, String sentence) {
        Use use = set.find(id).map(Requirement::use).orElse(Use.OFF);
        boolean isJudged = use != Use.REPORTS || outcome == Outcome.AWAITED;
        return withUse(
                id, use, isJudged ? outcome : Outcome.NOT_ASSESSED, isJudged ? sentence : "Reported only. " + sentence);
    }

    private Finding withUse(CriterionId id, Use use, Outcome outcome, String sentence) {
        Optional<Requirement> stated = Optional.ofNullable(set.requirements().get(id));
        return new Finding(
                id,
                use,
                outcome,
                Optional.empty(),
                Optional.empty(),
                outcome == Outcome.PASS ? Optional.empty() : stated.flatMap(Requirement::limit),
                stated.map(Requirement::rule).orElse(DecisionRule.SIMPLE),
                stated.map(Requirement::source).orElseGet(this::silentSource),
                Evidence.NONE,
                sentence);
    }

    private Source silentSource() {
        return new Source(
                "criteria set " + set.name(),
                set.version(),
                "",
                Provenance.COMMON_PRACTICE,
                Confidence.LOW,
                "the set says nothing about this criterion");
    }
}
