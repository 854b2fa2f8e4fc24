package org.steamwright.assessment.verdict;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Judgement;
import org.steamwright.assessment.criteria.OpenDoubt;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;

/**
 * From findings to the verdict of a run: a deciding fail fails it; otherwise anything deciding that is not a pass
 * (invalid, undecided, awaited, not assessed) makes it invalid; only passes pass.
 */
final class Verdicts {

    private Verdicts() {}

    static RunVerdict of(List<Finding> findings, Function<Finding, Outcome> outcome) {
        List<Finding> deciding = findings.stream().filter(Finding::isDeciding).toList();
        List<Finding> failed = deciding.stream()
                .filter(finding -> outcome.apply(finding) == Outcome.FAIL)
                .toList();
        if (!failed.isEmpty()) {
            return new RunVerdict(RunOutcome.FAIL, failed, sentences(failed));
        }
        List<Finding> open = deciding.stream()
                .filter(finding -> outcome.apply(finding) != Outcome.PASS)
                .toList();
        if (!open.isEmpty()) {
            return new RunVerdict(
                    RunOutcome.INVALID,
                    open,
                    open.stream().map(finding -> sentence(finding, outcome)).collect(Collectors.joining(" ")));
        }
        if (deciding.isEmpty()) {
            throw new IllegalArgumentException("a criteria set in which nothing decides can't give a verdict");
        }
        return new RunVerdict(
                RunOutcome.PASS, List.of(), "All %s deciding criteria are met.".formatted(deciding.size()));
    }

    /** The outcome as if the simple rule were in force. */
    static Outcome simple(Finding finding) {
        return under(finding, Judgement::simple);
    }

    /** The outcome as if the guarded rule were in force. */
    static Outcome guarded(Finding finding) {
        return under(finding, Judgement::guarded);
    }

    private static Outcome under(Finding finding, Function<Judgement, Outcome> form) {
        boolean isOfTheRule = finding.outcome() == Outcome.PASS
                || finding.outcome() == Outcome.FAIL
                || finding.outcome() == Outcome.UNDECIDED;
        return isOfTheRule ? finding.judgement().map(form).orElse(finding.outcome()) : finding.outcome();
    }

    /** Why a finding is open; one that only another rule than its own leaves undecided has not said so yet. */
    private static String sentence(Finding finding, Function<Finding, Outcome> outcome) {
        return outcome.apply(finding) == Outcome.UNDECIDED && finding.outcome() != Outcome.UNDECIDED
                ? finding.sentence() + " " + OpenDoubt.sentence(finding)
                : finding.sentence();
    }

    private static String sentences(List<Finding> findings) {
        return String.join(" ", findings.stream().map(Finding::sentence).toList());
    }
}
