package org.steamwright.desk.office;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.stream.Collectors;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;

/**
 * What is due as a calendar, one whole day for each thing that has a day.
 *
 * @source RFC 5545, sections 3.1 (lines and folding), 3.3.11 (texts), 3.6.1 (events), 3.8.4.7 (identities)
 */
final class CalendarText {

    private static final int LINE_OCTETS = 75;
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("yyyyMMdd", Locale.ROOT);
    private static final DateTimeFormatter MOMENT =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

    private CalendarText() {}

    /** What stands before all events. */
    static String head() {
        StringBuilder text = new StringBuilder();
        line(text, "BEGIN:VCALENDAR");
        line(text, "VERSION:2.0");
        line(text, "PRODID:-//Steamwright//Due list//EN");
        line(text, "CALSCALE:GREGORIAN");
        return text.toString();
    }

    /** Events of some of what is due. */
    static String events(List<Due> due, Instant now) {
        StringBuilder text = new StringBuilder();
        for (Due one : due) {
            one.day().ifPresent(day -> event(text, one, day, now));
        }
        return text.toString();
    }

    /** What stands after all events. */
    static String end() {
        StringBuilder text = new StringBuilder();
        line(text, "END:VCALENDAR");
        return text.toString();
    }

    private static void event(StringBuilder text, Due due, LocalDate day, Instant now) {
        String identity = due.subject().kind().word() + "\n" + due.subject().id() + "\n" + due.title();
        line(text, "BEGIN:VEVENT");
        line(text, "UID:" + UUID.nameUUIDFromBytes(identity.getBytes(StandardCharsets.UTF_8)) + "@steamwright.invalid");
        line(text, "DTSTAMP:" + MOMENT.format(now));
        line(text, "DTSTART;VALUE=DATE:" + DAY.format(day));
        line(text, "DTEND;VALUE=DATE:" + DAY.format(day.plusDays(1)));
        line(text, "SUMMARY:" + escaped(due.title() + ": " + due.subject().title()));
        if (!due.subject().place().isBlank()) {
            line(text, "LOCATION:" + escaped(due.subject().place()));
        }
        line(
                text,
                "DESCRIPTION:"
                        + escaped(due.when() + "\n"
                                + due.reasons().stream().map(Candidate::reason).collect(Collectors.joining("\n"))));
        line(text, "TRANSP:TRANSPARENT");
        line(text, "END:VEVENT");
    }

    private static String escaped(String text) {
        StringBuilder escaped = new StringBuilder();
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            switch (sign) {
                case '\\', ';', ',' -> escaped.append('\\').append(sign);
                case '\n' -> escaped.append("\\n");
                default -> escaped.append(Character.isISOControl(sign) ? ' ' : sign);
            }
        }
        return escaped.toString();
    }

    /** A line of at most 75 octets; what is longer goes on after a blank, and no sign is cut in two. */
    private static void line(StringBuilder text, String line) {
        int octets = 0;
        for (int i = 0; i < line.length(); ) {
            int sign = line.codePointAt(i);
            String one = Character.toString(sign);
            int length = one.getBytes(StandardCharsets.UTF_8).length;
            if (octets + length > LINE_OCTETS) {
                text.append("\r\n ");
                octets = 1;
            }
            text.append(one);
            octets += length;
            i += one.length();
        }
        text.append("\r\n");
    }
}
