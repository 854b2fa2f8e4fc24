package org.steamwright.desk.path;

import java.time.ZoneId;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.ChangedFact;
import org.steamwright.filing.Draft;

/**
 * The last change, which can be taken back.
 *
 * @param change identity; empty if there is none
 * @param words what was saved, when and by whom
 */
public record Trail(Optional<UUID> change, String words) {

    private static final int SHOWN = 3;

    /** Of a visit as it stands, in words of whoever looks. */
    public static Trail of(Draft draft, Frame frame, ZoneId zone) {
        Optional<Draft.Step> last = draft.lastChange();
        if (last.isEmpty()) {
            return new Trail(Optional.empty(), frame.say("path.saved-begun"));
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
                        last.get().author().name()));
    }

    private static String name(ChangedFact fact, Frame frame) {
        return fact.path().steps().get(0).startsWith("way/") ? frame.say("path.note-of-way") : fact.place();
    }
}
