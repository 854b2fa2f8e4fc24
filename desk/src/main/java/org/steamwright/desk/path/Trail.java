package org.steamwright.desk.path;

import java.time.ZoneId;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.ProblemText;
import org.steamwright.filing.ChangedFact;
import org.steamwright.filing.Draft;

/**
 * The last change, which can be taken back.
 *
 * @param change identity; empty if there is none
 * @param words what was saved, when and by whom
 * @param at moment of it in milliseconds, so that an older answer does not replace a newer one
 */
public record Trail(Optional<UUID> change, String words, String at) {

    private static final int SHOWN = 3;
    private static final String FILES = "files/";

    /** Of a visit as it stands, in words of whoever looks. */
    public static Trail of(Draft draft, Frame frame, ZoneId zone) {
        Optional<Draft.Step> last = draft.lastChange();
        if (last.isEmpty()) {
            return new Trail(Optional.empty(), frame.say("path.saved-begun"), "0");
        }
        String facts = last.get().facts().stream()
                .limit(SHOWN)
                .map(fact -> name(fact, frame))
                .collect(Collectors.joining("; "));
        return new Trail(
                Optional.of(last.get().id()),
                frame.say(
                        "path.saved-last",
                        frame.figures().time(last.get().at().atZone(zone)),
                        facts.isBlank() ? frame.say("path.note-of-way") : facts,
                        last.get().author().name()),
                String.valueOf(last.get().at().toEpochMilli()));
    }

    private static String name(ChangedFact fact, Frame frame) {
        String first = fact.path().steps().get(0);
        return first.startsWith("way/")
                ? frame.say("path.note-of-way")
                : first.startsWith(FILES) ? first.substring(FILES.length()) : ProblemText.place(frame, fact);
    }
}
