package org.steamwright.desk.runs;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.records.Subject;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;

/**
 * Runs of a visit that are laid over one another.
 *
 * @param visitId of the record
 * @param visitNumber of the report
 * @param runs all that have a plateau to lay them by
 */
public record ComparePage(String visitId, String visitNumber, List<Run> runs) {

    public ComparePage {
        runs = List.copyOf(runs);
    }

    /**
     * A run that can be laid over others.
     *
     * @param number within the visit
     * @param cycle name
     * @param word of its verdict
     * @param frame of the word
     * @param isShown whether it was chosen
     */
    public record Run(int number, String cycle, String word, String frame, boolean isShown) {}

    static ComparePage of(Subject subject, AssessedVisit visit, List<String> chosen) {
        Set<String> wanted = Set.copyOf(chosen);
        List<Run> runs = new ArrayList<>();
        for (AssessedRun run : visit.runs()) {
            if (run.evaluation().run().kind() != TestKind.LEAK
                    && run.evaluation().plateau().isPresent()) {
                int number = run.run().number();
                runs.add(new Run(
                        number,
                        run.evaluation().run().cycle().name(),
                        run.word(),
                        FindingRow.frame(run.word()),
                        wanted.isEmpty() || wanted.contains(String.valueOf(number))));
            }
        }
        return new ComparePage(subject.id().toString(), subject.text("number"), runs);
    }
}
