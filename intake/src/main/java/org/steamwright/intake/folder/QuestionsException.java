package org.steamwright.intake.folder;

import java.util.List;
import java.util.stream.Collectors;
import org.steamwright.intake.Question;

/** A single recording leaves things open that only a person can tell. Carries everything that is open at this point. */
public final class QuestionsException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient List<Question> questions;

    QuestionsException(String file, List<Question> questions) {
        super(file + ": " + questions.stream().map(QuestionsException::sentence).collect(Collectors.joining(" ")));
        this.questions = List.copyOf(questions);
    }

    private static String sentence(Question question) {
        return question.text() + " " + question.evidence() + " Answer " + question.key()
                + (question.options().isEmpty() ? "." : " with one of: " + String.join(", ", question.options()) + ".");
    }

    /** The open questions; each key goes back with its answer by {@link SingleRecording.Declarations#with}. */
    public List<Question> questions() {
        return questions;
    }
}
