package org.steamwright.intake.table;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** What is said of how a file is read: why it is read so, what is odd about it, and what it leaves open. */
final class ReadingNotes {

    private final String file;
    private final ReadingChoices choices;
    private final List<String> explanation = new ArrayList<>();
    private final List<Remark> remarks = new ArrayList<>();
    private final List<Question> questions = new ArrayList<>();
    private boolean isUnitUnknown;

    ReadingNotes(String file, ReadingChoices choices) {
        this.file = file;
        this.choices = choices;
    }

    List<String> explanation() {
        return explanation;
    }

    List<Remark> remarks() {
        return remarks;
    }

    void explain(String sentence) {
        explanation.add(sentence);
    }

    void remark(IntakeMessage id, Rank rank, String where, String words) {
        remarks.add(new Remark(id.id(), rank, file + ", " + where, words));
    }

    void add(List<Remark> more) {
        remarks.addAll(more);
    }

    void ask(Question question) {
        questions.add(question);
    }

    /** The same for a unit that the file writes and the program does not know. */
    void askUnknownUnit(Question question) {
        isUnitUnknown = true;
        ask(question);
    }

    boolean hasQuestions() {
        return !questions.isEmpty();
    }

    /** The refusal that carries every question. */
    UnreadableFileException open() {
        StringBuilder said = new StringBuilder();
        for (Question question : questions) {
            said.append(said.isEmpty() ? "" : " ").append(question);
        }
        return refusal(
                isUnitUnknown ? IntakeMessage.UNKNOWN_UNIT : IntakeMessage.QUESTIONS_OPEN,
                "",
                said.toString(),
                questions);
    }

    UnreadableFileException refusal(IntakeMessage id, String where, String words) {
        return refusal(id, where, words, List.of());
    }

    private UnreadableFileException refusal(IntakeMessage id, String where, String words, List<Question> open) {
        return new UnreadableFileException(id, file, where, words, open);
    }

    /** An answer that a person gave for another file must not overrule what this one says. */
    void refuseProfile(String key, String where, String answer, String evidence) throws UnreadableFileException {
        if (choices.isByProfile(key)) {
            throw TableRecordings.contradicted(file, where, choices, key, answer, evidence);
        }
    }
}
