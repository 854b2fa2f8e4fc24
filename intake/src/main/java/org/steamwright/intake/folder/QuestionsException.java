package org.steamwright.intake.folder;

import java.util.List;
import java.util.stream.Collectors;
import org.steamwright.intake.Question;

/** A single recording leaves things open that only a person can tell. Carries everything that is open at this point. */
public final class QuestionsException extends Exception {

    private static final long serialVersionUID = 1L;

    private final transient List<Question> questions;

    QuestionsException(String file, List<Question> questions) {
        super(file + ": " + questions.stream().map(Question::toString).collect(Collectors.joining(" ")));
        this.questions = List.copyOf(questions);
    }

    /** The open questions; each key goes back with its answer by {@link SingleRecording.Declarations#with}. */
    public List<Question> questions() {
        return questions;
    }
}
