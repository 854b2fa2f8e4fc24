package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.figures;
import static org.steamwright.report.document.Sheet.Column.words;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.quantity.LeakRate;
import org.steamwright.report.language.Sentence;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.CycleBook;
import org.steamwright.visit.LeakTrio;
import org.steamwright.visit.LoadComparison;
import org.steamwright.visit.LoadFrame;
import org.steamwright.visit.Obstacles;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.Visit;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.indication.IndicationCheck;
import org.steamwright.visit.indication.PenetrationStanding;
import org.steamwright.visit.job.ChangesSince;
import org.steamwright.visit.job.PenetrationTest;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.register.Sterilizer;

/** The job sheet: changes since last time, tasks, leak tests together, cycle numbers, penetration, indication, loads. */
final class JobSection {

    private static final double WIDTH = 174.4;
    private static final int SHA_SHOWN = 16;

    private final Sheet sheet;
    private final AssessedVisit assessed;
    private final Visit visit;

    JobSection(Sheet sheet, AssessedVisit assessed) {
        this.sheet = sheet;
        this.assessed = assessed;
        this.visit = assessed.visit();
    }

    /** Writes what there is; nothing where nothing was stated. */
    void write() {
        visit.sterilizers().forEach(this::changes);
        visit.job().tasks().forEach(tasks -> sheet.keep(() -> tasks(tasks)));
        LeakTrio.of(assessed).stream()
                .filter(trio -> trio.with().isPresent() || trio.after().isPresent())
                .forEach(trio -> sheet.keep(() -> trio(trio)));
        if (!visit.job().penetration().isEmpty()) {
            sheet.keep(this::penetration);
        }
        if (!visit.job().indications().isEmpty()) {
            sheet.keep(this::indications);
        }
        visit.job().loads().forEach(frame -> sheet.keep(() -> loads(frame)));
        visit.sterilizers().forEach(this::ledger);
    }

    private void changes(Sterilizer sterilizer) {
        Optional<ChangesSince> found = visit.job().findChanges(sterilizer.key());
        if (found.isEmpty()) {
            return;
        }
        ChangesSince changes = found.get();
        sheet.keep(() -> {
            sheet.heading(titled("Since last time", sterilizer));
            Sheet.Facts facts = sheet.facts();
            facts.add("Moved", answer(changes.moved()));
            facts.add("Added beside it", answer(changes.added()));
            facts.add("Changed", answer(changes.changed()));
            facts.add("What and when", changes.note());
            facts.end();
        });
    }

    private static String answer(Optional<Boolean> answer) {
        return answer.map(yes -> yes ? "yes" : "no").orElse("nobody was asked");
    }

    private void tasks(TaskRecord tasks) {
        sheet.heading(titled(tasks.list().part().title(), visit.getSterilizer(tasks.sterilizer())));
        sheet.aside(Sentence.of(
                "Task list %s, version %s, for %s, %s. Provenance: %s. SHA-256 %s…",
                tasks.list().name(),
                tasks.list().version(),
                tasks.list().family(),
                tasks.list().interval(),
                tasks.list().provenance().strip(),
                tasks.list().sha256().substring(0, SHA_SHOWN)));
        sheet.table(words("Task", 68), words("Outcome", 24), words("Found, part, readings", 50), words("Limit", 32.4));
        for (TaskRecord.Line line : tasks.lines()) {
            Html html = sheet.html();
            html.open("tr");
            html.open("td").text(line.task().title());
            if (!line.task().caution().isBlank()) {
                html.element(
                        "span", "under", Sentence.of("Caution: %s", line.task().caution()));
            }
            html.close();
            html.open("td");
            if (line.standing() == TaskRecord.Standing.BAD) {
                sheet.verdict(Outcome.FAIL);
            }
            html.text(line.entry().map(entry -> entry.outcome().words()).orElse("not answered"));
            html.close();
            html.element(
                    "td",
                    "",
                    line.entry()
                            .map(entry -> entry(line.task(), entry, tasks.list().part()))
                            .orElse("–"));
            html.element(
                    "td", "last", line.task().limit().map(JobSection::limit).orElse("–"));
            html.close();
        }
        sheet.endTable();
    }

    /** Of a check its verdict, of maintenance the state in which something was found. */
    private static String condition(TaskEntry entry, TaskList.Part part) {
        if (part == TaskList.Part.MAINTENANCE) {
            return entry.condition().words();
        }
        return switch (entry.condition()) {
            case GOOD -> "good";
            case WORN -> "good, with advice";
            case FAILED -> "not good";
            case NOT_STATED -> "";
        };
    }

    private static String entry(Task task, TaskEntry entry, TaskList.Part list) {
        String unit = task.limit().map(Task.TaskLimit::unit).orElse("");
        String part = entry.part()
                .map(one -> Wording.join(
                        " ",
                        one.quantity() + " ×",
                        one.number(),
                        one.lot().isBlank() ? "" : Sentence.of("lot %s", one.lot())))
                .orElse("");
        String text = Wording.join(
                "; ",
                entry.why(),
                condition(entry, list),
                part,
                entry.reading()
                        .map(reading -> Wording.plain(reading) + " " + unit)
                        .orElse(""),
                entry.before().isBlank() ? "" : Sentence.of("before %s", entry.before()),
                entry.after().isBlank() ? "" : Sentence.of("after %s", entry.after()),
                entry.instrument().isBlank() ? "" : Sentence.of("instrument %s", entry.instrument()));
        return text.isBlank() ? "–" : text;
    }

    private static String limit(Task.TaskLimit limit) {
        return Sentence.of(
                "%s – %s",
                limit.comparison().sign() + " " + Wording.plain(limit.value()) + " " + limit.unit(), limit.source());
    }

    private void trio(LeakTrio trio) {
        sheet.heading(titled("Leak tests together", visit.getSterilizer(trio.sterilizer())));
        sheet.table(
                words("Stage", 50),
                figures("Run", 18),
                figures("Tests", 18),
                figures("Rate", 48),
                words("Result", 40.4));
        stage("without sensors", trio.without());
        stage("with sensors", trio.with());
        stage("after they were taken out", trio.after());
        sheet.endTable();
        sheet.paragraph(Sentence.of("Pattern: %s. %s", trio.pattern().words(), trio.sentence()));
        trio.sensorShareKilopascalPerMinute()
                .ifPresent(share -> sheet.aside(Sentence.of(
                        "With the sensors the pressure rose by %s kPa/min more than without them.",
                        VisitSections.signed(share, 3))));
    }

    private void stage(String name, Optional<LeakTrio.Stage> stage) {
        sheet.cells(
                name,
                stage.map(one -> String.valueOf(one.run())).orElse("–"),
                stage.map(one -> String.valueOf(one.tests())).orElse("0"),
                stage.flatMap(LeakTrio.Stage::rate).map(JobSection::rate).orElse("–"),
                stage.map(LeakTrio.Stage::word).orElse("not made"));
    }

    private static String rate(LeakRate rate) {
        return Figures.highSide(rate.kilopascalPerMinute(), 3) + " kPa/min";
    }

    private void penetration() {
        sheet.heading("Steam penetration tests");
        sheet.table(
                words("Cycle", 36),
                words("Device", 52),
                words("Lot, last day", 36),
                words("Result", 22),
                words("Read by", 28.4));
        for (PenetrationTest test : visit.job().penetration()) {
            sheet.cells(
                    Wording.join(
                            ", ",
                            test.cycle(),
                            test.machineCycle().isPresent()
                                    ? Sentence.of(
                                            "cycle %s", test.machineCycle().getAsInt())
                                    : "",
                            test.isAsFound() ? "as found" : ""),
                    Wording.join("; ", test.kind().words(), test.device(), test.note()),
                    Wording.join(
                            ", ",
                            Wording.orNotStated(test.lot()),
                            test.expires().map(Wording::day).orElse(""),
                            visit.date().filter(test::isExpired).isPresent() ? "out of date" : ""),
                    test.result().words(),
                    Wording.orNotStated(test.readBy()));
        }
        sheet.endTable();
        for (PenetrationStanding standing : Obstacles.penetration(visit)) {
            sheet.paragraph(Sentence.of(
                    "%s, %s device: %s. %s",
                    standing.cycle(),
                    standing.kind().words(),
                    standing.standing().words(),
                    standing.sentence()));
        }
    }

    private void indications() {
        sheet.heading("The steriliser's own indication");
        sheet.table(
                words("Read", 44),
                figures("Shown", 24),
                figures("Reference", 24),
                figures("Difference, doubt", 32),
                figures("Tolerance", 26),
                words("Result", 24.4));
        for (IndicationCheck check : Obstacles.indications(visit, assessed.runs())) {
            String unit = check.reading().quantity().unit();
            Html html = sheet.html();
            html.open("tr");
            html.open("td")
                    .text(Sentence.of(
                            "run %s at %s, %s",
                            check.reading().run(),
                            Figures.moment(check.reading().atSeconds()),
                            check.reading().shownBy()));
            html.element(
                            "span",
                            "under",
                            Sentence.of(
                                    check.reading().isAsFound() ? "as found; tolerance: %s" : "as left; tolerance: %s",
                                    check.reading().toleranceSource()))
                    .close();
            html.element("td", "n", Figures.nearest(check.reading().indicated(), 2) + " " + unit);
            html.element(
                    "td",
                    "n",
                    check.reference()
                            .map(value -> Figures.nearest(value, 2) + " " + unit)
                            .orElse("–"));
            html.element(
                    "td",
                    "n",
                    check.figure()
                            .map(figure -> VisitSections.signed(check.difference(), 2) + " ± "
                                    + Figures.highSide(figure.high() - figure.value(), 2) + " "
                                    + figure.unit().symbol())
                            .orElse("–"));
            html.element(
                    "td",
                    "n",
                    "± " + Wording.plain(check.reading().tolerance()) + " " + (unit.equals("°C") ? "K" : unit));
            html.open("td", "class", "last");
            sheet.verdict(check.outcome());
            html.close().close();
        }
        sheet.endTable();
        sheet.aside(
                "The doubt holds the expanded uncertainty of the reference, the last digit of what was shown, and how much the reference moved in the seconds around the reading (k = 2).");
    }

    private void loads(LoadFrame frame) {
        List<ReferenceLoad> loads = visit.runs().stream()
                .filter(run -> run.sterilizer().equals(frame.sterilizer()))
                .flatMap(run -> run.load().stream())
                .distinct()
                .toList();
        if (loads.isEmpty()) {
            return;
        }
        sheet.heading(titled("The reference load beside the one before", visit.getSterilizer(frame.sterilizer())));
        sheet.table(words("", 30), words("This visit", 72.2), words("Before", 72.2));
        ReferenceLoad now = loads.get(0);
        Optional<ReferenceLoad> last = frame.last();
        line("Load", now.description(), last.map(ReferenceLoad::description));
        line("Items", items(now), last.map(JobSection::items));
        line("Mass", mass(now), last.map(JobSection::mass));
        line("Trays", RunSection.trays(now), last.map(RunSection::trays));
        line("Packaging", now.packaging(), last.map(ReferenceLoad::packaging));
        line("Challenge pack", now.challengePack(), last.map(ReferenceLoad::challengePack));
        line(
                "Slowest place",
                Wording.join("; ", now.challengePlace(), now.slowest().words()),
                last.map(load ->
                        Wording.join("; ", load.challengePlace(), load.slowest().words())));
        line("Agreed by", now.agreedBy(), last.map(ReferenceLoad::agreedBy));
        line("Photos", photos(now), last.map(JobSection::photos));
        sheet.endTable();
        Sheet.Facts facts = sheet.facts();
        facts.add(
                "Maker's maximum",
                frame.maximumKilogram()
                        .map(mass -> Wording.join(", ", Wording.plain(mass) + " kg", frame.maximumSource()))
                        .orElse(""));
        facts.add("The clinic owns", Sentence.list(", ", frame.owned()));
        facts.add("Report before", frame.lastReport());
        facts.end();
        loads.stream()
                .flatMap(load -> LoadComparison.of(load, Optional.of(frame)).stream())
                .map(LoadComparison.LoadRemark::sentence)
                .distinct()
                .forEach(sheet::paragraph);
    }

    private void line(String term, String now, Optional<String> before) {
        sheet.cells(
                term, Wording.orNotStated(now), before.map(Wording::orNotStated).orElse("–"));
    }

    private static String items(ReferenceLoad load) {
        return Sentence.list(
                "; ",
                load.items().stream()
                        .map(item -> Wording.join(
                                ", ",
                                Sentence.of("%s × %s", item.count(), item.name()),
                                item.family(),
                                item.packaging(),
                                item.massKilogram()
                                        .map(mass -> Sentence.of("%s each", Figures.nearest(mass * 1000, 0) + " g"))
                                        .orElse(""),
                                item.tray().isBlank() ? "" : Sentence.of("tray %s", item.tray())))
                        .toList());
    }

    private static String mass(ReferenceLoad load) {
        return load.totalKilogram()
                .map(mass -> Figures.nearest(mass, 2) + " kg")
                .map(mass -> load.massKilogram().isPresent() ? mass : Sentence.of("%s, summed", mass))
                .orElse("");
    }

    private static String photos(ReferenceLoad load) {
        return Sentence.list(
                "; ",
                load.photoFiles().isEmpty()
                        ? load.photos()
                        : load.photoFiles().stream()
                                .map(photo -> Sentence.of(
                                        "%s (SHA-256 %s…)",
                                        photo.name(), photo.sha256().substring(0, SHA_SHOWN)))
                                .toList());
    }

    private void ledger(Sterilizer sterilizer) {
        List<CycleLedger.Line> lines = CycleBook.of(visit, sterilizer).lines();
        if (lines.isEmpty() || visit.clinic().isEmpty()) {
            return;
        }
        sheet.keep(() -> {
            sheet.heading(titled("Cycle numbers", sterilizer));
            sheet.table(figures("Cycle", 34), words("What it was", WIDTH - 34));
            for (CycleLedger.Line line : lines) {
                sheet.cells(
                        line.first() == line.last()
                                ? String.valueOf(line.first())
                                : Sentence.of("%s to %s", line.first(), line.last()),
                        switch (line.kind()) {
                            case TWICE -> Sentence.of("claimed twice: %s", line.what());
                            case UNEXPLAINED -> "not explained – an open point";
                            default -> line.what();
                        });
            }
            sheet.endTable();
            sheet.aside(
                    "The clinic can enter these numbers in its log book: they explain the gap that the visit leaves in its own numbering.");
        });
    }

    private String titled(String title, Sterilizer sterilizer) {
        return visit.sterilizers().size() > 1 ? Sentence.of("%s – steriliser %s", title, sterilizer.key()) : title;
    }
}
