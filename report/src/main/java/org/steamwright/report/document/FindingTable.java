package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.figures;
import static org.steamwright.report.document.Sheet.Column.words;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.plot.MarginRuler;
import org.steamwright.report.plot.Moments;

/** Findings with what was required, what was measured, the margin ruler and the outcome by every rule. */
final class FindingTable {

    private final Sheet sheet;

    FindingTable(Sheet sheet) {
        this.sheet = sheet;
    }

    /** Writes those that were judged as a table, and those that were not as a list below it. */
    void write(List<Finding> findings) {
        List<Finding> judged = findings.stream()
                .filter(f -> f.outcome() != Outcome.NOT_ASSESSED)
                .toList();
        List<Finding> open = findings.stream()
                .filter(f -> f.outcome() == Outcome.NOT_ASSESSED)
                .toList();
        if (!judged.isEmpty()) {
            table(judged);
        }
        if (!open.isEmpty()) {
            notAssessed(open);
        }
    }

    private void table(List<Finding> findings) {
        sheet.table(
                words("Required by", 33),
                words("Finding", 55),
                figures("Required, measured", 29),
                words("Margin", 34.5),
                words("Outcome", 22.5));
        Html html = sheet.html();
        for (Finding finding : findings) {
            html.open("tr");
            html.element("td", "cite", Wording.cite(source(finding)));
            boolean hasFigures =
                    finding.limit().isPresent() || finding.measured().isPresent();
            html.open("td", "colspan", hasFigures ? "1" : "3");
            html.element("b", "", finding.id().title());
            html.element("span", "under", Wording.join(" ", finding.sentence(), place(finding)))
                    .close();
            if (hasFigures) {
                html.open("td", "class", "n");
                requiredAndMeasured(finding);
                html.close();
                html.open("td");
                MarginRuler.of(finding, sheet.speaker()).ifPresent(ruler -> sheet.object(ruler, "inline"));
                html.close();
            }
            html.open("td", "class", "last");
            sheet.verdict(finding.outcome());
            html.element("span", "under", rules(finding));
            html.close().close();
        }
        sheet.endTable();
        sheet.aside(legend(findings));
    }

    private static Source source(Finding finding) {
        return finding.limit().map(Limit::source).orElse(finding.source());
    }

    private static String place(Finding finding) {
        if (finding.evidence().atSeconds().isPresent()) {
            return Sentence.of(
                    "At %s.", Moments.minutes(finding.evidence().atSeconds().getAsDouble()));
        }
        if (finding.evidence().fromSeconds().isPresent()
                && finding.evidence().toSeconds().isPresent()) {
            return Sentence.of(
                    "From %s to %s.",
                    Moments.minutes(finding.evidence().fromSeconds().getAsDouble()),
                    Moments.minutes(finding.evidence().toSeconds().getAsDouble()));
        }
        return "";
    }

    private void requiredAndMeasured(Finding finding) {
        Html html = sheet.html();
        html.text(finding.limit().map(Limit::toString).orElse("–"));
        if (finding.measured().isEmpty()) {
            return;
        }
        Figure figure = finding.measured().get();
        html.empty("br").element("b", "", finding.printedMeasured());
        if (figure.low() < figure.high()) {
            html.element(
                    "span",
                    "under",
                    Wording.join(" … ", finding.printed(figure.low()), finding.printed(figure.high())));
        }
        finding.margin()
                .ifPresent(margin -> html.element("span", "under", Sentence.of("margin %s", margin(finding, margin))));
    }

    /** Cut towards minus infinity: a margin never looks larger than it is. */
    private static String margin(Finding finding, double margin) {
        Unit unit = finding.measured().orElseThrow().unit();
        int decimals = unit.decimals() + (unit == Unit.COUNT ? 0 : 1);
        String text = Figures.lowSide(margin, decimals);
        String sign = margin > 0 && !text.startsWith("−") ? "+" : "";
        String symbol = unit == Unit.CELSIUS ? Unit.KELVIN.symbol() : unit.symbol();
        return sign + text + (symbol.isEmpty() ? "" : " " + symbol);
    }

    private static String rules(Finding finding) {
        String use =
                finding.use() == Use.DECIDES ? "" : finding.use() == Use.ADVISES ? "advises only" : "reported only";
        return finding.judgement()
                .map(judgement -> Wording.join(
                        "; ",
                        Sentence.of("simple: %s", judgement.simple().words()),
                        Sentence.of("guarded: %s", judgement.guarded().words()),
                        use))
                .orElse(use);
    }

    private static String legend(List<Finding> findings) {
        Set<Unit> units = new LinkedHashSet<>();
        for (Finding finding : findings) {
            if (finding.measured().isPresent() && finding.limit().isPresent()) {
                units.add(finding.limit().get().unit());
            }
        }
        if (units.isEmpty()) {
            return "Figures are cut towards the side that looks worse.";
        }
        List<String> reaches = new ArrayList<>();
        for (Unit unit : units) {
            String symbol = unit == Unit.COUNT ? "" : " " + (unit == Unit.CELSIUS ? "K" : unit.symbol());
            String reach = Wording.plain(MarginRuler.reach(unit)) + symbol;
            if (!reaches.contains(reach)) {
                reaches.add(reach);
            }
        }
        return Sentence.of(
                "Figures are cut towards the side that looks worse. The margin: the post is the limit, the dot the measured "
                        + "figure, the whisker its doubt; right of the post is inside. From the post to the right end it is "
                        + "%s, by the unit of the limit; an arrow stands for a dot beyond the end.",
                Sentence.list(" or ", reaches));
    }

    private void notAssessed(List<Finding> findings) {
        Html html = sheet.html();
        html.open("p", "class", "small");
        sheet.verdict(Outcome.NOT_ASSESSED);
        html.close().open("ul", "class", "small");
        for (Finding finding : findings) {
            html.element("li", "", Sentence.of("%s: %s", finding.id().title(), finding.sentence()));
        }
        html.close();
    }
}
