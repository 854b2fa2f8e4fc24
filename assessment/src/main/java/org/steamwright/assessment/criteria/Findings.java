package org.steamwright.assessment.criteria;

import java.util.Optional;

/** The forms that an answer can take. */
public final class Findings {

    private Findings() {}

    /** A figure held against its limit under the rule of the requirement; only reported if the set asks no more. */
    public static Finding judged(Requirement asked, Limit limit, Figure figure, Evidence evidence, String sentence) {
        return judged(asked, limit, asked.rule(), figure, evidence, sentence);
    }

    /** The same under another rule than the requirement's. */
    public static Finding judged(
            Requirement asked, Limit limit, DecisionRule rule, Figure figure, Evidence evidence, String sentence) {
        if (asked.use() == Use.REPORTS) {
            return reported(asked, figure, evidence, sentence);
        }
        Judgement judgement = Judgement.of(figure, limit, rule);
        return new Finding(
                asked.id(),
                asked.use(),
                judgement.decided(),
                Optional.of(judgement),
                Optional.of(figure),
                Optional.of(limit),
                rule,
                limit.source(),
                evidence,
                sentence);
    }

    /** A figure held against a limit where missing it means that the evidence can't carry a verdict, not that the
     * sterilizer failed. */
    public static Finding judgedAsEvidence(
            Requirement asked, Limit limit, Figure figure, Evidence evidence, String sentence) {
        Finding finding = judged(asked, limit, DecisionRule.SIMPLE, figure, evidence, sentence);
        return finding.outcome() == Outcome.FAIL ? finding.revised(Outcome.INVALID, sentence) : finding;
    }

    /** A figure without a limit to hold it against. Where the set says that it decides, it stays an open question. */
    public static Finding reported(Requirement asked, Figure figure, Evidence evidence, String sentence) {
        return new Finding(
                asked.id(),
                asked.use(),
                Outcome.NOT_ASSESSED,
                Optional.empty(),
                Optional.of(figure),
                Optional.empty(),
                asked.rule(),
                asked.source(),
                evidence,
                sentence);
    }

    /** A question without a figure that is answered well. */
    public static Finding met(Requirement asked, Evidence evidence, String sentence) {
        return plain(
                asked,
                asked.use(),
                asked.use() == Use.REPORTS ? Outcome.NOT_ASSESSED : Outcome.PASS,
                evidence,
                sentence);
    }

    /** A question whose answer needs no figure to be a fail. */
    public static Finding failed(Requirement asked, Evidence evidence, String sentence) {
        return plain(
                asked,
                asked.use(),
                asked.use() == Use.REPORTS ? Outcome.NOT_ASSESSED : Outcome.FAIL,
                evidence,
                sentence);
    }

    /** The evidence can't carry the question. */
    public static Finding invalid(Requirement asked, Evidence evidence, String sentence) {
        return plain(
                asked,
                asked.use(),
                asked.use() == Use.REPORTS ? Outcome.NOT_ASSESSED : Outcome.INVALID,
                evidence,
                sentence);
    }

    /** The set asks, and nothing was recorded that could answer: it keeps a deciding question from being a pass. */
    public static Finding missing(Requirement asked, String reason) {
        return plain(asked, asked.use(), Outcome.NOT_ASSESSED, Evidence.NONE, reason);
    }

    /** The question does not arise in this run; it does not count. */
    public static Finding notApplicable(Requirement asked, String reason) {
        return plain(asked, Use.REPORTS, Outcome.NOT_ASSESSED, Evidence.NONE, reason);
    }

    /** The set does not ask. */
    public static Finding notAsked(CriterionId id, CriteriaSet set) {
        Source source = new Source(
                set.name() + " " + set.version(), "", "", Source.Provenance.USER, Source.Confidence.HIGH, "");
        return new Finding(
                id,
                Use.OFF,
                Outcome.NOT_ASSESSED,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                DecisionRule.SIMPLE,
                source,
                Evidence.NONE,
                "Not assessed: the criteria set does not ask for it.");
    }

    private static Finding plain(Requirement asked, Use use, Outcome outcome, Evidence evidence, String sentence) {
        return new Finding(
                asked.id(),
                use,
                outcome,
                Optional.empty(),
                Optional.empty(),
                asked.limit(),
                asked.rule(),
                asked.source(),
                evidence,
                sentence);
    }
}
