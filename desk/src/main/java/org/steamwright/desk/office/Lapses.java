package org.steamwright.desk.office;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.Lapse;
import org.steamwright.filing.SigningKeys;
import org.steamwright.records.AheadBook;
import org.steamwright.records.AheadLapse;
import org.steamwright.records.AheadLapse.Span;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.accounts.Account;
import org.steamwright.records.accounts.AccountBook;

/**
 * What the office has that ends or has ended: calibrations, lots, competences, and keys that somebody could still sign with who is
 * shut off. In one list, each line with its last day and the page where it is mended. Read by index, as far as it is shown.
 */
public final class Lapses {

    private static final int AHEAD = 60;
    private static final int BACK = 366;
    /** Of lots, which nobody takes away when they are used up. */
    private static final int LOTS_BACK = 60;

    private final Office office;
    private final Frame frame;
    private final LocalDate today;
    private final Span span;

    private Lapses(Office office, Frame frame) {
        this.office = office;
        this.frame = frame;
        this.today = LocalDate.now(office.clock());
        this.span = new Span(today.minusDays(BACK), today.minusDays(LOTS_BACK), today.plusDays(AHEAD));
    }

    /** The first of them, for the first page; no part if there are none. */
    public static Sheet first(Office office, Frame frame, int shown) {
        Lapses lapses = new Lapses(office, frame);
        List<List<Cell>> keys = lapses.keys();
        List<List<Cell>> rows = lapses.rows(0, shown);
        Sheet.Writer writer =
                new Sheet.Writer(frame.say("today.title", frame.figures().day(lapses.today)));
        if (rows.isEmpty() && keys.isEmpty()) {
            return writer.sheet();
        }
        long all = office.counts()
                .of(
                        List.of("today lapses", lapses.today),
                        () -> office.records().ahead().countLapses(lapses.span));
        lapses.table(writer, frame.say("today.lapses"), rows, keys);
        if (all > shown) {
            writer.links(new Sheet.Link(frame.say("today.lapses-all", all), "/expiring"));
        }
        return writer.sheet();
    }

    /** All of them, page by page. */
    public static Sheet page(Office office, Frame frame, int from) {
        Lapses lapses = new Lapses(office, frame);
        Sheet.Writer writer = new Sheet.Writer(frame.say("today.lapses"))
                .say("", List.of(frame.say("today.lapses-why", AHEAD, BACK, LOTS_BACK)));
        lapses.table(writer, "", lapses.rows(from, Shown.ROWS), from == 0 ? lapses.keys() : List.of());
        AheadBook ahead = office.records().ahead();
        Shown.pages(writer, frame, "/expiring?", from, ahead.countLapses(lapses.span));
        return writer.sheet();
    }

    private void table(Sheet.Writer writer, String heading, List<List<Cell>> rows, List<List<Cell>> keys) {
        List<List<Cell>> all = new ArrayList<>(rows);
        all.addAll(keys);
        writer.table(
                heading,
                frame.say("today.lapses-none"),
                List.of(
                        frame.say("today.lapse-what"),
                        frame.say("today.lapse-whose"),
                        frame.say("today.lapse-day"),
                        frame.say("today.lapse-stands")),
                all);
    }

    /** A line for each thing of these subjects that ends within the span. */
    private List<List<Cell>> rows(int from, int shown) {
        record Line(Subject subject, Lapse lapse) {}
        List<SubjectId> ids = office.records().ahead().lapses(span, from, shown).stream()
                .map(AheadLapse::subject)
                .toList();
        Map<SubjectId, Subject> subjects = new HashMap<>();
        office.records().subjects(ids).forEach(one -> subjects.put(one.id(), one));
        List<Line> lines = new ArrayList<>();
        for (SubjectId id : ids) {
            Optional.ofNullable(subjects.get(id))
                    .ifPresent(subject -> Lapse.of(subject).stream()
                            .filter(this::isShown)
                            .forEach(lapse -> lines.add(new Line(subject, lapse))));
        }
        return lines.stream()
                .sorted(Comparator.comparing(line -> line.lapse().day().orElse(AheadLapse.NOT_STATED)))
                .map(line -> row(line.subject(), line.lapse()))
                .toList();
    }

    private boolean isShown(Lapse lapse) {
        LocalDate since = lapse.of() == Lapse.Of.LOT ? span.lotsSince() : span.since();
        return lapse.day()
                .map(day -> !day.isBefore(since) && !day.isAfter(span.until()))
                .orElse(true);
    }

    private List<Cell> row(Subject subject, Lapse lapse) {
        return List.of(
                Cell.of(frame.hear(lapse.what())),
                Cell.link(lapse.name(), path(subject, lapse)),
                Cell.day(Shown.day(frame, lapse.day())),
                Cell.of(stands(lapse.day())));
    }

    /** An instrument has a page with its certificates; a tester, a lot and a person have their entry. */
    private static String path(Subject subject, Lapse lapse) {
        return lapse.of() == Lapse.Of.CALIBRATION
                ? "/register/instruments/" + subject.id()
                : "/register/entries/" + subject.id();
    }

    private String stands(Optional<LocalDate> last) {
        if (last.isEmpty()) {
            return frame.say("today.lapse-not-stated");
        }
        long days = ChronoUnit.DAYS.between(today, last.get());
        if (days == 0) {
            return frame.say("today.lapse-today");
        }
        if (days < 0) {
            return days == -1 ? frame.say("today.lapse-over-one") : frame.say("today.lapse-over", -days);
        }
        return days == 1 ? frame.say("today.lapse-ahead-one") : frame.say("today.lapse-ahead", days);
    }

    /** Keys of users who are shut off: they end by nobody's calendar, so the office has to. */
    private List<List<Cell>> keys() {
        if (!office.rules().isWithUsers() || !frame.may(Role.OFFICE)) {
            return List.of();
        }
        List<String> names = office.counts().of("keys of users who are shut off", this::shutOffWithKey);
        return names.stream()
                .map(name -> List.of(
                        Cell.of(frame.say("today.lapse-key")),
                        Cell.link(name, "/users/keys?q=" + Shown.part(name)),
                        Cell.day("–"),
                        Cell.of(frame.say("accounts.key-of-shut-off"))))
                .toList();
    }

    private List<String> shutOffWithKey() {
        SigningKeys keys = new SigningKeys(office.records());
        return new AccountBook(office.records())
                .all().stream()
                        .filter(account -> !account.isActive())
                        .map(Account::name)
                        .filter(keys::hasKey)
                        .toList();
    }
}
