package org.steamwright.visit;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.indicator.Agreement;
import org.steamwright.assessment.indicator.BiologicalTest;
import org.steamwright.assessment.indicator.ChemicalComparison;
import org.steamwright.assessment.indicator.ExpectedReduction;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.verdict.RunEvaluation;

/** The indicators of a run beside the sensors that lay where they lay. */
final class IndicatorPlaces {

    private final VisitRun run;
    private final RunEvaluation evaluation;
    private final Optional<LocalDate> day;

    /**
     * @param run with its indicators
     * @param evaluation of its recording
     * @param day of the run at the site; empty if nobody told it
     */
    IndicatorPlaces(VisitRun run, RunEvaluation evaluation, Optional<LocalDate> day) {
        this.run = run;
        this.evaluation = evaluation;
        this.day = day;
    }

    List<IndicatorComparison> biological() {
        BiologicalTest test = new BiologicalTest(
                run.indicators().stream().map(LoadFindings::indicator).toList(), day.orElse(LocalDate.MIN));
        return run.indicators().stream().map(use -> compared(use, test)).toList();
    }

    private IndicatorComparison compared(IndicatorUse use, BiologicalTest test) {
        Optional<ExpectedReduction> expected = use.isControl()
                ? Optional.empty()
                : use.resistance()
                        .flatMap(spores -> find(use.channel(), use.position())
                                .map(channel -> ExpectedReduction.of(channel, spores, use.population())));
        IndicatorComparison compared =
                IndicatorComparison.of(LoadFindings.indicator(use), test, expected, obstacle(use), evaluation.steam());
        boolean isWeak = use.resistance()
                .filter(spores -> !spores.isStrongEnough(use.population()))
                .isPresent();
        if (!isWeak || compared.agreement() == Agreement.NOT_COMPARED) {
            return compared;
        }
        return new IndicatorComparison(
                compared.id(),
                compared.agreement(),
                compared.expected(),
                compared.sentence()
                        + " Its stated figures are weaker than a steam indicator's have to be (1E5 spores, D 1.5 min at 121 °C, z 6 K).",
                compared.hints());
    }

    private String obstacle(IndicatorUse use) {
        if (use.resistance().isEmpty()) {
            return "The D-value of the lot is not stated.";
        }
        if (use.channel().isBlank() && use.position().isBlank()) {
            return "Neither its position nor the channel beside it is stated.";
        }
        if (find(use.channel(), use.position()).isEmpty()) {
            return use.channel().isBlank()
                    ? "No sensor lay at position %s.".formatted(use.position())
                    : "No temperature in the chamber is called %s.".formatted(use.channel());
        }
        return "The population of the lot is not stated.";
    }

    List<ChemicalComparison> chemical() {
        return run.chemicalEntries().stream()
                .map(indicator -> ChemicalComparison.of(indicator, find("", indicator.position()), day))
                .toList();
    }

    /** The declared channel, else the first whose sensor lay at that position. */
    private Optional<CorrectedChannel> find(String channel, String position) {
        return evaluation.corrected().measuredInChamber().stream()
                .filter(one -> channel.isBlank()
                        ? !position.isBlank()
                                && Words.key(one.channel().position().letter()).equals(Words.key(position))
                        : one.name().equals(channel))
                .findFirst();
    }
}
