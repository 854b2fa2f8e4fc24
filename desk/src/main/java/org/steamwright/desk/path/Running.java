package org.steamwright.desk.path;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Optional;
import org.steamwright.filing.Draft;

/**
 * A cycle that is under way.
 *
 * @param run number of the run
 * @param since when it was started
 */
public record Running(int run, Instant since) {

    /** Note that holds the cycle under way. */
    static final String NOTE = "running";

    /** What a note of the way says is under way. */
    static Optional<Running> of(Draft draft) {
        String[] noted = draft.note(NOTE).split(" ", 2);
        if (noted.length < 2) {
            return Optional.empty();
        }
        try {
            return Optional.of(new Running(Integer.parseInt(noted[0]), Instant.parse(noted[1])));
        } catch (NumberFormatException | DateTimeException e) {
            // a note that somebody else wrote says nothing here
            return Optional.empty();
        }
    }

    /** The note that says this. */
    String note() {
        return run + " " + since;
    }
}
