package org.steamwright.desk.runs;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.StatedPhases;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Hint;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.plot.CyclePlot;
import org.steamwright.report.plot.Drawing;
import org.steamwright.report.plot.Moments;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.VisitRun;

/**
 * What became of a run, as its page shows it.
 *
 * @param visitId of the record
 * @param visitNumber of the report
 * @param number of the run
 * @param runs of the visit, how many
 * @param message the one thing that the curves say
 * @param word of the verdict
 * @param frame of the word
 * @param cause why
 * @param kind of the test, in words
 * @param cycle name
 * @param criteriaSet that judged
 * @param start clock at the first sample; blank if nobody told it
 * @param isLeak whether it is a leak test, which has no plateau
 * @param hasPlateau whether there is a plateau to look at closely
 * @param findings that were judged: what keeps the run from passing first, the others in the order of the set
 * @param notAssessed findings that were not
 * @param points figures of the measuring points
 * @param phases word, begin and end, as found
 * @param statedPhases those that follow from stated borders and differ from the found ones
 * @param borders that are stated, and that can be
 * @param oddities what looks odd in the curves
 * @param remarks of reading the files
 * @param hints for a run that did not pass
 * @param files names of the recordings
 */
public record RunPage(
        String visitId,
        String visitNumber,
        int number,
        int runs,
        String message,
        String word,
        String frame,
        String cause,
        String kind,
        String cycle,
        String criteriaSet,
        String start,
        boolean isLeak,
        boolean hasPlateau,
        List<FindingRow> findings,
        List<FindingRow> notAssessed,
        List<PointRow> points,
        List<PhaseRow> phases,
        List<PhaseRow> statedPhases,
        BorderForm borders,
        List<Oddity> oddities,
        List<Remark> remarks,
        List<Hint> hints,
        List<String> files) {

    private static final Map<Outcome, Integer> URGENCY =
            Map.of(Outcome.FAIL, 0, Outcome.INVALID, 1, Outcome.UNDECIDED, 2, Outcome.AWAITED, 3);

    public RunPage {
        findings = List.copyOf(findings);
        notAssessed = List.copyOf(notAssessed);
        points = List.copyOf(points);
        phases = List.copyOf(phases);
        statedPhases = List.copyOf(statedPhases);
        oddities = List.copyOf(oddities);
        remarks = List.copyOf(remarks);
        hints = List.copyOf(hints);
        files = List.copyOf(files);
    }

    /**
     * A phase of the cycle.
     *
     * @param word its name
     * @param from begin in minutes and seconds
     * @param to end
     * @param length how long it took
     */
    public record PhaseRow(String word, String from, String to, String length) {

        static PhaseRow of(Phase phase) {
            return new PhaseRow(
                    phase.kind().words(),
                    Moments.minutes(phase.fromSeconds()),
                    Moments.minutes(phase.toSeconds()),
                    Moments.length(phase.toSeconds() - phase.fromSeconds()));
        }
    }

    static RunPage of(RunPlace place, boolean mayState, Speaker speaker) {
        AssessedRun assessed = place.run();
        RunEvaluation evaluation = assessed.evaluation();
        VisitRun run = assessed.run();
        List<Finding> all = new ArrayList<>(evaluation.findings());
        all.addAll(assessed.loadFindings());
        List<FindingRow> judged = new ArrayList<>();
        List<FindingRow> open = new ArrayList<>();
        for (int i = 0; i < all.size(); i++) {
            (all.get(i).outcome() == Outcome.NOT_ASSESSED ? open : judged).add(FindingRow.of(i, all.get(i)));
        }
        judged.sort(Comparator.comparingInt(row -> {
            Finding finding = all.get(row.place());
            return finding.isDeciding() ? URGENCY.getOrDefault(finding.outcome(), URGENCY.size()) : URGENCY.size();
        }));
        return new RunPage(
                place.subject().id().toString(),
                place.subject().text("number"),
                run.number(),
                place.visit().runs().size() + place.visit().visit().unrecorded().size(),
                drawing(evaluation, speaker).map(Drawing::title).orElse(assessed.cause()),
                assessed.word(),
                FindingRow.frame(assessed.word()),
                assessed.cause(),
                evaluation.run().kind().words(),
                evaluation.run().cycle().name(),
                evaluation.criteriaSet().identity(),
                start(evaluation.run().trace()),
                evaluation.run().kind() == TestKind.LEAK,
                evaluation.plateau().isPresent(),
                judged,
                open,
                PointRow.of(evaluation),
                evaluation.phases().map(found -> found.phases()).orElse(List.of()).stream()
                        .map(PhaseRow::of)
                        .toList(),
                statedPhases(evaluation),
                BorderForm.of(evaluation, mayState),
                evaluation.oddities(),
                Stream.concat(doubts(place.visit(), run.number()).stream(), evaluation.run().trace().remarks().stream())
                        .toList(),
                evaluation.hints(),
                evaluation.run().trace().files().stream()
                        .map(Trace.SourceFile::name)
                        .toList());
    }

    /** Doubts about reading the visit that name a run: another day, bytes used before, two runs at once. */
    static List<Remark> doubts(AssessedVisit visit, int run) {
        return visit.visit().remarks().stream()
                .filter(remark -> remark.rank() != Rank.NOTE && remark.where().contains("runs[" + run + "]"))
                .toList();
    }

    private static List<PhaseRow> statedPhases(RunEvaluation evaluation) {
        List<Phase> found = evaluation.phases().map(Phases::phases).orElse(List.of());
        return evaluation.phases().flatMap(Phases::stated).map(StatedPhases::phases).orElse(List.of()).stream()
                .filter(phase -> !found.contains(phase))
                .map(PhaseRow::of)
                .toList();
    }

    private static String start(Trace trace) {
        return trace.start()
                .map(start -> start.atZone(trace.zone()).toLocalDate() + " " + Moments.clock(start, trace.zone()))
                .orElse("");
    }

    /** The report's picture of the whole run; empty for a leak test without pressure. */
    static Optional<Drawing> drawing(RunEvaluation evaluation, Speaker speaker) {
        return evaluation.run().kind() == TestKind.LEAK
                ? CyclePlot.leak(evaluation, speaker)
                : Optional.of(CyclePlot.whole(evaluation, speaker));
    }
}
