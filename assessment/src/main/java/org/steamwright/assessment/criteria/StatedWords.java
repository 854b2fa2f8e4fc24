package org.steamwright.assessment.criteria;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedPhases;

/** What a finding says of stated borders that it was judged by: what was found, who stated what instead, and why. */
final class StatedWords {

    private StatedWords() {}

    /** Sentences about the stated borders of a phase, with a blank before them; empty text if it has none. */
    static String of(Phases phases, Phase.Kind kind) {
        if (phases.stated().isEmpty()) {
            return "";
        }
        StatedPhases stated = phases.stated().get();
        if (stated.refusal().isPresent()) {
            boolean isMeant = stated.borders().stream().anyMatch(border -> border.phase() == kind);
            return isMeant
                    ? " A stated border was left aside, because %s."
                            .formatted(stated.refusal().get())
                    : "";
        }
        List<String> sentences = new ArrayList<>();
        for (StatedBorder border : stated.bordersOf(kind)) {
            sentences.add(" The %s was stated at %s by %s, %s: %s"
                    .formatted(
                            border.words(),
                            Figures.moment(border.atSeconds()),
                            border.by(),
                            phases.foundBorder(border.phase(), border.end())
                                    .map(found -> "found at " + Figures.moment(found))
                                    .orElse("not found"),
                            ended(border.because())));
        }
        return String.join("", sentences);
    }

    private static String ended(String reason) {
        String calm = reason.strip();
        return calm.endsWith(".") || calm.endsWith("!") || calm.endsWith("?") ? calm : calm + ".";
    }
}
