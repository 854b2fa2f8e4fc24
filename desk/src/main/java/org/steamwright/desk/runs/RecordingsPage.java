package org.steamwright.desk.runs;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.desk.path.Trail;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftReading;
import org.steamwright.visit.AssessedRun;

/**
 * The recordings of a run: how they were read, where the sensors sat, whose clock is whose, and what follows.
 *
 * @param visitId of the record
 * @param visitNumber of the report
 * @param number of the run
 * @param isSigned whether nothing changes any more
 * @param files recordings
 * @param clocks of several recordings; empty for one
 * @param oddities what looks odd in the curves, and its effect
 * @param problems for which this run can't be assessed yet
 * @param word of the verdict; blank if there is none yet
 * @param frame of the word
 * @param cause why
 * @param plan where the sensors sit
 * @param trail last change
 */
public record RecordingsPage(
        String visitId,
        String visitNumber,
        int number,
        boolean isSigned,
        List<ReadFile> files,
        List<ClockRow> clocks,
        List<Oddity> oddities,
        List<DraftProblem> problems,
        String word,
        String frame,
        String cause,
        ChamberPlan plan,
        Trail trail) {

    public RecordingsPage {
        files = List.copyOf(files);
        clocks = List.copyOf(clocks);
        oddities = List.copyOf(oddities);
        problems = List.copyOf(problems);
    }

    static RecordingsPage of(RunFacts facts, FileReading reader, Optional<DraftReading> reading, Trail trail)
            throws IOException {
        Draft draft = facts.draft();
        List<ReadFile> files = reader.all(facts);
        Optional<AssessedRun> run = reading.flatMap(DraftReading::assessed)
                .map(visit -> visit.runs().get(facts.number() - 1));
        List<DraftProblem> all = reading.map(DraftReading::problems).orElse(List.of());
        List<DraftProblem> problems = new ArrayList<>();
        for (DraftProblem problem : all) {
            if (isOfRun(problem, facts.number(), files)) {
                problems.add(problem);
            }
        }
        return new RecordingsPage(
                draft.id().toString(),
                draft.number(),
                facts.number(),
                draft.isSigned(),
                files,
                files.size() > 1 ? run.map(ClockRow::of).orElse(List.of()) : List.of(),
                run.map(one -> one.evaluation().oddities()).orElse(List.of()),
                problems.isEmpty() ? all : problems,
                run.map(AssessedRun::word).orElse(""),
                run.map(one -> FindingRow.frame(one.word())).orElse(""),
                run.map(AssessedRun::cause).orElse(""),
                ChamberPlan.of(files, run, facts.chamberSize(), facts.trayLevels()),
                trail);
    }

    private static boolean isOfRun(DraftProblem problem, int number, List<ReadFile> files) {
        return problem.place().toLowerCase(Locale.ROOT).startsWith("run " + number + ",")
                || problem.place().equalsIgnoreCase("run " + number)
                || files.stream().anyMatch(file -> file.name().equals(problem.file()));
    }
}
