package org.steamwright.desk.office;

import java.io.IOException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.TreeSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Subject;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.fleet.FamilyBand;
import org.steamwright.visit.fleet.FigureReading;
import org.steamwright.visit.fleet.Trend;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Register;

/** Figures of the fleet over the visits, with the family's band and the day on which a limit is met; and the measures. */
final class FleetPages {

    private final Office office;
    private final RegisterShelf shelf;
    private final FleetShelf fleet;

    FleetPages(Office office, RegisterShelf shelf, FleetShelf fleet) {
        this.office = office;
        this.shelf = shelf;
        this.fleet = fleet;
    }

    private record Line(String serial, String cycle) {}

    private static Map<Line, Trend> trends(List<FleetShelf.Excerpt> visits, CriterionId figure) {
        Map<Line, List<FigureReading>> readings = new LinkedHashMap<>();
        for (FleetShelf.Excerpt visit : visits) {
            for (FigureReading reading : visit.readings()) {
                if (reading.figure() == figure) {
                    readings.computeIfAbsent(new Line(reading.serial(), reading.cycle()), line -> new ArrayList<>())
                            .add(reading);
                }
            }
        }
        Map<Line, Trend> trends = new LinkedHashMap<>();
        readings.forEach((line, all) -> trends.put(line, Trend.of(all)));
        return trends;
    }

    /** Family of each steriliser: by the register, else by the model that its visits name. */
    private Map<String, String> families(List<FleetShelf.Excerpt> visits)
            throws IOException, FilingException, RegisterException {
        Map<String, String> families = new HashMap<>();
        visits.forEach(visit -> families.putAll(visit.families()));
        Register register = shelf.now().register();
        register.sterilizers()
                .forEach(machine -> families.put(
                        machine.identity().serial(), machine.identity().familyOrModel()));
        return families;
    }

    private static Optional<FamilyBand> band(Map<Line, Trend> trends, Map<String, String> families, Line line) {
        String family = families.getOrDefault(line.serial, "");
        List<Double> last = new ArrayList<>();
        trends.forEach((other, trend) -> {
            if (family.equals(families.getOrDefault(other.serial, "")) && other.cycle.equals(line.cycle)) {
                last.add(trend.last().value());
            }
        });
        return FamilyBand.of(last);
    }

    private static Optional<CriterionId> figure(Ask ask) {
        return CriterionId.find(ask.typed("figure"));
    }

    Reply trends(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        CriterionId figure = figure(ask).orElse(CriterionId.LEAK_RATE);
        List<FleetShelf.Excerpt> visits = fleet.all();
        TreeSet<CriterionId> known = new TreeSet<>();
        visits.forEach(visit -> visit.readings().forEach(reading -> known.add(reading.figure())));
        Map<String, String> families = families(visits);
        Map<Line, Trend> trends = trends(visits, figure);
        List<List<Cell>> rows = new ArrayList<>();
        trends.entrySet().stream()
                .sorted(Comparator.comparing((Map.Entry<Line, Trend> one) -> pressing(one.getValue()))
                        .thenComparing(one -> one.getKey().serial))
                .limit(Shown.ROWS)
                .forEach(one ->
                        rows.add(row(one.getKey(), one.getValue(), band(trends, families, one.getKey()), frame)));
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.trends"))
                .say("", List.of(frame.say("office.trends-why")))
                .table(
                        figure.title(),
                        frame.say("office.trends-none"),
                        List.of(
                                frame.say("office.serial"),
                                frame.say("office.cycle"),
                                frame.say("office.visits"),
                                frame.say("office.last-figure"),
                                frame.say("office.limit"),
                                frame.say("office.per-year"),
                                frame.say("office.family"),
                                frame.say("office.forecast")),
                        rows);
        return Reply.page(
                "office/trends.jte",
                Map.of("sheet", writer.sheet(), "figures", List.copyOf(known), "figure", figure.word()));
    }

    /** The most pressing first: over, then by the day of the forecast. */
    private static String pressing(Trend trend) {
        if (trend.course() instanceof Trend.Course.Over) {
            return "0";
        }
        if (trend.course() instanceof Trend.Course.Nearing nearing) {
            return "1"
                    + nearing.meets()
                            .or(nearing::earliest)
                            .map(LocalDate::toString)
                            .orElse("");
        }
        return "2";
    }

    private static List<Cell> row(Line line, Trend trend, Optional<FamilyBand> band, Frame frame) {
        FigureReading last = trend.last();
        return List.of(
                Cell.link(
                        line.serial,
                        "/trends/one?serial=" + Shown.part(line.serial) + "&figure="
                                + last.figure().word()),
                Shown.text(line.cycle),
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
        return Double.isNaN(trend.perYear())
                ? "–"
                : frame.figures()
                        .of(RegisterPages.plain(
                                trend.perYear(), trend.last().limit().unit().shownDecimals() + 1));
    }

    private static String course(Trend trend, Frame frame) {
        if (trend.course() instanceof Trend.Course.NotKnown unknown) {
            return frame.say("office.trend-not-known", unknown.why());
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

    /** All figures of one steriliser, each as a drawing with its limit, the family's band and the forecast. */
    Reply one(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        String serial = ask.typed("serial");
        Optional<CriterionId> wanted = figure(ask);
        List<FleetShelf.Excerpt> visits = fleet.all();
        Map<String, String> families = families(visits);
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.trends-of", serial));
        boolean isAny = false;
        for (CriterionId figure : CriterionId.values()) {
            if (wanted.isPresent() && wanted.get() != figure) {
                continue;
            }
            Map<Line, Trend> trends = trends(visits, figure);
            for (Map.Entry<Line, Trend> one : trends.entrySet()) {
                if (one.getKey().serial.equals(serial)) {
                    isAny = true;
                    draw(writer, one.getKey(), one.getValue(), band(trends, families, one.getKey()), frame);
                }
            }
        }
        if (!isAny) {
            writer.say("", List.of(frame.say("office.trends-none")));
        }
        return writer.links(new Sheet.Link(frame.say("office.trends"), "/trends"))
                .reply();
    }

    private static void draw(Sheet.Writer writer, Line line, Trend trend, Optional<FamilyBand> band, Frame frame) {
        FigureReading last = trend.last();
        Optional<LocalDate> meets = trend.course() instanceof Trend.Course.Nearing nearing
                ? nearing.meets().filter(day -> ChronoUnit.DAYS.between(last.day(), day) < 1_500)
                : Optional.empty();
        String course = course(trend, frame);
        String heading = last.figure().title() + (line.cycle.isBlank() ? "" : ", " + line.cycle);
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
                                        new LinePlot.Dot(day, last.limit().value(), 0)))
                        .svg(),
                List.of(course));
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

    /** How the office does over a year, each measure with how it is counted. */
    Reply measures(Ask ask) throws IOException, FilingException, RegisterException {
        Frame frame = ask.frame();
        LocalDate until = LocalDate.now(office.clock());
        LocalDate from = until.minusYears(1).plusDays(1);
        List<FleetShelf.Excerpt> year = fleet.all().stream()
                .filter(one -> !one.visit().text("date").isBlank())
                .filter(one -> {
                    LocalDate day = LocalDate.parse(one.visit().text("date"));
                    return !day.isBefore(from) && !day.isAfter(until);
                })
                .toList();
        long asFound = year.stream().filter(FleetShelf.Excerpt::hasAsFound).count();
        long failed =
                year.stream().filter(FleetShelf.Excerpt::hasAsFoundFailure).count();
        long assessed = year.stream().filter(one -> one.standing().isPresent()).count();
        long passed = year.stream()
                .filter(one -> one.standing().equals(Optional.of(Qualification.Standing.PASS)))
                .filter(one -> one.visit().fact("amends").isEmpty())
                .count();
        List<Double> days = new ArrayList<>();
        for (FleetShelf.Excerpt one : year) {
            turnAround(one.visit()).ifPresent(days::add);
        }
        long overdue = shelf.now().due().stream()
                .filter(due -> due.urgency() == Due.Urgency.OVERDUE || due.urgency() == Due.Urgency.NO_EVIDENCE)
                .count();
        List<List<Cell>> rows = new ArrayList<>();
        measure(rows, frame, "visits", Integer.toString(year.size()));
        measure(rows, frame, "as-found", share(failed, asFound, frame));
        measure(rows, frame, "first-pass", share(passed, assessed, frame));
        OptionalDouble median = median(days);
        measure(
                rows,
                frame,
                "turn-around",
                median.isPresent()
                        ? frame.say(
                                "office.days-of",
                                frame.figures().of(RegisterPages.plain(median.getAsDouble(), 1)),
                                days.size(),
                                year.size())
                        : frame.say("office.nothing-signed"));
        measure(rows, frame, "overdue", Long.toString(overdue));
        return new Sheet.Writer(frame.say("office.measures"))
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
                        months(year, frame))
                .reply();
    }

    private static List<List<Cell>> months(List<FleetShelf.Excerpt> year, Frame frame) {
        Map<String, List<FleetShelf.Excerpt>> months = new TreeMap<>();
        year.forEach(one -> months.computeIfAbsent(one.visit().text("date").substring(0, 7), month -> new ArrayList<>())
                .add(one));
        List<List<Cell>> rows = new ArrayList<>();
        months.forEach((month, visits) -> rows.add(List.of(
                Cell.of(month),
                Cell.figure(Integer.toString(visits.size())),
                Cell.figure(share(
                        visits.stream()
                                .filter(FleetShelf.Excerpt::hasAsFoundFailure)
                                .count(),
                        visits.stream().filter(FleetShelf.Excerpt::hasAsFound).count(),
                        frame)))));
        return rows;
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

    private Optional<Double> turnAround(Subject visit) {
        List<Issue> issues = new Issues(office.records()).of(visit.id());
        if (issues.isEmpty()) {
            return Optional.empty();
        }
        LocalDate day = LocalDate.parse(visit.text("date"));
        return Optional.of(Duration.between(
                                day.atStartOfDay(office.clock().getZone()).toInstant(),
                                issues.get(0).at())
                        .toHours()
                / 24.0);
    }

    private static OptionalDouble median(List<Double> values) {
        List<Double> sorted = values.stream().sorted().toList();
        return sorted.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(sorted.get((sorted.size() - 1) / 2));
    }
}
