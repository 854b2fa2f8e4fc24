package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.words;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.report.plot.Moments;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.Visit;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.failure.Letters;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.validity.InterimStanding;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.ValidatedState;

/** The verdict of the visit: what may be run, with what, until when; and what follows from a failure. */
final class VerdictSection {

    private final Sheet sheet;
    private final AssessedVisit assessed;
    private final Visit visit;

    VerdictSection(Sheet sheet, AssessedVisit assessed) {
        this.sheet = sheet;
        this.assessed = assessed;
        this.visit = assessed.visit();
    }

    /** Nothing for a single recording: it is the verdict of a recording and of no visit. */
    void write() {
        if (visit.clinic().isEmpty()) {
            return;
        }
        sheet.chapter("What may be run", true);
        ValidatedState.of(assessed).forEach(state -> sheet.keep(() -> state(state)));
        interim();
        List<Failure> failures = FailurePath.of(assessed);
        if (!failures.isEmpty()) {
            sheet.chapter("Failures and what follows", false);
            failures.forEach(failure -> sheet.keep(() -> failure(failure)));
        }
    }

    /** Letters ready to be read over, after everything else. */
    void writeLetters() {
        if (visit.clinic().isEmpty()) {
            return;
        }
        List<Letters.Letter> letters =
                Letters.of(assessed, FailurePath.of(assessed), visit.date().orElse(LocalDate.EPOCH));
        if (letters.isEmpty()) {
            return;
        }
        sheet.chapter("Letters to be sent", true);
        sheet.aside("Drafts from the facts of this visit, to be read over and signed by a person. They hold no data of"
                + " patients, and none belong into an answer.");
        for (Letters.Letter letter : letters) {
            sheet.keep(() -> {
                sheet.heading(letter.title());
                letter.paragraphs().forEach(sheet::paragraph);
            });
        }
    }

    private void state(ValidatedState state) {
        sheet.heading("Steriliser serial " + state.serial());
        sheet.table(
                words("Cycle", 34),
                words("Standing", 26),
                words("Largest load that was tested", 62),
                words("Packaging", 28),
                words("Least drying", 24.4));
        for (QualifiedCycle cycle : state.cycles()) {
            row(cycle);
        }
        sheet.endTable();
        for (QualifiedCycle cycle : state.cycles()) {
            if (!cycle.reasons().isEmpty()) {
                sheet.paragraph(cycle.name() + ": " + String.join(" ", cycle.reasons()));
            }
        }
        boolean isAny = state.cycles().stream().anyMatch(cycle -> cycle.status() == QualifiedCycle.Status.QUALIFIED);
        Sheet.Facts facts = sheet.facts();
        if (isAny) {
            facts.need("Valid", validity(state));
            facts.add(
                    "Ended sooner by",
                    String.join(
                            "; ",
                            Arrays.stream(EndingEvent.values())
                                    .filter(EndingEvent::endsAll)
                                    .map(EndingEvent::words)
                                    .toList()));
            facts.add(
                    "Not covered",
                    String.join(
                            "; ",
                            Arrays.stream(EndingEvent.values())
                                    .filter(event -> !event.endsAll())
                                    .map(EndingEvent::words)
                                    .toList()));
        }
        for (PassCondition condition : state.conditions()) {
            facts.add("On condition", condition(condition));
        }
        for (JobSheet.Event event : state.events()) {
            facts.add(
                    "Happened since",
                    Wording.join(", ", Wording.day(event.on()), event.kind().words(), event.note()));
        }
        facts.end();
    }

    private void row(QualifiedCycle cycle) {
        Html html = sheet.html();
        html.open("tr");
        html.open("td").text(cycle.name());
        html.element("span", "under", "type " + cycle.type()).close();
        html.open("td");
        sheet.verdict(
                switch (cycle.status()) {
                    case QUALIFIED -> Outcome.PASS;
                    case AWAITED -> Outcome.AWAITED;
                    case NOT_QUALIFIED -> Outcome.FAIL;
                });
        html.element("span", "under", cycle.status().words()).close();
        html.open("td");
        for (ReferenceLoad load : cycle.loads()) {
            html.text(load.description());
            html.element(
                    "span",
                    "under",
                    Wording.join(
                            "; ",
                            load.totalKilogram()
                                    .map(mass -> Figures.lowSide(mass, 2) + " kg")
                                    .orElse("not weighed"),
                            String.join(
                                    ", ",
                                    load.items().stream()
                                            .map(VerdictSection::item)
                                            .toList())));
        }
        if (cycle.loads().isEmpty()) {
            html.text("–");
        }
        html.close();
        html.element("td", "", packaging(cycle));
        html.element(
                "td",
                "last",
                cycle.status() == QualifiedCycle.Status.QUALIFIED
                        ? cycle.leastDryingSeconds().map(Moments::length).orElse("not known")
                        : "–");
        html.close();
    }

    private static String item(ReferenceLoad.Item item) {
        return item.count() + " × " + item.name() + (item.family().isBlank() ? "" : " (" + item.family() + ")");
    }

    private static String packaging(QualifiedCycle cycle) {
        List<String> kinds = new ArrayList<>();
        for (ReferenceLoad load : cycle.loads()) {
            kinds.add(load.packaging());
            load.items().forEach(item -> kinds.add(item.packaging()));
        }
        List<String> distinct =
                kinds.stream().filter(kind -> !kind.isBlank()).distinct().toList();
        return distinct.isEmpty() ? "–" : String.join(", ", distinct);
    }

    private static String validity(ValidatedState state) {
        String until = state.until()
                .map(day -> "up to and including " + Wording.day(day))
                .orElse("");
        OptionalInt count = state.untilCount();
        if (count.isEmpty()) {
            return until;
        }
        return until.isBlank()
                ? "up to and including cycle " + count.getAsInt()
                : until + " or cycle " + count.getAsInt() + ", whichever comes first";
    }

    private static String condition(PassCondition condition) {
        String count = condition.untilCount().isPresent()
                ? "cycle " + condition.untilCount().getAsInt()
                : "";
        return Wording.join(
                "; ",
                condition.text(),
                "owner: " + condition.owner(),
                "until "
                        + Wording.join(
                                " or ", condition.until().map(Wording::day).orElse(""), count),
                condition.metOn().map(day -> "met on " + Wording.day(day)).orElse("open"),
                condition
                        .renewal()
                        .map(renewal -> "renewed from report %s because %s, agreed by %s"
                                .formatted(renewal.of(), renewal.reason(), renewal.reviewer()))
                        .orElse(""),
                "past its end it lapses by itself and nothing it belongs to is qualified");
    }

    private void interim() {
        InterimStanding interim = InterimStanding.of(assessed, visit.date().orElse(LocalDate.EPOCH));
        if (interim.standing() == InterimStanding.Standing.NONE
                || interim.standing() == InterimStanding.Standing.READ) {
            return;
        }
        sheet.keep(() -> {
            sheet.heading("Biological indicators: " + interim.standing().words());
            interim.sentences().forEach(sheet::paragraph);
        });
    }

    private void failure(Failure failure) {
        String serial = visit.getSterilizer(failure.sterilizer()).serial();
        sheet.heading(
                "Steriliser serial %s: %s".formatted(serial, failure.kind().words()));
        sheet.bullets(failure.what());
        Sheet.Facts facts = sheet.facts();
        facts.add("As found", failure.isAsFound() ? "yes; a repair changes nothing about the loads before" : "");
        facts.add("Points to", failure.blame().words());
        facts.add(
                "Out of service",
                failure.outOfService().isEmpty()
                        ? "no cycle now"
                        : failure.isAllOut() ? "the whole steriliser" : String.join(", ", failure.outOfService()));
        facts.add("Re-test", String.join("; ", failure.retests()));
        facts.add("Why these", failure.scope().because());
        failure.note().ifPresent(note -> note(note, facts));
        if (failure.note().isEmpty()) {
            facts.add("Cause and action", "nothing is written down yet");
        }
        failure.lookBack().ifPresent(lookBack -> {
            facts.add("Look-back", lookBack.words());
            facts.add(
                    "Other evidence",
                    String.join(
                            "; ",
                            lookBack.others().stream()
                                    .map(evidence -> "%s on %s, %s"
                                            .formatted(
                                                    evidence.kind().words(),
                                                    Wording.day(evidence.on()),
                                                    evidence.reference()))
                                    .toList()));
            facts.add("Loads already used", "The clinic decides. No data of patients belong here.");
        });
        facts.end();
    }

    private static void note(FailureNote note, Sheet.Facts facts) {
        facts.need("Cause", note.cause());
        facts.need("Action", note.action());
        facts.add("Changed", String.join(", ", note.changes()));
        facts.add(
                "Closed",
                note.closedOn()
                        .map(day -> Wording.join(", ", Wording.day(day), note.closedBy(), note.effect()))
                        .orElse("open"));
    }
}
