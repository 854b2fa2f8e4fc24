package org.steamwright.assessment.criteria;

/**
 * A figure held against a limit, in all the forms that are shown.
 *
 * @param simple outcome as measured
 * @param guarded outcome with the limit drawn in by the doubt: pass, undecided (in the guard band) or fail
 * @param words the four-word form
 * @param decided outcome by the rule in force
 */
public record Judgement(Outcome simple, Outcome guarded, FourWords words, Outcome decided) {

    /** Holds a figure against a limit under a rule. */
    public static Judgement of(Figure figure, Limit limit, DecisionRule rule) {
        boolean met = limit.isMetBy(figure.value());
        boolean metForSure = limit.isMetBy(figure.worse(limit.comparison()));
        boolean metPerhaps = limit.isMetBy(figure.better(limit.comparison()));
        FourWords words;
        if (met) {
            words = metForSure ? FourWords.PASS : FourWords.CONDITIONAL_PASS;
        } else {
            words = metPerhaps ? FourWords.CONDITIONAL_FAIL : FourWords.FAIL;
        }
        Outcome simple = met ? Outcome.PASS : Outcome.FAIL;
        Outcome guarded = switch (words) {
            case PASS -> Outcome.PASS;
            case CONDITIONAL_PASS -> Outcome.UNDECIDED;
            case CONDITIONAL_FAIL, FAIL -> Outcome.FAIL;
        };
        return new Judgement(simple, guarded, words, rule == DecisionRule.SIMPLE ? simple : guarded);
    }
}
