package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.visit.VisitRun;

class IndicatorFactsTest {

    @TempDir
    Path folder;

    private VisitFixture with(String lines) {
        return VisitFixture.tenLines(folder).yaml(VisitFixture.TEN_LINES + lines.indent(4));
    }

    private VisitRun read(String lines) throws Exception {
        return with(lines).read().runs().get(0);
    }

    @Test
    void plain_text_about_chemical_indicators_still_works() throws Exception {
        VisitRun run = read("chemical-indicators: all five changed");
        assertThat(run.chemicalIndicators()).isEqualTo("all five changed");
        assertThat(run.chemicalEntries()).isEmpty();
    }

    @Test
    void a_bare_d_value_is_one_at_121_degrees_with_the_usual_z_and_no_stated_doubt() throws Exception {
        VisitRun run = read("indicators: [{id: a, result: no-growth, d-value: 90 s}]");
        assertThat(run.indicators().get(0).resistance()).contains(new Resistance(1.5, Optional.empty(), 121, 10));
        assertThat(run.indicators().get(0).channel()).isEmpty();
        assertThat(read("indicators: [{id: a, result: no-growth}]")
                        .indicators()
                        .get(0)
                        .resistance())
                .isEmpty();
    }

    @Test
    void a_chemical_indicator_needs_its_id_type_and_result_only() throws Exception {
        assertThat(read("chemical-indicators: [{id: t, type: 1, result: unclear}]")
                        .chemicalEntries())
                .containsExactly(new ChemicalIndicator(
                        "t",
                        ChemicalIndicator.Type.PROCESS,
                        "",
                        "",
                        Optional.empty(),
                        List.of(),
                        "",
                        ChemicalIndicator.Result.UNCLEAR));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "indicators: [{id: a, result: growth, z: 10 K}] | found no \"d-value\" beside it",
                "indicators: [{id: a, result: growth, d-value-at: 121 °C}] | found no \"d-value\" beside it",
                "indicators: [{id: a, result: growth, d-value-U: 6 s}] | found no \"d-value\" beside it",
                "indicators: [{id: a, result: growth, d-value: 1.8}] | without a unit",
                "indicators: [{id: a, result: growth, d-value: 0 min}] | spores with D = 0.0 min",
                "indicators: [{id: a, result: growth, d-value: 1 min, d-value-U: 1 min}] | a D-value of 1.0 min with an uncertainty of 1.0 min",
                "indicators: [{id: a, result: growth, d-value: 1 min, z: 0 K}] | z = 0.0 K",
                "indicators: [{id: a, result: growth, channel: T3}] | found the channel \"T3\", expected a temperature of this run: T1, T2.",
                "indicators: [{id: a, result: growth, channel: P}] | found the channel \"P\", expected a temperature of this run: T1, T2.",
                "chemical-indicators: [{id: a, type: 7, result: reached}] | expected one of 1, 2, 3, 4, 5, 6.",
                "chemical-indicators: [{id: a, type: 5, result: passed}] | expected one of reached, not-reached, unclear.",
                "chemical-indicators: [{id: a, type: 5, result: reached}, {id: a, type: 5, result: reached}] | two chemical indicators \"a\" in one run",
                "chemical-indicators: [{id: a, type: 5, result: reached, stated-values: [{temperature: 134 °C, time: 0 s}]}] | a stated value of 0.0 s",
                "chemical-indicators: {id: a} | expected one text",
            })
    void says_what_is_wrong(String lines, String part) {
        assertThat(with(lines).problems())
                .singleElement()
                .asString()
                .contains("visit.yaml, line 11")
                .contains(part);
    }
}
