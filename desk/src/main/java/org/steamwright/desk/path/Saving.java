package org.steamwright.desk.path;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.DraftRefusal.Reason;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.ReadOut;
import org.steamwright.records.Author;

/** Saves what was typed: one fact, one entry, one line. A value that the visit could not be read with is not saved. */
final class Saving {

    /** Paths that begin with this are notes of the way and no facts of the visit. */
    static final String NOTES = "way/";

    private static final int ATTEMPTS = 4;
    private static final String RUNS = "runs";
    private static final String INDICATIONS = "job-sheet/indications";

    private Saving() {}

    /**
     * How it went.
     *
     * @param draft as it stands now
     * @param complaint why nothing was saved; empty if it was
     */
    record Saved(Draft draft, Optional<Complaint> complaint) {}

    /**
     * Saves one field.
     *
     * @param value as it is kept
     * @param typed when it was typed, if the desk did not answer then; empty if that is now
     */
    static Saved field(Draft draft, String path, String value, String seen, Optional<Instant> typed, Author author)
            throws IOException, FilingException {
        Draft now = draft;
        for (int attempt = 1; ; attempt++) {
            DraftChange change = now.change();
            typed.ifPresent(change::statedAt);
            try {
                if (path.startsWith(NOTES)) {
                    change.note(path.substring(NOTES.length()), value);
                } else {
                    KeyedPath keyed = KeyedPath.parse(path);
                    boolean isAnswer = TaskAnswer.isOne(path);
                    FactPath target = (isAnswer ? TaskAnswer.outcome(path) : keyed).target(now);
                    if (isAnswer) {
                        TaskAnswer.set(now, change, path, value, seen);
                    } else if (CheckFacts.isOne(path)) {
                        CheckFacts.set(now, change, path, value, seen, author.name());
                    } else {
                        keyed.set(now, change, value, seen);
                    }
                    if (ChecksSheet.isResult(path)) {
                        ChecksSheet.keepWords(now, change, target, value);
                    }
                    if (!isAnswer && !keyed.text(now).equals(value)) {
                        RunFiles.unsign(now, change, target);
                    }
                    Renaming.follow(now, change, target, value);
                    Optional<DraftProblem> problem = value.isBlank() ? Optional.empty() : problem(change, target);
                    if (problem.isPresent()) {
                        return new Saved(now, problem.map(Complaint::of));
                    }
                }
                return new Saved(change.keep(author, ""), Optional.empty());
            } catch (DraftRefusal refused) {
                boolean isOfList = refused.clash()
                        .flatMap(DraftRefusal.Clash::standing)
                        .filter(standing -> standing instanceof List<?>)
                        .isPresent();
                now = now.now();
                if (refused.reason() == Reason.CHANGED_MEANWHILE && isOfList && attempt < ATTEMPTS) {
                    // somebody added another entry to the same list; this one still goes in
                    continue;
                }
                return new Saved(
                        now, Optional.of(new Complaint(String.valueOf(refused.getMessage()) + ".", refused.remedy())));
            }
        }
    }

    /** What could not be read about that very fact. */
    private static Optional<DraftProblem> problem(DraftChange change, FactPath target)
            throws IOException, FilingException, DraftRefusal {
        List<String> steps = target.steps();
        // a failure is closed by a day, and only with everything that it has to say by then
        Optional<FactPath> whole = steps.get(steps.size() - 1).equals("closed-on")
                ? Optional.of(new FactPath(steps.subList(0, steps.size() - 1)))
                : Optional.empty();
        return change.glance().stream()
                .filter(problem -> problem.path().equals(Optional.of(target))
                        || (whole.isPresent() && problem.path().equals(whole)))
                .findFirst();
    }

    /** A short mark of what stands at a path, by which a later removal knows that it is still the same. */
    static String mark(Draft draft, String path) {
        return draft.find(FactPath.parse(path))
                .map(value -> Integer.toHexString(value.hashCode()))
                .orElse("");
    }

    /** Takes an entry away; empty if it is not the one that was shown any more. What names a later run by its number follows. */
    static Optional<Draft> remove(Draft draft, String path, String mark, Author author) throws DraftRefusal {
        if (mark.isBlank() || !mark(draft, path).equals(mark)) {
            return Optional.empty();
        }
        FactPath removed = FactPath.parse(path);
        DraftChange change = draft.change();
        change.expect(removed, draft.find(removed)).remove(removed);
        RunFiles.unsign(draft, change, removed);
        if (removed.steps().size() == 2 && removed.steps().get(0).equals(RUNS)) {
            renumber(draft, Integer.parseInt(removed.steps().get(1)), change);
        }
        return Optional.of(change.keep(author, ""));
    }

    private static void renumber(Draft draft, int run, DraftChange change) {
        FactPath list = FactPath.parse(INDICATIONS);
        for (int i = 1; i <= draft.count(list); i++) {
            FactPath named = list.then(i).then("run");
            String text = draft.text(named);
            if (text.matches("[1-9][0-9]{0,3}") && Integer.parseInt(text) > run) {
                change.set(named, String.valueOf(Integer.parseInt(text) - 1));
            }
        }
        Map<String, String> notes = new TreeMap<>();
        ReadOut.noted(draft).forEach((of, day) -> {
            notes.putIfAbsent(ReadOut.note(of), of < run ? day : "");
            if (of > run) {
                notes.put(ReadOut.note(of - 1), day);
            }
        });
        notes.forEach(change::note);
        RunFiles.renumber(draft, run, change);
        Running.renumber(draft, change, run);
    }
}
