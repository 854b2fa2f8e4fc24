package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSet.CycleLimits;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.criteria.Use;

/** The shipped sets against the handbook's table of suggested presets (standards.md, section 15). */
class PresetsTest {

    private final Presets presets = new Presets();

    static List<String> names() {
        return new Presets().names();
    }

    @Test
    void are_named_in_a_fixed_order() {
        assertThat(presets.names())
                .containsExactly("au-as5369", "uk-htm", "eu-en13060", "us-cdc", "de-dgkh", "ch-practice");
    }

    @ParameterizedTest
    @MethodSource("names")
    void load_with_name_hash_and_notes(String name) {
        CriteriaSet set = presets.get(name);
        assertThat(set.name()).isEqualTo(name);
        assertThat(set.title()).isNotBlank();
        assertThat(set.notes()).isNotBlank();
        assertThat(set.sha256()).isEqualTo(Presets.sha256(Presets.bytes(name)));
        assertThat(set.revalidationSource()).isPresent();
        assertThat(set.consecutiveRunsSource()).isPresent();
    }

    @ParameterizedTest
    @MethodSource("names")
    void say_something_about_every_criterion(String name) {
        Set<CriterionId> all = EnumSet.allOf(CriterionId.class);
        // younger than these versions of the presets, and asked by none of their documents
        all.remove(CriterionId.FIELD_CHECK_AFTER);
        assertThat(presets.get(name).requirements()).containsOnlyKeys(all);
    }

    @ParameterizedTest
    @MethodSource("names")
    void let_the_evidence_decide(String name) {
        for (CriterionId id : CriterionId.values()) {
            if (id.isIndispensable()) {
                assertThat(requirement(name, id).use()).as(id.word()).isEqualTo(Use.DECIDES);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("names")
    void never_claim_that_a_limit_of_a_licensed_standard_was_read(String name) {
        for (Requirement requirement : presets.get(name).requirements().values()) {
            if (requirement.source().document().matches("(EN|ISO|AS|AS/NZS) .*")) {
                assertThat(requirement.source().provenance())
                        .as(requirement.id().word())
                        .isIn(Provenance.SECONDARY, Provenance.FROM_MEMORY);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("names")
    void open_with_the_warning_that_nothing_is_quoted(String name) {
        assertThat(new String(Presets.bytes(name), StandardCharsets.UTF_8))
                .startsWith("# Criteria set of Steamwright.\n")
                .contains("is an editable default", "None is a quotation");
    }

    @ParameterizedTest(name = "{0}, {1} °C")
    @CsvSource({
        // name, °C, hold s, band K (0: none), provenance of the hold, source in the handbook
        "au-as5369,   134,  180, 0, FROM_MEMORY, section 15 row cycles; section 1 AU table M/H",
        "au-as5369,   132,  240, 0, FROM_MEMORY, section 15 row cycles; section 1 AU M/H",
        "au-as5369,   126,  600, 0, FROM_MEMORY, section 15 row cycles",
        "au-as5369,   121,  900, 0, FROM_MEMORY, section 15 row cycles",
        "uk-htm,      134,  180, 3, SECONDARY,   section 1 [S11] [S13]; W 3 section 15",
        "uk-htm,      126,  600, 3, SECONDARY,   section 1 [S11]; band M",
        "uk-htm,      121,  900, 3, SECONDARY,   section 1 [S11]; band M",
        "eu-en13060,  134,  180, 4, SECONDARY,   section 1 [S11]; W 4 from memory",
        "eu-en13060,  126,  600, 4, SECONDARY,   section 1 [S11]; W 4 from memory",
        "eu-en13060,  121,  900, 4, SECONDARY,   section 1 [S11]; W 4 from memory",
        "us-cdc,      132,  240, 0, SEEN,        section 1 [S12]",
        "us-cdc,      121, 1800, 0, SEEN,        section 1 [S12]",
        "us-cdc,      135,  180, 0, FROM_MEMORY, section 1 M/H",
        "de-dgkh,     134,  300, 4, SECONDARY,   section 1 [S11] quoting DGKH 2009",
        "de-dgkh,     121, 1200, 4, SECONDARY,   section 1 [S11] quoting DGKH 2009",
        "ch-practice, 134, 1080, 4, SECONDARY,   section 1 [S11]",
    })
    void hold_as_long_as_the_table_says(
            String name, double celsius, double seconds, double band, Provenance provenance, String why) {
        CycleLimits cycle = presets.get(name).findCycle(celsius).orElseThrow();
        assertThat(cycle.holdingTime().value()).as(why).isEqualTo(seconds);
        assertThat(cycle.holdingTime().toString()).isEqualTo("≥ " + (int) seconds + " s");
        assertThat(cycle.holdingTime().source().provenance()).as(why).isEqualTo(provenance);
        assertThat(cycle.bandWidth().map(Limit::value))
                .as(why)
                .isEqualTo(band == 0 ? Optional.empty() : Optional.of(band));
    }

    @ParameterizedTest(name = "{0}: {1} cycles")
    @CsvSource({"au-as5369, 4", "uk-htm, 3", "eu-en13060, 3", "us-cdc, 3", "de-dgkh, 2", "ch-practice, 1"})
    void have_no_further_cycles(String name, int cycles) {
        assertThat(presets.get(name).cycles()).hasSize(cycles);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        // name, criterion, use, limit, second limit, source in the handbook
        "au-as5369,   equilibration-time,      REPORTS, -,              -, section 15: report only",
        "uk-htm,      equilibration-time,      DECIDES, ≤ 15 s,         -, section 15; section 2 M/H",
        "eu-en13060,  equilibration-time,      DECIDES, ≤ 15 s,         -, section 15; section 2 M/M",
        "us-cdc,      equilibration-time,      OFF,     -,              -, section 15: off",
        "de-dgkh,     equilibration-time,      DECIDES, ≤ 15 s,         -, section 15",
        "ch-practice, equilibration-time,      DECIDES, ≤ 15 s,         -, section 15",
        "au-as5369,   temperature-spread,      ADVISES, ≤ 2 K,          -, section 15: 2 (advisory)",
        "uk-htm,      temperature-spread,      DECIDES, ≤ 2 K,          -, section 15",
        "eu-en13060,  temperature-spread,      DECIDES, ≤ 2 K,          -, section 15",
        "us-cdc,      temperature-spread,      OFF,     -,              -, section 15: off",
        "au-as5369,   temperature-fluctuation, OFF,     -,              -, section 15: off",
        "uk-htm,      temperature-fluctuation, DECIDES, ≤ 1 K,          -, section 15: ±1",
        "eu-en13060,  temperature-fluctuation, OFF,     -,              -, section 15: off",
        "au-as5369,   saturation-difference,   ADVISES, ≤ 2 K,          -, section 15: 2 advisory",
        "uk-htm,      saturation-difference,   DECIDES, ≤ 2 K,          -, section 15",
        "us-cdc,      saturation-difference,   OFF,     -,              -, section 15: off",
        "au-as5369,   leak-rate,               DECIDES, ≤ 0.13 kPa/min, -, section 15; section 6 [S36] [S37]",
        "uk-htm,      leak-rate,               DECIDES, ≤ 0.13 kPa/min, -, section 15; section 6 [S36] [S37]",
        "eu-en13060,  leak-rate,               DECIDES, ≤ 0.13 kPa/min, -, section 15; section 6 [S36] [S37]",
        "us-cdc,      leak-rate,               DECIDES, ≤ 0.133 kPa/min, -, section 15; section 6 AAMI M/H",
        "eu-en13060,  leak-start-pressure,     REPORTS, -,              -, section 6: small sterilisers M/M",
        "eu-en13060,  leak-settling,           ADVISES, ≤ 2 kPa,        -, section 6 M/M",
        "eu-en13060,  leak-period,             DECIDES, ≥ 590 s,        ≥ 300 s, section 6: 600 ± 10 s and 5 min [S37]",
        "au-as5369,   load-dryness,            DECIDES, ≤ 0.2 %,        ≤ 1 %, section 8 [S44]",
        "uk-htm,      load-dryness,            DECIDES, ≤ 0.2 %,        ≤ 1 %, section 8 [S44]",
        "us-cdc,      load-dryness,            OFF,     -,              -, section 15: visual",
        "au-as5369,   biological-indicators,   DECIDES, ≥ 3,            -, section 15: 3 per run [S33]",
        "uk-htm,      biological-indicators,   OFF,     -,              -, section 15: off",
        "eu-en13060,  biological-indicators,   REPORTS, -,              -, section 15: if needed",
        "us-cdc,      biological-indicators,   REPORTS, -,              -, section 15: weekly",
        "de-dgkh,     biological-indicators,   OFF,     -,              -, section 15: off",
        "uk-htm,      free-chamber-excess,     ADVISES, ≤ 2 K,          ≤ 5 K, section 2 M/H: 5 K in the first 60 s",
        "eu-en13060,  free-chamber-excess,     OFF,     -,              -, section 2: EN 285 and HTM only",
        "eu-en13060,  pressure-change-rate,    ADVISES, ≤ 1000.00 kPa/min, -, section 2 M/M",
        "eu-en13060,  sampling-interval,       DECIDES, ≤ 2.5 s,        -, section 9 M/M",
        "au-as5369,   highest-temperature,     REPORTS, -,              -, section 15: off or IFU",
        "us-cdc,      highest-temperature,     OFF,     -,              -, section 15: off",
        "uk-htm,      highest-temperature,     DECIDES, -,              -, W from the list of cycles",
        "au-as5369,   penetration-time,        REPORTS, -,              -, section 1 [S14]",
    })
    void ask_what_the_table_says(String name, String word, Use use, String limit, String second, String why) {
        Requirement requirement = requirement(name, CriterionId.find(word).orElseThrow());
        assertThat(requirement.use()).as(why).isEqualTo(use);
        assertThat(requirement.limit().map(Limit::toString).orElse("-")).as(why).isEqualTo(limit);
        assertThat(requirement.secondLimit().map(Limit::toString).orElse("-"))
                .as(why)
                .isEqualTo(second);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        // name, formula, theoretical temperature in band, rule of the holding time, months (0: not stated), section 15
        "au-as5369,   iapws-r7-97,   false, GUARDED, 12",
        "uk-htm,      short-formula, true,  SIMPLE,  12",
        "eu-en13060,  short-formula, true,  SIMPLE,  12",
        "us-cdc,      iapws-r7-97,   false, SIMPLE,  0",
        "de-dgkh,     short-formula, true,  GUARDED, 12",
        "ch-practice, short-formula, true,  GUARDED, 12",
    })
    void decide_as_the_table_says(String name, String formula, boolean isInBand, DecisionRule rule, int months) {
        CriteriaSet set = presets.get(name);
        assertThat(set.curve().id()).isEqualTo(formula);
        assertThat(set.isTheoreticalInBand()).isEqualTo(isInBand);
        assertThat(set.revalidation().orElse(0)).isEqualTo(months);
        assertThat(set.consecutiveRuns()).isEqualTo(3);
        for (Requirement requirement : set.requirements().values()) {
            assertThat(requirement.rule())
                    .as(requirement.id().word())
                    .isEqualTo(requirement.id() == CriterionId.MINIMUM_HOLDING_TIME ? rule : DecisionRule.SIMPLE);
        }
    }

    private Requirement requirement(String name, CriterionId id) {
        return Optional.ofNullable(presets.get(name).requirements().get(id)).orElseThrow();
    }
}
