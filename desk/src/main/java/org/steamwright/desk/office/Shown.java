package org.steamwright.desk.office;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Percent;
import org.steamwright.records.DueStart;
import org.steamwright.records.Subject;
import org.steamwright.records.VisitResult;

/** Small things that several pages of the office show in the same way. */
public final class Shown {

    /** Rows on a page of a long list. */
    static final int ROWS = 100;

    private Shown() {}

    /** Where a machine of the record is shown: by its identity, which no sign of its serial number can break. */
    static String machinePath(Subject machine) {
        return "/register/sterilizers/" + machine.id();
    }

    /** A text as one part of a path or as a value of a query. */
    public static String part(String text) {
        return Percent.encoded(text);
    }

    /** What the program says, with its days as the reader reads them. */
    static Told heard(Frame frame, String english) {
        Told told = frame.hear(english);
        return new Told(frame.figures().daysIn(told.text()), told.isEnglish());
    }

    /** A day; a dash if there is none. */
    public static String day(Frame frame, Optional<LocalDate> day) {
        return day.map(frame.figures()::day).orElse("–");
    }

    /** A day as facts have it; as it stands if it is none. */
    public static String day(Frame frame, String text) {
        try {
            return text.isBlank() ? "–" : frame.figures().day(LocalDate.parse(text));
        } catch (java.time.DateTimeException noDay) {
            return text;
        }
    }

    /** A day that was typed; empty if it is none. */
    static Optional<LocalDate> typedDay(Ask ask, String name) {
        try {
            return ask.typed(name).isEmpty() ? Optional.empty() : Optional.of(LocalDate.parse(ask.typed(name)));
        } catch (java.time.DateTimeException noDay) {
            return Optional.empty();
        }
    }

    /** Where a page of a long list begins; 0 if nothing sensible was asked for. */
    static int from(Ask ask) {
        try {
            return Math.max(0, Integer.parseInt(ask.typed("from")));
        } catch (NumberFormatException nothing) {
            return 0;
        }
    }

    /** The part of a list that a page shows. */
    static <T> List<T> page(List<T> all, int from) {
        int begin = Math.min(from, all.size());
        return all.subList(begin, Math.min(all.size(), begin + ROWS));
    }

    /** Links to the pages before and after. */
    static void pages(Sheet.Writer writer, Frame frame, String path, int from, long all) {
        pages(writer, frame, path, from, ROWS, all);
    }

    /** The same with pages of another length. */
    static void pages(Sheet.Writer writer, Frame frame, String path, int from, int length, long all) {
        List<Sheet.Link> links = new ArrayList<>();
        if (from > 0) {
            links.add(new Sheet.Link(frame.say("office.earlier"), path + "from=" + Math.max(0, from - length)));
        }
        if (from + length < all) {
            links.add(new Sheet.Link(
                    frame.say("office.later", from + length + 1, Math.min(all, from + 2L * length), all),
                    path + "from=" + (from + length)));
        }
        if (!links.isEmpty()) {
            writer.links(links.toArray(new Sheet.Link[0]));
        }
    }

    /** Where a page of the due list begins; its first page if nothing sensible was asked for. */
    static DueStart start(Ask ask) {
        return from(ask) == 0 ? DueStart.FIRST : new DueStart(from(ask), DueStart.At.parse(ask.typed("at")));
    }

    /** Links to the pages of the due list before and after. */
    static void pages(
            Sheet.Writer writer,
            Frame frame,
            String path,
            Optional<DueStart> earlier,
            Optional<DueStart> later,
            int length,
            long all) {
        List<Sheet.Link> links = new ArrayList<>();
        earlier.ifPresent(start -> links.add(new Sheet.Link(frame.say("office.earlier"), path + asked(start))));
        later.ifPresent(start -> links.add(new Sheet.Link(
                frame.say("office.later", start.from() + 1, Math.min(all, start.from() + length), all),
                path + asked(start))));
        if (!links.isEmpty()) {
            writer.links(links.toArray(new Sheet.Link[0]));
        }
    }

    private static String asked(DueStart start) {
        return "from=" + start.from()
                + start.at().map(at -> "&at=" + part(at.text())).orElse("");
    }

    /** A cell with the reason for which a visit was not assessed. */
    static Cell reason(Frame frame, VisitResult.Reason why) {
        if (why.text().isBlank()) {
            return Cell.of("–");
        }
        return Cell.of(why.place().isBlank() ? frame.hear(why.text()) : frame.hear(why.place(), why.text()));
    }

    /** What belongs together, each part as the reader gets it, with its days; a dash for nothing. */
    static String parts(Frame frame, List<String> parts, String between) {
        return parts.isEmpty()
                ? "–"
                : parts.stream().map(part -> heard(frame, part).text()).collect(Collectors.joining(between));
    }

    /** A cell with a dash for nothing. */
    public static Cell text(String text) {
        return Cell.of(text.isBlank() ? "–" : text);
    }
}
