package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.steamwright.intake.Question;

/** Puts the open questions to the person at the terminal. */
final class Asking {
    private Asking() {}

    /**
     * Asks and adds the answers; an empty answer leaves a question open.
     *
     * @param questions in the order in which they are put
     * @param answers by key, added to
     */
    static void ask(List<Question> questions, Map<String, String> answers, Surroundings surroundings)
            throws IOException {
        surroundings.progress("");
        String evidence = "";
        for (Question question : questions) {
            surroundings.warn("");
            surroundings.warn(
                    question.text() + (question.evidence().equals(evidence) ? "" : " " + question.evidence()));
            evidence = question.evidence();
            List<String> options = question.options();
            for (int i = 0; i < options.size(); i++) {
                surroundings.warn("  " + (i + 1) + "  " + options.get(i));
            }
            String said = surroundings.ask(options.isEmpty() ? "> " : "number or word > ");
            if (!said.isEmpty()) {
                answers.put(question.key(), chosen(said, options));
            }
        }
    }

    private static String chosen(String said, List<String> options) {
        for (int i = 0; i < options.size(); i++) {
            if (said.equals(Integer.toString(i + 1)) && !options.contains(said)) {
                return options.get(i);
            }
        }
        return said;
    }
}
