package org.steamwright.desk.accounts;

import java.time.ZoneId;
import java.util.List;
import org.steamwright.desk.text.Figures;
import org.steamwright.desk.web.Ask;

/**
 * A session as the page of the own account shows it.
 *
 * @param id by which it is ended
 * @param device browser and system, in words
 * @param address where the log-in came from
 * @param begun when
 * @param lastUsed when
 * @param isThis whether it is the one that looks at the page
 */
public record SessionLine(String id, String device, String address, String begun, String lastUsed, boolean isThis) {

    static List<SessionLine> of(List<OpenSessions.Entry> sessions, String current, ZoneId zone, Ask ask) {
        Figures figures = ask.frame().figures();
        return sessions.stream()
                .map(session -> new SessionLine(
                        session.id(),
                        words(session.device(), ask),
                        session.address(),
                        figures.moment(session.begun().atZone(zone)),
                        figures.moment(session.lastUsed().atZone(zone)),
                        session.id().equals(current)))
                .toList();
    }

    private static String words(Device device, Ask ask) {
        if (device.browser().isEmpty() && device.system().isEmpty()) {
            return ask.frame().say("accounts.session-unknown");
        }
        if (device.browser().isEmpty() || device.system().isEmpty()) {
            return device.browser() + device.system();
        }
        return ask.frame().say("accounts.session-on", device.browser(), device.system());
    }
}
