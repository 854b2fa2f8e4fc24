package org.steamwright.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.whatif.Change;
import org.steamwright.visit.whatif.WhatIf;
import org.steamwright.visit.whatif.WhatIf.FindingDifference;
import org.steamwright.visit.whatif.WhatIf.QualificationDifference;
import org.steamwright.visit.whatif.WhatIf.RunDifference;

/** What a what-if changes, as lines: verdicts first, then the findings behind them. */
final class DifferenceText {
    private static final String ARROW = " → ";
    private static final String NOT_ASKED = "not asked";

    private final boolean isPlain;
    private int flippedRuns;
    private int flippedVisits;

    /** @param isPlain one difference a line, fields parted by tabulators */
    DifferenceText(boolean isPlain) {
        this.isPlain = isPlain;
    }

    List<String> of(String folder, WhatIf whatIf) {
        List<RunDifference> runs = whatIf.runs();
        long flipped = runs.stream().filter(RunDifference::isFlipped).count();
        flippedRuns += (int) flipped;
        flippedVisits += whatIf.isFlipped() ? 1 : 0;
        String premise =
                String.join("; ", whatIf.changes().stream().map(Change::words).toList());
        List<String> lines = new ArrayList<>();
        if (isPlain) {
            plain(folder, premise, whatIf, lines);
            return lines;
        }
        VerdictText.broken("", folder + ", if " + premise + ":", lines);
        for (QualificationDifference difference : whatIf.qualifications()) {
            Qualification any = difference.any();
            lines.add("  " + any.kind().title() + ", steriliser " + any.sterilizer()
                    + (any.cycle().isBlank() ? "" : ", " + any.cycle()) + ": " + standing(difference.before())
                    + ARROW + standing(difference.after()));
        }
        int sameOutcome = 0;
        for (RunDifference run : runs) {
            List<FindingDifference> other =
                    run.findings().stream().filter(FindingDifference::isFlipped).toList();
            sameOutcome += run.findings().size() - other.size();
            if (run.isFlipped() || !other.isEmpty()) {
                TestKind kind = run.before().evaluation().run().kind();
                String was = run.before().word();
                lines.add("  Run " + run.number() + ", steriliser "
                        + run.before().run().sterilizer() + ", " + kind.words() + " (" + kind.qualification() + "): "
                        + (run.isFlipped() ? was + ARROW + run.after().word() : was + " either way"));
                other.forEach(finding -> lines.add("    " + sentence(finding)));
            }
        }
        lines.add("  " + flipped + " of " + whatIf.before().runs().size() + " runs get another verdict, "
                + whatIf.qualifications().size() + " of "
                + whatIf.before().qualifications().size() + " qualifications stand otherwise; "
                + sameOutcome + (sameOutcome == 1 ? " finding keeps its" : " findings keep their")
                + " outcome with another figure or limit.");
        return lines;
    }

    /** The end of a look through many visits. */
    List<String> ofAll(int visits, int unread, int judged) {
        if (isPlain) {
            return List.of();
        }
        return List.of(visits + " visits found, " + unread + " of them can't be read; judged " + judged
                + " times under other premises: " + flippedRuns + " verdicts of runs and "
                + flippedVisits + " answers about a visit would have been others.");
    }

    private static String standing(Optional<Qualification> qualification) {
        return qualification.map(one -> one.standing().words()).orElse("none");
    }

    private static String sentence(FindingDifference difference) {
        boolean isDeciding = difference.before().filter(Finding::isDeciding).isPresent()
                || difference.after().filter(Finding::isDeciding).isPresent();
        return difference.id().title() + ": " + side(difference.before()) + ARROW + side(difference.after())
                + (isDeciding ? "" : " (decides nothing)");
    }

    private static String side(Optional<Finding> finding) {
        if (finding.isEmpty() || finding.get().use() == Use.OFF) {
            return NOT_ASKED;
        }
        Finding one = finding.get();
        String measured = one.printedMeasured();
        String limit = one.limit().map(Limit::toString).orElse("");
        String figures = measured.isEmpty() ? "" : " (" + (measured + " " + limit).strip() + ")";
        return one.outcome().words() + figures;
    }

    private static void plain(String folder, String premise, WhatIf whatIf, List<String> lines) {
        for (QualificationDifference difference : whatIf.qualifications()) {
            Qualification any = difference.any();
            lines.add(String.join(
                    "\t",
                    folder,
                    premise,
                    "qualification",
                    any.kind().title(),
                    any.sterilizer(),
                    any.cycle(),
                    standing(difference.before()),
                    standing(difference.after())));
        }
        for (RunDifference run : whatIf.runs()) {
            String number = Integer.toString(run.number());
            lines.add(String.join(
                    "\t",
                    folder,
                    premise,
                    "run",
                    number,
                    run.before().word(),
                    run.after().word()));
            for (FindingDifference difference : run.findings()) {
                lines.add(String.join(
                        "\t",
                        folder,
                        premise,
                        "finding",
                        number,
                        difference.id().word(),
                        side(difference.before()),
                        side(difference.after())));
            }
        }
    }
}
