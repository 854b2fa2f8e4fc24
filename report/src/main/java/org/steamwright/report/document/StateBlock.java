package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.words;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.plot.Moments;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.ValidatedState;

/** What may be run in one steriliser, with what, until when, and what ends it sooner. */
final class StateBlock {

    private final Sheet sheet;
    private final boolean isItemised;

    /** @param isItemised whether the things of each load are listed one by one */
    StateBlock(Sheet sheet, boolean isItemised) {
        this.sheet = sheet;
        this.isItemised = isItemised;
    }

    /** Table of the cycles, why those are not qualified that are not, how long it holds, and the conditions. */
    void write(ValidatedState state) {
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
                sheet.paragraph(Sentence.of("%s: %s", cycle.name(), Sentence.list(" ", cycle.reasons())));
            }
        }
        Sheet.Facts facts = sheet.facts();
        if (state.isAnyQualified()) {
            facts.add("Valid", validity(state));
            facts.add(
                    "Ended sooner by",
                    Sentence.list(
                            "; ",
                            Arrays.stream(EndingEvent.values())
                                    .filter(EndingEvent::endsAll)
                                    .map(EndingEvent::words)
                                    .toList()));
            facts.add(
                    "Not covered",
                    Sentence.list(
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
        html.element("span", "under", Sentence.of("type %s", cycle.type())).close();
        html.open("td");
        sheet.verdict(cycle.status());
        html.close();
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
                            isItemised
                                    ? Sentence.list(
                                            ", ",
                                            load.items().stream()
                                                    .map(StateBlock::item)
                                                    .toList())
                                    : Sentence.of(
                                            "%s kinds of things, listed in the report",
                                            load.items().size())));
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
        return item.family().isBlank()
                ? Sentence.of("%s × %s", item.count(), item.name())
                : Sentence.of("%s × %s (%s)", item.count(), item.name(), item.family());
    }

    private static String packaging(QualifiedCycle cycle) {
        List<String> kinds = new ArrayList<>();
        for (ReferenceLoad load : cycle.loads()) {
            kinds.add(load.packaging());
            load.items().forEach(item -> kinds.add(item.packaging()));
        }
        List<String> distinct =
                kinds.stream().filter(kind -> !kind.isBlank()).distinct().toList();
        return distinct.isEmpty() ? "–" : Sentence.list(", ", distinct);
    }

    /** Until when it stands, as the page by the machine says it too. */
    static String validity(ValidatedState state) {
        return state.isEndless()
                ? "nothing says until when, so no load is covered"
                : Sentence.of("up to and including %s", end(state));
    }

    /** The last day, the last cycle number, or both. */
    static String end(ValidatedState state) {
        String day = state.until().map(Wording::day).orElse("");
        OptionalInt count = state.untilCount();
        if (count.isEmpty()) {
            return day;
        }
        return day.isEmpty()
                ? Sentence.of("cycle %s", count.getAsInt())
                : Sentence.of("%s or cycle %s, whichever comes first", day, count.getAsInt());
    }

    private static String condition(PassCondition condition) {
        String count = condition.untilCount().isPresent()
                ? Sentence.of("cycle %s", condition.untilCount().getAsInt())
                : "";
        return Wording.join(
                "; ",
                condition.text(),
                Sentence.of("owner: %s", condition.owner()),
                Sentence.of(
                        "until %s",
                        Wording.join(" or ", condition.until().map(Wording::day).orElse(""), count)),
                condition
                        .metOn()
                        .map(day -> Sentence.of("met on %s", Wording.day(day)))
                        .orElse("open"),
                condition
                        .renewal()
                        .map(renewal -> Sentence.of(
                                "renewed from report %s because %s, agreed by %s",
                                renewal.of(), renewal.reason(), renewal.reviewer()))
                        .orElse(""),
                "past its end it lapses by itself and nothing it belongs to is qualified");
    }
}
