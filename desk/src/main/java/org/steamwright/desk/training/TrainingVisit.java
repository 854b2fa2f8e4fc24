package org.steamwright.desk.training;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.records.Author;
import org.steamwright.simulator.LoggerFile;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.visit.AssessedRun;

/**
 * A training visit: a visit of the training record, what is planted in it, and the seed of its recordings.
 *
 * @param draft the visit
 * @param fault that is planted
 * @param seed of the recordings
 * @param isHidden whether the trainee did not choose the fault
 */
public record TrainingVisit(Draft draft, TrainingFault fault, long seed, boolean isHidden) {

    private static final String KIND = "training-fault";
    private static final String SEED = "training-seed";
    private static final String HIDDEN = "training-hidden";
    private static final FactPath RECORDING = FactPath.of("runs", 1, "recording");

    /** Begins a visit on a simulated machine. */
    static TrainingVisit begin(
            Drafts drafts, Author author, String number, TrainingFault fault, long seed, boolean isHidden)
            throws DraftRefusal {
        Draft draft = drafts.open(author, number, TrainingFacts.of(fault.run(seed), author.name()));
        Draft noted = draft.change()
                .note(KIND, fault.word())
                .note(SEED, String.valueOf(seed))
                .note(HIDDEN, isHidden ? "yes" : "no")
                .keep(author, "");
        return new TrainingVisit(noted, fault, seed, isHidden);
    }

    /** What a visit of the training record is; empty if it was not begun here. */
    static Optional<TrainingVisit> of(Draft draft) {
        String seed = draft.note(SEED);
        return seed.matches("[0-9]{1,9}")
                ? TrainingFault.find(draft.note(KIND))
                        .map(fault -> new TrainingVisit(
                                draft,
                                fault,
                                Long.parseLong(seed),
                                draft.note(HIDDEN).equals("yes")))
                : Optional.empty();
    }

    /** The files that the loggers would give, made anew: the same each time. */
    List<LoggerFile> files() {
        return fault.run(seed).files();
    }

    /** Names of the files. */
    List<String> names() {
        return files().stream().map(LoggerFile::name).toList();
    }

    /** Whether the run has recordings. */
    public boolean isRead() {
        return draft.find(RECORDING).isPresent();
    }

    /** Takes the recordings over as if the loggers had been read out. */
    Draft readOut(Author author) throws DraftRefusal, IOException {
        DraftChange change = draft.change();
        List<Object> names = new ArrayList<>();
        for (LoggerFile file : files()) {
            change.putFile(file.name(), new ByteArrayInputStream(file.bytes()));
            names.add(file.name());
        }
        return change.set(RECORDING, Optional.of(names.size() == 1 ? names.get(0) : names))
                .keep(author, "");
    }

    /**
     * What was planted, and how far the findings told it.
     *
     * @param key of the fault's words
     * @param figures what the simulator planted
     * @param naming findings that name it and did not pass
     * @param silent titles of criteria that could have named it and passed or were not assessed
     * @param word of the run's verdict
     * @param frame of the word
     */
    public record Answer(
            String key, String figures, List<Naming> naming, List<String> silent, String word, String frame) {

        public Answer {
            naming = List.copyOf(naming);
            silent = List.copyOf(silent);
        }
    }

    /**
     * A finding that names the fault.
     *
     * @param title of the criterion
     * @param sentence of the finding
     */
    public record Naming(String title, String sentence) {}

    /** The answer; empty as long as the recordings are not read. */
    Optional<Answer> answer() throws IOException, FilingException {
        DraftReading reading = draft.read();
        if (!isRead() || reading.assessed().isEmpty()) {
            return Optional.empty();
        }
        AssessedRun assessed = reading.assessed().get().runs().get(0);
        SimulatedRun run = fault.run(seed);
        List<Naming> naming = new ArrayList<>();
        List<String> silent = new ArrayList<>();
        for (Finding finding : assessed.evaluation().findings()) {
            if (run.scenario().faults().get(0).expected().contains(finding.id())) {
                boolean isNaming = finding.outcome() != Outcome.PASS && finding.outcome() != Outcome.NOT_ASSESSED;
                if (isNaming) {
                    naming.add(new Naming(finding.id().title(), finding.sentence()));
                } else {
                    silent.add(finding.id().title());
                }
            }
        }
        String word = assessed.word();
        return Optional.of(new Answer(fault.key(), fault.planted(run), naming, silent, word, word.replace(' ', '-')));
    }
}
