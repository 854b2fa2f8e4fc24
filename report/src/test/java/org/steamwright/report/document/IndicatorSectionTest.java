package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.indicator.Agreement;
import org.steamwright.assessment.indicator.ChemicalComparison;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.Estimate;
import org.steamwright.assessment.indicator.ExpectedReduction;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.lethality.Lethality;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;
import org.steamwright.report.SampleVisits;
import org.steamwright.report.language.Speaker;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.VisitRun;

class IndicatorSectionTest {

    private static final AssessedVisit VISIT = SampleVisits.full();

    private static final Resistance SPORES =
            new Resistance(1.8, Optional.of(new ExpandedUncertainty(0.2, 2)), 121, 9.1);

    /** The worked example of docs/explanation/indicators.md. */
    private static ExpectedReduction expected(double skippedSeconds, boolean isCounted) {
        return new ExpectedReduction(
                "T3",
                new Lethality(15, 15, 15, 121, 9.1, 0, 900, skippedSeconds),
                new Estimate(8.3333, 7.2841, 9.5337),
                Optional.of(new Estimate(0.00557, 0.000351, 0.0624)),
                Optional.of(new Estimate(0.005554, 0.000351, 0.0605)),
                isCounted);
    }

    private static AssessedRun run(List<IndicatorComparison> compared, List<ChemicalComparison> chemicals) {
        AssessedRun loaded = VISIT.runs().stream()
                .filter(run -> !run.run().indicators().isEmpty())
                .findFirst()
                .orElseThrow();
        VisitRun facts = loaded.run();
        List<IndicatorUse> uses = List.of(
                new IndicatorUse(
                        "BI-1",
                        false,
                        "spore strip",
                        "L-1",
                        Optional.of(LocalDate.of(2027, 6, 30)),
                        Optional.of(1.2e6),
                        "E",
                        Optional.of(true),
                        "",
                        Optional.of(SPORES),
                        "",
                        Optional.empty(),
                        Optional.empty(),
                        ""),
                new IndicatorUse(
                        "BI-C",
                        true,
                        "spore strip",
                        "L-1",
                        Optional.empty(),
                        Optional.empty(),
                        "",
                        Optional.of(true),
                        ""));
        return new AssessedRun(
                new VisitRun(
                                facts.number(),
                                facts.sterilizer(),
                                facts.machineCycle(),
                                facts.machineVerdict(),
                                facts.stage(),
                                facts.startCondition(),
                                facts.load(),
                                compared.isEmpty() ? List.of() : uses.subList(0, compared.size()),
                                facts.weighings(),
                                "",
                                facts.note(),
                                facts.test())
                        .withChemicalEntries(
                                chemicals.isEmpty()
                                        ? List.of()
                                        : List.of(new ChemicalIndicator(
                                                "CI-1",
                                                ChemicalIndicator.Type.EMULATING,
                                                "strip",
                                                "L-9",
                                                Optional.of(LocalDate.of(2027, 3, 31)),
                                                List.of(new ChemicalIndicator.StatedValue(134, 210)),
                                                "E",
                                                ChemicalIndicator.Result.NOT_REACHED))),
                loaded.evaluation(),
                List.of(),
                compared,
                chemicals);
    }

    private static String written(List<IndicatorComparison> compared, List<ChemicalComparison> chemicals) {
        Sheet sheet = new Sheet(Speaker.ENGLISH);
        new IndicatorSection(sheet, run(compared, chemicals), Optional.empty()).write();
        return sheet.html().toString();
    }

    @Test
    void shows_the_expectation_beside_the_growth_seen_and_what_to_look_for() {
        String html = written(
                List.of(
                        new IndicatorComparison(
                                "BI-1",
                                Agreement.GROWTH_UNEXPECTED,
                                Optional.of(expected(0, true)),
                                "It grew.",
                                List.of("air", "dry heat")),
                        new IndicatorComparison("BI-C", Agreement.AGREES, Optional.empty(), "alive", List.of())),
                List.of());
        assertThat(html)
                .contains(
                        "supporting, decides nothing",
                        "D 1.8 ± 0.2 min at 121 °C, z 9.1 K",
                        "T3, 15.00 min at 121 °C, z 9.1 K",
                        "8.3, 7.2 … 9.6",
                        "0.006, 0.6 %",
                        "contradicts: it grew",
                        "BI-1: It grew. Look for: air; dry heat.",
                        "control, not exposed",
                        "Every unit of lot L-1 should survive 7.3 min and none 18.1 min at 121 °C.",
                        "doubt of the temperature and of the D-value.",
                        "an indicator that grew fails whatever stands here")
                .doesNotContain("alive");
    }

    @Test
    void tells_missing_temperature_and_unstated_doubt() {
        String html = written(
                List.of(new IndicatorComparison(
                        "BI-1",
                        Agreement.CANNOT_TELL,
                        Optional.of(expected(75, false)),
                        "Part is missing.",
                        List.of())),
                List.of());
        assertThat(html).contains("1 min 15 s without value", "BI-1: Part is missing.", "is in it where one is stated");
    }

    @Test
    void says_once_why_nothing_was_computed() {
        String html = written(
                List.of(
                        new IndicatorComparison(
                                "BI-1", Agreement.NOT_COMPARED, Optional.empty(), "No D-value.", List.of()),
                        new IndicatorComparison("BI-C", Agreement.AGREES, Optional.empty(), "alive", List.of())),
                List.of());
        assertThat(html)
                .contains("No expected reduction was computed. No D-value.")
                .doesNotContain("Expected reduction");
    }

    @Test
    void chemical_indicators_one_by_one() {
        String html = written(
                List.of(),
                List.of(new ChemicalComparison("CI-1", "Pack", Agreement.END_POINT_MISSED, true, "Look for air.")));
        assertThat(html)
                .contains(
                        "type 6, emulating, strip, stated 3 min 30 s at 134 °C",
                        "end point not reached",
                        "Pack: contradicts: end point missed",
                        "CI-1: Look for air.",
                        "decide nothing here")
                .doesNotContain("Biological indicators");
    }
}
