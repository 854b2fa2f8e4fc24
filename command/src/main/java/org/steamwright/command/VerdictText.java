package org.steamwright.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.leakage.LeakTest;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.Hint;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.qualification.Qualification;

/** An assessed visit as lines for a terminal: the answer first, then per run the figures that decided and what fell. */
final class VerdictText {
    /** Columns into which sentences are broken. */
    private static final int WIDTH = 100;

    private final boolean isStyled;

    /** @param isStyled whether verdict words may be bold and reversed */
    VerdictText(boolean isStyled) {
        this.isStyled = isStyled;
    }

    /** The whole visit. */
    List<String> of(AssessedVisit assessed, boolean isSingle) {
        List<String> lines = new ArrayList<>();
        if (assessed.visit().isSimulated()) {
            lines.add("SIMULATED: invented data, not a real cycle. Nothing of this can be signed.");
            lines.add("");
        }
        if (!isSingle) {
            lines.add(word(standing(assessed)));
            for (String sentence : assessed.summary()) {
                broken("  ", sentence, lines);
            }
            for (String cycle : assessed.qualifiedCycles()) {
                broken("  Qualified: ", cycle, lines);
            }
            assessed.validUntil().ifPresent(day -> lines.add("  Valid until " + day + "."));
            for (Qualification qualification : assessed.qualifications()) {
                broken(
                        "  ",
                        qualification.kind().title() + ", steriliser " + qualification.sterilizer()
                                + (qualification.cycle().isBlank() ? "" : ", " + qualification.cycle()) + ": "
                                + qualification.standing().words() + ". " + qualification.sentence(),
                        lines);
            }
            lines.add("");
        }
        for (AssessedRun run : assessed.runs()) {
            run(run, isSingle, lines);
            lines.add("");
        }
        for (String point : assessed.openPoints()) {
            broken("Open: ", point, lines);
        }
        remarks("", assessed.visit().remarks(), lines);
        lines.add("Judged by " + assessed.visit().criteriaSet().title() + ", "
                + assessed.visit().criteriaSet().identity() + ".");
        return lines;
    }

    /** One fact a line, fields parted by tabulators, for scripts without a JSON reader. */
    static List<String> plain(AssessedVisit assessed) {
        List<String> lines = new ArrayList<>();
        lines.add(fields("visit", "standing", assessed.standing().words()));
        lines.add(fields("visit", "simulated", assessed.visit().isSimulated() ? "yes" : "no"));
        lines.add(fields("visit", "criteria-set", assessed.visit().criteriaSet().identity()));
        for (AssessedRun run : assessed.runs()) {
            String number = Integer.toString(run.run().number());
            RunEvaluation evaluation = run.evaluation();
            lines.add(fields("run", number, "verdict", run.word()));
            lines.add(fields(
                    "run",
                    number,
                    "verdict-simple",
                    evaluation.simpleVerdict().outcome().words()));
            lines.add(fields(
                    "run",
                    number,
                    "verdict-guarded",
                    evaluation.guardedVerdict().outcome().words()));
            for (Finding finding : all(run)) {
                lines.add(fields(
                        "run",
                        number,
                        "finding",
                        finding.id().word(),
                        finding.use().word(),
                        finding.outcome().words(),
                        finding.printedMeasured(),
                        finding.limit().map(Limit::toString).orElse(""),
                        finding.sentence()));
            }
        }
        return lines;
    }

    private void run(AssessedRun run, boolean isSingle, List<String> lines) {
        RunEvaluation evaluation = run.evaluation();
        TestKind kind = evaluation.run().kind();
        StringBuilder title = new StringBuilder();
        if (!isSingle) {
            title.append("Run ")
                    .append(run.run().number())
                    .append(", steriliser ")
                    .append(run.run().sterilizer());
            title.append(": ");
        }
        title.append(kind.words()).append(" (").append(kind.qualification()).append("), ");
        title.append(evaluation.run().cycle().name());
        String at =
                Figures.plain(evaluation.run().cycle().sterilizingTemperature().celsius(), Unit.CELSIUS) + " °C";
        if (kind != TestKind.LEAK && !evaluation.run().cycle().name().equals(at)) {
            title.append(", ").append(at);
        }
        lines.add(word(run.word()) + "  " + title);
        run.run().setAside().ifPresent(aside -> broken("  ", aside.sentence(), lines));
        broken("  ", evaluation.verdict().cause(), lines);
        lines.add("  Simple rule: " + evaluation.simpleVerdict().outcome().words()
                + ". Limits drawn in by the doubt: "
                + evaluation.guardedVerdict().outcome().words() + ".");
        boolean isBrief = !isSingle && run.isPass();
        figures(run, isBrief, lines);
        for (Finding finding : all(run)) {
            if (finding.use() == Use.DECIDES && finding.outcome() != Outcome.PASS) {
                String word = capital(finding.outcome().words()) + ": ";
                String sentence = finding.sentence();
                broken("  " + word, sentence.startsWith(word) ? sentence.substring(word.length()) : sentence, lines);
            }
        }
        lethality(evaluation, lines);
        leak(evaluation, lines);
        if (evaluation.run().ambient().basis() != Ambient.Basis.BAROMETER
                && evaluation.corrected().pressure().isPresent()) {
            broken(
                    "  Ambient pressure: ",
                    Figures.nearest(evaluation.run().ambient().pressure().kilopascal(), 1) + " kPa, "
                            + evaluation.run().ambient().basis().words() + ".",
                    lines);
        }
        for (Oddity oddity : evaluation.oddities()) {
            broken(
                    "  Looks wrong: ",
                    sentence(oddity.kind().words()) + " " + oddity.sentence() + " "
                            + sentence(oddity.kind().effect().words()),
                    lines);
        }
        for (Hint hint : evaluation.hints()) {
            broken(
                    "  Hint: ",
                    sentence(hint.pattern()) + " Often: " + sentence(hint.likelyCauses()) + " Next: "
                            + sentence(hint.nextCheck()),
                    lines);
        }
        remarks("  ", evaluation.run().trace().remarks(), lines);
    }

    /**
     * The figures that were held against a limit, one line each with limit, margin and outcome.
     *
     * @param isBrief only those that decide about the sterilizer, as for a run that passes among others
     */
    private static void figures(AssessedRun run, boolean isBrief, List<String> lines) {
        List<Finding> shown = all(run).stream()
                .filter(finding ->
                        finding.measured().isPresent() && finding.limit().isPresent())
                .filter(finding -> finding.use() == Use.DECIDES || (finding.use() == Use.ADVISES && !isBrief))
                .filter(finding -> !isBrief || finding.id().group() != CriterionId.Group.EVIDENCE)
                .toList();
        int title = 0;
        int measured = 0;
        int limit = 0;
        int margin = 0;
        for (Finding finding : shown) {
            title = Math.max(title, finding.id().title().length());
            measured = Math.max(measured, finding.printedMeasured().length());
            limit = Math.max(
                    limit, finding.limit().map(Limit::toString).orElse("").length());
            margin = Math.max(margin, margin(finding).length());
        }
        for (Finding finding : shown) {
            lines.add("  " + padded(finding.id().title(), title) + "  "
                    + leftPadded(finding.printedMeasured(), measured) + "  "
                    + padded(finding.limit().map(Limit::toString).orElse(""), limit) + "  margin "
                    + leftPadded(margin(finding), margin) + "  "
                    + finding.outcome().words()
                    + (finding.use() == Use.ADVISES ? " (advice only)" : ""));
        }
    }

    /** The margin as printed: cut downwards, so that it never looks larger than it is. */
    private static String margin(Finding finding) {
        if (finding.margin().isEmpty() || finding.measured().isEmpty()) {
            return "";
        }
        Unit unit = finding.measured().get().unit();
        String text = Figures.lowSide(finding.margin().getAsDouble(), unit.decimals() + (unit == Unit.COUNT ? 0 : 1));
        return unit.symbol().isEmpty() ? text : text + " " + unit.symbol();
    }

    /** The lowest and the highest F of the points that share reference and z; one line for all that do. */
    private static void lethality(RunEvaluation evaluation, List<String> lines) {
        List<Lethality> left = new ArrayList<>(evaluation.lethality());
        while (!left.isEmpty()) {
            Lethality first = left.get(0);
            List<Lethality> alike = left.stream()
                    .filter(other -> other.referenceCelsius() == first.referenceCelsius() && other.z() == first.z())
                    .toList();
            left.removeAll(alike);
            double low = alike.stream().mapToDouble(Lethality::minutes).min().orElseThrow();
            double high = alike.stream().mapToDouble(Lethality::minutes).max().orElseThrow();
            lines.add("  F = " + Figures.lowSide(low, 2)
                    + (alike.size() > 1 ? " to " + Figures.lowSide(high, 2) : "") + " min at "
                    + Figures.nearest(first.referenceCelsius(), 1) + " °C with z = " + Figures.nearest(first.z(), 1)
                    + " K (for information, decides nothing)");
        }
    }

    private static void leak(RunEvaluation evaluation, List<String> lines) {
        if (evaluation.leakTest().isEmpty()) {
            return;
        }
        LeakTest leak = evaluation.leakTest().get();
        lines.add("  Leak rate: " + Figures.highSide(leak.rate().kilopascalPerMinute(), 3) + " kPa/min, "
                + Figures.highSide(leak.rate().millibarPerMinute(), 2) + " mbar/min, "
                + Figures.highSide(leak.rate().millimetreOfMercuryPerMinute(), 2) + " mmHg/min"
                + leak.temperatureCorrectedRate()
                        .map(rate -> "; temperature-corrected " + Figures.highSide(rate.kilopascalPerMinute(), 3)
                                + " kPa/min")
                        .orElse(""));
    }

    private static void remarks(String indent, List<Remark> remarks, List<String> lines) {
        for (Remark remark : remarks) {
            if (remark.rank() != Rank.NOTE) {
                broken(indent + "Remark " + remark.id() + " ", remark.where() + ": " + remark.text(), lines);
            }
        }
    }

    private static String standing(AssessedVisit assessed) {
        return assessed.standing().words();
    }

    private static List<Finding> all(AssessedRun run) {
        List<Finding> findings = new ArrayList<>(run.evaluation().findings());
        findings.addAll(run.loadFindings());
        return findings;
    }

    /** A verdict word: capitals; on a terminal bold, and reversed where it is a fail, so that it needs no colour. */
    private String word(String outcome) {
        String word = outcome.toUpperCase(Locale.ROOT);
        if (!isStyled) {
            return word;
        }
        return (outcome.equals("fail") ? "\u001b[1;7m " + word + " " : "\u001b[1m" + word) + "\u001b[0m";
    }

    /** The text with a full stop at its end. */
    private static String sentence(String text) {
        return text.isEmpty() || ".!?".indexOf(text.charAt(text.length() - 1)) >= 0 ? text : text + ".";
    }

    private static String capital(String text) {
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }

    private static String fields(String... fields) {
        StringBuilder line = new StringBuilder();
        for (int i = 0; i < fields.length; i++) {
            if (i > 0) {
                line.append('\t');
            }
            line.append(fields[i].replace('\t', ' ').replace('\n', ' '));
        }
        return line.toString();
    }

    static String padded(String text, int width) {
        return text + " ".repeat(Math.max(0, width - text.length()));
    }

    static String leftPadded(String text, int width) {
        return " ".repeat(Math.max(0, width - text.length())) + text;
    }

    /** A sentence broken at blanks; the lines after the first stand under it. */
    static void broken(String lead, String sentence, List<String> lines) {
        String indent = lead.isBlank() ? lead : " ".repeat(lead.indexOf(lead.strip()) + 2);
        StringBuilder line = new StringBuilder(lead);
        boolean isFirst = true;
        for (int from = 0; from < sentence.length(); ) {
            int to = sentence.indexOf(' ', from);
            String word = to < 0 ? sentence.substring(from) : sentence.substring(from, to);
            from = to < 0 ? sentence.length() : to + 1;
            if (!isFirst && line.length() + 1 + word.length() > WIDTH) {
                lines.add(line.toString());
                line = new StringBuilder(indent).append(word);
            } else {
                line.append(isFirst ? "" : " ").append(word);
            }
            isFirst = false;
        }
        lines.add(line.toString());
    }
}
