package org.steamwright.desk.path;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.failure.Letters;

/**
 * What failed at a visit and what follows from it, as far as it can be assessed.
 *
 * @param failures by steriliser and kind of evidence
 * @param letters ready to be read over: out of service, look-back
 * @param isAssessed whether the visit can be assessed; else nothing follows yet
 */
public record Failing(List<Failed> failures, List<Letters.Letter> letters, boolean isAssessed) {

    private static final List<String> LISTS = List.of("failures", "evidence", "conditions", "events");

    /**
     * One failure.
     *
     * @param failure with what follows from it
     * @param serial of the steriliser
     * @param run number of the first run that shows it; empty if none does
     */
    public record Failed(Failure failure, String serial, Optional<Integer> run) {

        /** Address of the form for a non-conformity that is about it. */
        public String nonconformity(Draft visit, Frame frame) {
            return About.of(visit)
                    .sterilizer(failure.sterilizer())
                    .run(run)
                    .what(frame.heard(String.join(" ", failure.what())))
                    .href();
        }
    }

    public Failing {
        failures = List.copyOf(failures);
        letters = List.copyOf(letters);
    }

    static Failing of(DraftReading reading) {
        Optional<AssessedVisit> found = reading.assessed();
        if (found.isEmpty()) {
            return new Failing(List.of(), List.of(), false);
        }
        AssessedVisit assessed = found.get();
        List<Failure> failures = FailurePath.of(assessed);
        List<Failed> shown = new ArrayList<>();
        for (Failure failure : failures) {
            shown.add(new Failed(
                    failure,
                    assessed.visit().getSterilizer(failure.sterilizer()).serial(),
                    run(assessed, failure)));
        }
        return new Failing(
                shown, Letters.of(assessed, failures, assessed.visit().date().orElse(LocalDate.EPOCH)), true);
    }

    private static Optional<Integer> run(AssessedVisit assessed, Failure failure) {
        return assessed.runs().stream()
                .filter(run -> run.run().sterilizer().equals(failure.sterilizer()))
                .filter(AssessedRun::isFail)
                .map(run -> run.run().number())
                .filter(number -> failure.what().stream().anyMatch(what -> what.matches("(?s)Run " + number + "\\b.*")))
                .findFirst();
    }

    /** Whether the path has a stage for it: something failed, or somebody wrote of it. */
    static boolean isNeeded(Draft draft) {
        boolean isWritten = LISTS.stream().anyMatch(list -> draft.count(FactPath.of("job-sheet", list)) > 0);
        return isWritten
                || isTestFailed(draft)
                || isTaskFailed(draft)
                || draft.peek()
                        .flatMap(DraftReading::assessed)
                        .filter(assessed -> !FailurePath.of(assessed).isEmpty())
                        .isPresent();
    }

    private static boolean isTestFailed(Draft draft) {
        FactPath tests = FactPath.of("job-sheet", "penetration");
        for (int i = 1; i <= draft.count(tests); i++) {
            if (draft.text(tests.then(i).then("result")).equals("fail")) {
                return true;
            }
        }
        return false;
    }

    private static boolean isTaskFailed(Draft draft) {
        FactPath lists = FactPath.of("job-sheet", "tasks");
        for (int i = 1; i <= draft.count(lists); i++) {
            Object entries = draft.find(lists.then(i).then("entries")).orElse(List.of());
            if (entries instanceof List<?> list
                    && list.stream()
                            .anyMatch(one -> one instanceof Map<?, ?> map && "failed".equals(map.get("condition")))) {
                return true;
            }
        }
        return false;
    }
}
