package org.steamwright.desk.accounts;

import java.time.ZonedDateTime;
import java.util.List;
import java.util.Map;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.records.accounts.LogInEntry;

/**
 * One line of the log of log-ins as it is shown.
 *
 * @param when day and time at this office
 * @param user name; a dash for one that is not known
 * @param address from where; a dash for an act of the office itself
 * @param act what was attempted
 * @param result what came of it
 */
public record LogLine(String when, String user, String address, String act, String result) {

    static List<LogLine> of(List<LogInEntry> entries, Map<String, String> names, Office office, Ask ask) {
        return entries.stream()
                .map(entry -> {
                    ZonedDateTime at = entry.at().atZone(office.clock().getZone());
                    return new LogLine(
                            ask.frame().figures().moment(at),
                            names.getOrDefault(entry.account(), "–"),
                            entry.address().isEmpty() ? "–" : entry.address(),
                            said(ask, "act", entry.act()),
                            said(ask, "result", entry.result()));
                })
                .toList();
    }

    /** In the reader's words, where the texts have them; what names people or routes stays as it was kept. */
    private static String said(Ask ask, String part, String kept) {
        String key = kept.replaceAll("[^a-z]+", "-").replaceAll("^-|-$", "");
        return ask.frame().words().find("accounts." + part + "-" + key).orElse(kept);
    }
}
