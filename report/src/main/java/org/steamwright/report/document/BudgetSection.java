package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.figures;
import static org.steamwright.report.document.Sheet.Column.words;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Distribution;
import org.steamwright.report.language.Sentence;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;

/** The uncertainty budgets, each printed once with the channels and runs that it is for. */
final class BudgetSection {

    private final Sheet sheet;
    private final AssessedVisit assessed;

    BudgetSection(Sheet sheet, AssessedVisit assessed) {
        this.sheet = sheet;
        this.assessed = assessed;
    }

    /** What makes two budgets the same: all but the name of the quantity and the papers that the sizes come from. */
    private record Lines(String unit, List<Contribution> contributions, double coverageFactor) {

        static Lines of(Budget budget) {
            return new Lines(
                    budget.unit(),
                    budget.contributions().stream()
                            .map(line -> new Contribution(
                                    line.name(),
                                    line.stated(),
                                    line.distribution(),
                                    line.divisor(),
                                    line.sensitivity(),
                                    line.degreesOfFreedom(),
                                    "",
                                    line.isPerReading(),
                                    line.correlation()))
                            .toList(),
                    budget.coverageFactor());
        }
    }

    /** Budgets that are alike, with the channels and runs that they are for and the papers line by line. */
    private static final class Group {
        private final Budget budget;
        private final Map<String, List<Integer>> runsByChannel = new LinkedHashMap<>();
        private final List<Set<String>> origins = new ArrayList<>();

        Group(Budget budget) {
            this.budget = budget;
            budget.contributions().forEach(line -> origins.add(new TreeSet<>()));
        }

        void add(Budget same, String channel, int run) {
            runsByChannel.computeIfAbsent(channel, key -> new ArrayList<>()).add(run);
            for (int i = 0; i < origins.size(); i++) {
                origins.get(i).add(same.contributions().get(i).origin());
            }
        }
    }

    void write() {
        Map<Lines, Group> groups = new LinkedHashMap<>();
        for (AssessedRun run : assessed.runs()) {
            for (CorrectedChannel channel : run.evaluation().corrected().channels()) {
                channel.budget()
                        .filter(budget -> !budget.isEmpty())
                        .ifPresent(budget -> groups.computeIfAbsent(Lines.of(budget), key -> new Group(budget))
                                .add(budget, channel.name(), run.run().number()));
            }
        }
        sheet.chapter("Uncertainty budgets", !groups.isEmpty());
        if (groups.isEmpty()) {
            sheet.paragraph(
                    "Nothing is known about the doubt of any channel. That is not the same as no doubt: the guarded "
                            + "outcomes of this report rest on an interval of no width.");
            return;
        }
        sheet.paragraph(
                "One corrected reading, line by line. The combined standard uncertainty is the root of the sum of "
                        + "squares of the last column; U is k times that. Budgets that are alike line by line are printed once.");
        groups.values().forEach(this::table);
        differences();
    }

    /** One line for each difference or change that a criterion judged; line by line they stand in the result file. */
    private void differences() {
        Html html = sheet.html();
        boolean isHeaded = false;
        for (AssessedRun run : assessed.runs()) {
            for (Finding finding : run.evaluation().findings()) {
                Optional<Budget> found = finding.measured().flatMap(Figure::budget);
                if (found.isEmpty() || found.get().isEmpty()) {
                    continue;
                }
                if (!isHeaded) {
                    isHeaded = true;
                    html.open("div");
                    sheet.heading("Differences and changes");
                    sheet.table(
                            words("Run, finding", 64),
                            words("Budget of the", 44),
                            figures("u", 20),
                            figures("ν", 14),
                            figures("k", 12),
                            figures("U", 20));
                }
                Budget budget = found.get();
                double freedom = budget.effectiveDegreesOfFreedom();
                sheet.cells(
                        Wording.join(
                                ", ",
                                String.valueOf(run.run().number()),
                                finding.id().title()),
                        budget.quantity(),
                        Figures.nearest(budget.combined(), 4),
                        Double.isInfinite(freedom) ? "∞" : Figures.lowSide(freedom, 0),
                        Wording.plain(budget.coverageFactor()),
                        Figures.highSide(budget.expanded().value(), 4) + " " + budget.unit());
            }
        }
        if (isHeaded) {
            sheet.endTable();
            sheet.aside(
                    "What both channels of a difference share cancels in it; in a change of one channel its calibration "
                            + "does. Every line stands in result.json.");
            html.close();
        }
    }

    private static String describe(Map<String, List<Integer>> users) {
        Map<List<Integer>, List<String>> byRuns = new LinkedHashMap<>();
        users.forEach((channel, runs) ->
                byRuns.computeIfAbsent(runs, key -> new ArrayList<>()).add(channel));
        List<String> parts = new ArrayList<>();
        byRuns.forEach((runs, channels) -> parts.add(Sentence.of(
                runs.size() == 1 ? "%s in run %s" : "%s in runs %s",
                Sentence.list(", ", channels),
                Sentence.list(", ", runs.stream().map(String::valueOf).toList()))));
        return Sentence.list("; ", parts);
    }

    private void table(Group group) {
        Budget budget = group.budget;
        Html html = sheet.html();
        html.open("div", "class", "keep");
        sheet.heading(describe(group.runsByChannel));
        sheet.table(
                words("Contribution", 46),
                words("From", 43),
                figures("stated", 22),
                words("meant as", 25),
                figures("factor", 16),
                figures(Sentence.of("u (%s)", budget.unit()), 22));
        for (int i = 0; i < budget.contributions().size(); i++) {
            Contribution line = budget.contributions().get(i);
            sheet.cells(
                    line.name(),
                    Sentence.list("; ", List.copyOf(group.origins.get(i))),
                    Figures.nearest(line.stated(), 4),
                    meaning(line),
                    Figures.nearest(line.sensitivity(), 3),
                    Figures.nearest(line.standardUncertainty(), 4));
        }
        double freedom = budget.effectiveDegreesOfFreedom();
        sum(
                Sentence.of(
                        "Combined standard uncertainty; effective degrees of freedom %s",
                        Double.isInfinite(freedom) ? "∞" : Figures.lowSide(freedom, 0)),
                Figures.nearest(budget.combined(), 4));
        html.open("tr")
                .open("td", "colspan", "5")
                .element(
                        "b", "", Sentence.of("Expanded uncertainty U, k = %s", Wording.plain(budget.coverageFactor())));
        html.close()
                .open("td", "class", "n last")
                .element("b", "", Figures.highSide(budget.expanded().value(), 3) + " " + budget.unit());
        html.close().close();
        sheet.endTable();
        html.close();
    }

    private void sum(String name, String figure) {
        sheet.html()
                .open("tr")
                .open("td", "colspan", "5")
                .text(name)
                .close()
                .element("td", "n last", figure)
                .close();
    }

    private static String meaning(Contribution line) {
        String freedom = Double.isInfinite(line.degreesOfFreedom())
                ? ""
                : Sentence.of("ν = %s", Figures.nearest(line.degreesOfFreedom(), 0));
        String common = line.correlation().group().isEmpty()
                ? ""
                : Sentence.of("common %s", line.correlation().group());
        return Wording.join(
                ", ",
                meaning(line.distribution(), line.divisor()),
                freedom,
                line.isPerReading() ? "each reading" : "",
                common);
    }

    private static String meaning(Distribution distribution, double divisor) {
        return switch (distribution) {
            case NORMAL -> Sentence.of("expanded, k = %s", Wording.plain(divisor));
            case RECTANGULAR -> "half-width, ÷ √3";
            case TRIANGULAR -> "half-width, ÷ √6";
            case ARCSINE -> "half-width, ÷ √2";
            case STANDARD -> "standard";
        };
    }
}
