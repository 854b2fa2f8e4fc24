package org.steamwright.desk.office;

import java.io.IOException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.KeptResults;
import org.steamwright.filing.fleet.FamilyBand;
import org.steamwright.filing.fleet.FigureReading;
import org.steamwright.filing.fleet.Trend;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.ResultBook;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.VisitResult;
import org.steamwright.records.VisitResult.Figure;
import org.steamwright.records.VisitResult.Line;
import org.steamwright.records.VisitResult.LineStanding;
import org.steamwright.records.VisitResult.Month;

/** Figures of the fleet over the visits, with the family's band and the day on which a limit is met; and the measures. */
final class FleetPages {

    /** Visits that are assessed before a page is shown; more are left to the work in the background. */
    private static final int AT_ONCE = 24;

    /** Visits that are named for not being assessed; how many there are is always told. */
    private static final int UNASSESSED_SHOWN = 20;

    private static final double MINUTES_PER_DAY = 1_440;

    private final Office office;
    private final RegisterShelf shelf;
    private final ResultBook book;

    FleetPages(Office office, RegisterShelf shelf) {
        this.office = office;
        this.shelf = shelf;
        this.book = office.results().book();
    }

    private Optional<FamilyBand> band(LineStanding standing) {
        if (standing.family().isBlank()) {
            // what machines of unknown models have in common says nothing
            return Optional.empty();
        }
        Line line = standing.line();
        return office.counts()
                .of(List.of("band", line.figure(), standing.family(), line.cycle()), () -> readBand(standing));
    }

    private Optional<FamilyBand> readBand(LineStanding standing) {
        Line line = standing.line();
        int machines = book.countFamily(line.figure(), standing.family(), line.cycle());
        return FamilyBand.of(
                machines,
                place -> book.lastOfFamily(line.figure(), standing.family(), line.cycle(), place)
                        .orElse(standing.last()));
    }

    /** The bands of some lines; those of one family and cycle have the same one, which is read once. */
    private Map<LineStanding, Optional<FamilyBand>> bands(List<LineStanding> lines) {
        Map<List<String>, Optional<FamilyBand>> known = new HashMap<>();
        Map<LineStanding, Optional<FamilyBand>> bands = new HashMap<>();
        for (LineStanding one : lines) {
            List<String> key =
                    List.of(one.line().figure(), one.family(), one.line().cycle());
            bands.put(one, known.computeIfAbsent(key, unread -> band(one)));
        }
        return bands;
    }

    /** Tells how many visits are not in the lists as they stand yet. */
    private static void tellWaiting(Sheet.Writer writer, long waiting, Frame frame) {
        if (waiting > 0) {
            writer.say("", List.of(frame.say("office.results-wait", waiting)));
        }
    }

    /** Names visits that are in no figure because they could not be assessed, and why. */
    private void tellUnassessed(Sheet.Writer writer, Frame frame) {
        List<VisitResult> unassessed = book.unassessed(UNASSESSED_SHOWN);
        if (unassessed.isEmpty()) {
            return;
        }
        List<List<Cell>> rows = new ArrayList<>();
        for (VisitResult one : unassessed) {
            Subject visit = office.records().subject(one.visit());
            rows.add(List.of(
                    Cell.link(visit.text("number"), "/visits/" + visit.id()),
                    Cell.of(Shown.day(frame, visit.text("date"))),
                    Cell.verdict(frame, "not assessed"),
                    Shown.reason(frame, one.why())));
        }
        long all = book.countUnassessed();
        writer.say(frame.say("office.unassessed"), List.of(frame.say("office.unassessed-why", all)))
                .table(
                        "",
                        "",
                        List.of(
                                frame.say("office.visit"),
                                frame.say("office.day"),
                                frame.say("office.standing"),
                                frame.say("office.reason")),
                        rows);
    }

    private long countLines(CriterionId figure) {
        return office.counts().of(List.of("lines", figure), () -> book.countLines(figure.word()));
    }

    private static Optional<CriterionId> figure(Ask ask) {
        return CriterionId.find(ask.typed("figure"));
    }

    Reply trends(Ask ask) throws IOException {
        Frame frame = ask.frame();
        CriterionId figure = figure(ask).orElse(CriterionId.LEAK_RATE);
        int from = Shown.from(ask);
        long waiting = office.results().catchUp(AT_ONCE);
        List<String> figures = book.figures();
        List<CriterionId> known = Arrays.stream(CriterionId.values())
                .filter(one -> figures.contains(one.word()))
                .toList();
        List<LineStanding> lines = book.lines(figure.word(), from, Shown.ROWS);
        Map<Line, List<Figure>> values =
                book.figures(lines.stream().map(LineStanding::line).toList());
        Map<LineStanding, Optional<FamilyBand>> bands = bands(lines);
        Map<String, String> names = names(lines);
        List<List<Cell>> rows = new ArrayList<>();
        for (LineStanding one : lines) {
            rows.add(row(
                    one,
                    names.getOrDefault(one.line().machine(), ""),
                    KeptResults.trend(values.getOrDefault(one.line(), List.of())),
                    bands.getOrDefault(one, Optional.empty()),
                    frame));
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.trends"))
                .say("", List.of(frame.say("office.trends-why")))
                .table(
                        frame.heard(figure.title()),
                        frame.say("office.trends-none"),
                        List.of(
                                frame.say("office.serial"),
                                frame.say("office.maker-and-model"),
                                frame.say("office.cycle"),
                                frame.say("office.visits"),
                                frame.say("office.last-figure"),
                                frame.say("office.limit"),
                                frame.say("office.per-year"),
                                frame.say("office.family"),
                                frame.say("office.forecast")),
                        rows);
        Shown.pages(writer, frame, "/trends?figure=" + figure.word() + "&", from, countLines(figure));
        tellUnassessed(writer, frame);
        tellWaiting(writer, waiting, frame);
        return Reply.page(
                "office/trends.jte", Map.of("sheet", writer.sheet(), "figures", known, "figure", figure.word()));
    }

    /** Maker and model of the machines of lines; of one that the record does not know, as the visit names it. */
    private Map<String, String> names(List<LineStanding> lines) {
        Map<String, String> names = new HashMap<>();
        List<SubjectId> known = new ArrayList<>();
        for (LineStanding one : lines) {
            String machine = one.line().machine();
            KeptResults.machine(machine)
                    .ifPresentOrElse(known::add, () -> names.put(machine, KeptResults.words(machine)));
        }
        office.records()
                .subjects(known.stream().distinct().toList())
                .forEach(one -> names.put(one.id().toString(), (one.text("maker") + " " + one.text("model")).strip()));
        return names;
    }

    private static String path(String machine) {
        return "/trends/one?machine=" + Shown.part(machine);
    }

    private static List<Cell> row(
            LineStanding standing, String name, Trend trend, Optional<FamilyBand> band, Frame frame) {
        FigureReading last = trend.last();
        Line line = standing.line();
        return List.of(
                Cell.link(
                        standing.serial(),
                        path(line.machine()) + "&figure=" + last.figure().word()),
                Shown.text(name),
                Shown.text(line.cycle()),
                Cell.figure(Integer.toString(trend.readings().size())),
                Cell.figure(shown(last, last.value(), frame)),
                Cell.figure(frame.figures().of(last.limit().toString())),
                Cell.figure(perYear(trend, frame)),
                Cell.of(band.map(one -> frame.say(
                                one.holds(last.value()) ? "office.in-band" : "office.out-of-band",
                                shown(last, one.low(), frame),
                                shown(last, one.high(), frame),
                                one.machines()))
                        .orElse("–")),
                Cell.of(course(trend, frame)));
    }

    private static String shown(FigureReading reading, double value, Frame frame) {
        return frame.figures()
                .of(Figures.shown(value, reading.limit().unit(), reading.limit().comparison()));
    }

    private static String perYear(Trend trend, Frame frame) {
        // two visits some weeks apart make a steep line that says nothing
        if (Double.isNaN(trend.perYear()) || trend.course() instanceof Trend.Course.NotKnown) {
            return "–";
        }
        Unit unit = trend.last().limit().unit();
        String figure = RegisterPages.plain(trend.perYear(), unit.shownDecimals() + 1);
        return frame.figures().of(figure.replace('-', '−')) + " " + unit.symbol();
    }

    private static String course(Trend trend, Frame frame) {
        if (trend.course() instanceof Trend.Course.NotKnown unknown) {
            return frame.say("office.trend-not-known", frame.heard(unknown.why()));
        }
        if (trend.course() instanceof Trend.Course.Over) {
            return frame.say("office.trend-over");
        }
        if (trend.course() instanceof Trend.Course.Nearing nearing) {
            return frame.say(
                    "office.trend-nearing", Shown.day(frame, nearing.meets()), Shown.day(frame, nearing.earliest()));
        }
        return frame.say("office.trend-away");
    }

    /** All figures of one machine, each as a drawing with its limit, the family's band and the forecast. */
    Reply one(Ask ask) throws IOException {
        Frame frame = ask.frame();
        long waiting = office.results().catchUp(AT_ONCE);
        String machine = ask.typed("machine");
        if (machine.isBlank()) {
            // an address that somebody kept names the serial number
            List<String> machines = book.machinesOf(ask.typed("serial"));
            if (machines.size() > 1) {
                return choice(ask.typed("serial"), machines, frame);
            }
            machine = machines.isEmpty() ? "" : machines.get(0);
        }
        Optional<CriterionId> wanted = figure(ask);
        List<LineStanding> lines = book.linesOf(machine);
        String name = named(machine, lines.stream().findFirst().map(LineStanding::serial));
        Sheet.Writer writer =
                new Sheet.Writer(frame.say("office.trends-of", name.isBlank() ? ask.typed("serial") : name));
        boolean isAny = false;
        Map<Line, List<Figure>> figures =
                book.figures(lines.stream().map(LineStanding::line).toList());
        for (CriterionId figure : CriterionId.values()) {
            for (LineStanding line : lines) {
                if (line.line().figure().equals(figure.word()) && wanted.orElse(figure) == figure) {
                    isAny = true;
                    draw(
                            writer,
                            line.line(),
                            KeptResults.trend(figures.getOrDefault(line.line(), List.of())),
                            band(line),
                            frame);
                }
            }
        }
        if (!isAny) {
            writer.say("", List.of(frame.say("office.trends-none")));
        }
        tellUnassessed(writer, frame);
        tellWaiting(writer, waiting, frame);
        return writer.links(new Sheet.Link(frame.say("office.trends"), "/trends"))
                .reply();
    }

    /** Maker, model and serial number of a machine. */
    private String named(String machine, Optional<String> serial) {
        return KeptResults.machine(machine)
                .flatMap(office.records()::find)
                .map(one -> Stream.of(one.text("maker"), one.text("model"), one.text("serial"))
                        .filter(word -> !word.isBlank())
                        .collect(Collectors.joining(" ")))
                .or(() -> Optional.of(KeptResults.words(machine)).filter(word -> !word.isBlank()))
                .or(() -> serial)
                .orElse("");
    }

    /** Two makers may have given the same number: which machine is meant, only whoever asks can tell. */
    private Reply choice(String serial, List<String> machines, Frame frame) {
        return new Sheet.Writer(frame.say("office.trends-of", serial))
                .say("", List.of(frame.say("office.trends-several", serial)))
                .links(machines.stream()
                        .map(one -> new Sheet.Link(named(one, Optional.of(serial)), path(one)))
                        .toArray(Sheet.Link[]::new))
                .reply();
    }

    private static void draw(Sheet.Writer writer, Line line, Trend trend, Optional<FamilyBand> band, Frame frame) {
        FigureReading last = trend.last();
        Optional<LocalDate> meets = trend.course() instanceof Trend.Course.Nearing nearing
                ? nearing.meets().filter(day -> ChronoUnit.DAYS.between(last.day(), day) < 1_500)
                : Optional.empty();
        String course = course(trend, frame);
        String heading = frame.heard(last.figure().title()) + (line.cycle().isBlank() ? "" : ", " + line.cycle());
        writer.draw(
                heading,
                new LinePlot(
                                heading + ": " + course,
                                trend.readings().stream()
                                        .map(one -> new LinePlot.Dot(one.day(), one.value(), 0))
                                        .toList(),
                                List.of(new LinePlot.Level(
                                        last.limit().value(),
                                        frame.figures().of(last.limit().toString()))),
                                band.map(one -> new LinePlot.Strip(one.low(), one.high())),
                                meets.map(day ->
                                        new LinePlot.Dot(day, last.limit().value(), 0)),
                                new LinePlot.Writing(frame.figures()::of, frame.figures()::day))
                        .svg(),
                band.isPresent()
                        ? List.of(sentence(course), frame.say("office.trend-strip"))
                        : List.of(sentence(course)));
        writer.table(
                "",
                "",
                List.of(frame.say("office.day"), frame.say("office.figure"), frame.say("office.limit")),
                trend.readings().stream()
                        .map(one -> List.of(
                                Cell.of(frame.figures().day(one.day())),
                                Cell.figure(shown(one, one.value(), frame)),
                                Cell.figure(frame.figures().of(one.limit().toString()))))
                        .toList());
    }

    /** What stands in a cell of a list, standing alone. */
    static String sentence(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    /** How the office does over a year, each measure with how it is counted. */
    Reply measures(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        LocalDate until = LocalDate.now(office.clock());
        LocalDate from = until.minusYears(1).plusDays(1);
        long waiting = office.results().catchUp(AT_ONCE);
        List<Month> year = office.counts().of(List.of("months", from), () -> book.months(from, until));
        long visits = year.stream().mapToLong(Month::visits).sum();
        long asFound = year.stream().mapToLong(Month::asFound).sum();
        long failed = year.stream().mapToLong(Month::asFoundFailed).sum();
        long assessed = year.stream().mapToLong(Month::assessed).sum();
        long passed = year.stream().mapToLong(Month::passed).sum();
        List<Long> minutes = office.counts().of(List.of("turn-around", from), () -> book.turnArounds(from, until));
        long overdue = shelf.countLate();
        List<List<Cell>> rows = new ArrayList<>();
        measure(rows, frame, "visits", Long.toString(visits));
        measure(rows, frame, "as-found", share(failed, asFound, frame));
        measure(rows, frame, "first-pass", share(passed, assessed, frame));
        measure(
                rows,
                frame,
                "turn-around",
                minutes.isEmpty()
                        ? frame.say("office.nothing-signed")
                        : frame.say(
                                "office.days-of",
                                frame.figures()
                                        .of(RegisterPages.plain(
                                                minutes.get((minutes.size() - 1) / 2) / MINUTES_PER_DAY, 1)),
                                minutes.size(),
                                visits));
        measure(rows, frame, "overdue", Long.toString(overdue));
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.measures"))
                .say(
                        "",
                        List.of(frame.say(
                                "office.measures-why",
                                frame.figures().day(from),
                                frame.figures().day(until))))
                .table(
                        "",
                        "",
                        List.of(frame.say("office.measure"), frame.say("office.figure"), frame.say("office.counted")),
                        rows)
                .table(
                        frame.say("office.by-month"),
                        frame.say("office.visits-none"),
                        List.of(
                                frame.say("office.month"),
                                frame.say("office.visits"),
                                frame.say("office.measure-as-found")),
                        months(year, frame));
        long late = book.countDatedAfterSignature(from, until);
        if (late > 0) {
            writer.say("", List.of(frame.say("office.dated-after-signature", late)));
        }
        tellUnassessed(writer, frame);
        tellWaiting(writer, waiting, frame);
        return writer.reply();
    }

    private static List<List<Cell>> months(List<Month> year, Frame frame) {
        return year.stream()
                .map(month -> List.of(
                        Cell.day(frame.figures().month(YearMonth.parse(month.month()))),
                        Cell.figure(Long.toString(month.visits())),
                        Cell.figure(share(month.asFoundFailed(), month.asFound(), frame))))
                .toList();
    }

    private static void measure(List<List<Cell>> rows, Frame frame, String word, String figure) {
        rows.add(List.of(
                Cell.of(frame.say("office.measure-" + word)),
                Cell.figure(figure),
                Cell.of(frame.say("office.counted-" + word))));
    }

    private static String share(long some, long all, Frame frame) {
        return all == 0 ? frame.say("office.none-yet") : frame.say("office.share", some, all);
    }
}
