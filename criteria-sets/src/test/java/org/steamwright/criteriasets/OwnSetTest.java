package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.steam.IapwsR797;

class OwnSetTest {

    private static final CriteriaSet WHOLE = Examples.read(Examples.WHOLE);
    private static final CriteriaSet BASED = Examples.read(Examples.BASED);
    private static final CriteriaSet BASE = new Presets().get("eu-en13060");

    @Test
    void a_whole_set_says_what_its_file_says() {
        assertThat(WHOLE.name()).isEqualTo("high-street");
        assertThat(WHOLE.version()).isEqualTo("7");
        assertThat(WHOLE.title()).isEqualTo("High Street clinic, own rules");
        assertThat(WHOLE.notes()).isEmpty();
        assertThat(WHOLE.curve()).isSameAs(IapwsR797.INSTANCE);
        assertThat(WHOLE.isTheoreticalInBand()).isTrue();
        assertThat(WHOLE.revalidation()).contains(6);
        assertThat(WHOLE.consecutiveRuns()).isEqualTo(2);
        assertThat(WHOLE.sha256()).isEqualTo(Presets.sha256(Examples.bytes(Examples.WHOLE)));
    }

    @Test
    void a_source_is_kept_word_by_word() {
        assertThat(limit(WHOLE, CriterionId.LEAK_RATE).source())
                .isEqualTo(new Source(
                        "Instructions for use", "", "", Provenance.USER, Confidence.HIGH, "stricter than usual"));
        assertThat(WHOLE.findCycle(134).orElseThrow().holdingTime().source().citation())
                .isEqualTo("Quality manual, 4.2");
    }

    @Test
    void what_a_whole_set_does_not_name_is_off() {
        assertThat(WHOLE.find(CriterionId.EQUILIBRATION_TIME)).isEmpty();
        assertThat(WHOLE.requirements()).doesNotContainKey(CriterionId.EQUILIBRATION_TIME);
    }

    @Test
    void an_entry_without_a_rule_follows_the_set() {
        assertThat(requirement(WHOLE, CriterionId.TEMPERATURE_SPREAD).rule()).isEqualTo(DecisionRule.SIMPLE);
        assertThat(requirement(WHOLE, CriterionId.MINIMUM_HOLDING_TIME).rule()).isEqualTo(DecisionRule.FOUR_WORDS);
    }

    @ParameterizedTest(name = "{0} is {2}")
    @CsvSource({
        "at-most: 0.8 mbar/min, leak-rate,          ≤ 0.08 kPa/min",
        "at-most: 0.8 mbar/min, load-dryness,       ≤ 0.2 %",
        "at-most: 1.5 K,        temperature-spread, ≤ 1.5 K",
        "at-most: 1 s,          sampling-interval,  ≤ 1 s",
        "at-least: 4,           biological-indicators, ≥ 4",
    })
    void limits_are_kept_in_the_unit_of_the_house(String piece, String word, String limit) {
        assertThat(Examples.WHOLE).contains(piece);
        assertThat(limit(WHOLE, CriterionId.find(word).orElseThrow()).toString())
                .isEqualTo(limit);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "1.3 mbar/min, 0.13, check value 98: 13 mbar in 10 min",
        "0.13 kPa/min, 0.13, the same",
        "0.13kPa/min,  0.13, a blank is not needed",
        "'1.30  mbar/min', 0.13, nor is a second one harmful",
        "+0.13 kPa/min, 0.13, nor a sign",
        "1 kPa/min,    1,    the largest that is held to be meant",
    })
    void a_rate_reads_the_same_in_either_unit(String written, double kilopascalPerMinute, String why) {
        CriteriaSet set = Examples.read(Examples.with("0.8 mbar/min", written));
        assertThat(limit(set, CriterionId.LEAK_RATE).value()).as(why).isEqualTo(kilopascalPerMinute);
    }

    @Test
    void minutes_become_seconds() {
        assertThat(WHOLE.findCycle(134).orElseThrow().holdingTime().value()).isEqualTo(210);
    }

    @Test
    void porous_loads_have_their_own_limit() {
        assertThat(requirement(WHOLE, CriterionId.LOAD_DRYNESS).secondLimit().map(Limit::value))
                .contains(0.9);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "'', -, -",
        "'at-most: 0.25 K', ≤ 0.25 K, -",
        "'pressure-at-most: 5 mbar', -, ≤ 0.5 kPa",
        "'at-most: 0.25 K, pressure-at-most: 0.5 kPa', ≤ 0.25 K, ≤ 0.5 kPa",
    })
    void a_set_that_asks_for_checks_may_say_how_far_an_instrument_may_be_off(
            String limits, String temperature, String pressure) {
        String entry = "  field-check-after: {use: decides, "
                + (limits.isEmpty() ? "" : limits + ", ")
                + "source: {document: Quality manual, provenance: user, confidence: high}}\n";
        CriteriaSet set = Examples.read(Examples.with("criteria:\n", "criteria:\n" + entry));
        Requirement asked = requirement(set, CriterionId.FIELD_CHECK_AFTER);
        assertThat(asked.limit().map(Limit::toString).orElse("-")).isEqualTo(temperature);
        assertThat(asked.secondLimit().map(Limit::toString).orElse("-")).isEqualTo(pressure);
    }

    @Test
    void a_based_set_replaces_single_entries_and_keeps_the_rest() {
        assertThat(limit(BASED, CriterionId.LEAK_RATE).value()).isEqualTo(0.08);
        assertThat(requirement(BASED, CriterionId.TEMPERATURE_SPREAD))
                .isEqualTo(requirement(BASE, CriterionId.TEMPERATURE_SPREAD));
        assertThat(BASED.curve()).isEqualTo(BASE.curve());
        assertThat(BASED.notes()).isEqualTo(BASE.notes());
        assertThat(BASED.revalidation()).isEqualTo(BASE.revalidation());
        assertThat(BASED.consecutiveRunsSource()).isEqualTo(BASE.consecutiveRunsSource());
        assertThat(BASED.name()).isEqualTo("mill-lane");
        assertThat(BASED.version()).isEqualTo("2026-03");
    }

    @Test
    void a_criterion_can_be_taken_out() {
        assertThat(BASE.find(CriterionId.PENETRATION_TIME)).isPresent();
        assertThat(BASED.find(CriterionId.PENETRATION_TIME)).isEmpty();
    }

    @Test
    void a_cycle_replaces_the_one_of_its_temperature_as_a_whole_and_new_ones_follow() {
        assertThat(BASED.cycles().stream().map(CriteriaSet.CycleLimits::sterilizingCelsius))
                .containsExactly(134.0, 126.0, 121.0, 115.0);
        assertThat(BASED.findCycle(134).orElseThrow().holdingTime().value()).isEqualTo(240);
        assertThat(BASED.findCycle(134).orElseThrow().bandWidth()).isEmpty();
        assertThat(BASED.findCycle(126)).isEqualTo(BASE.findCycle(126));
    }

    @Test
    void a_rule_for_the_whole_set_reaches_the_entries_of_the_base_that_name_none() {
        CriteriaSet guarded = Examples.read(
                Examples.BASED.replace("based-on: eu-en13060", "based-on: eu-en13060\ndecision-rule: guarded"));
        assertThat(requirement(guarded, CriterionId.TEMPERATURE_SPREAD).rule()).isEqualTo(DecisionRule.GUARDED);
    }

    @Test
    void a_rule_of_an_entry_of_the_base_stays() {
        CriteriaSet simple = Examples.read(
                Examples.BASED.replace("based-on: eu-en13060", "based-on: de-dgkh\ndecision-rule: simple"));
        assertThat(requirement(simple, CriterionId.MINIMUM_HOLDING_TIME).rule()).isEqualTo(DecisionRule.GUARDED);
    }

    /** As anybody can compute it: the bytes of the file, then the 64 digits of the base's hash. */
    @Test
    void the_hash_of_a_based_set_covers_the_base_too() {
        byte[] own = Examples.bytes(Examples.BASED);
        byte[] base = BASE.sha256().getBytes(StandardCharsets.US_ASCII);
        byte[] both = new byte[own.length + base.length];
        System.arraycopy(own, 0, both, 0, own.length);
        System.arraycopy(base, 0, both, own.length, base.length);
        assertThat(BASED.sha256()).isEqualTo(Presets.sha256(both)).isNotEqualTo(Presets.sha256(own));
    }

    /** @source FIPS 180-4, SHA-256 of 'abc' in the published examples (from memory) */
    @Test
    void the_hash_is_sha_256() {
        assertThat(Presets.sha256("abc".getBytes(StandardCharsets.US_ASCII)))
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assertThat(Presets.sha256("a".getBytes(StandardCharsets.US_ASCII), "bc".getBytes(StandardCharsets.US_ASCII)))
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    @Test
    void a_byte_order_mark_does_no_harm_but_belongs_to_the_hash() {
        CriteriaSet set = Examples.read("\uFEFF" + Examples.WHOLE);
        assertThat(set.name()).isEqualTo("high-street");
        assertThat(set.sha256()).isNotEqualTo(WHOLE.sha256());
    }

    @Test
    void one_source_can_be_named_by_many_entries() {
        String source = "{document: Quality manual, provenance: user, confidence: high}";
        String shared = Examples.WHOLE.replace(source, "*manual").replaceFirst("\\*manual", "&manual " + source);
        assertThat(Examples.read(shared).requirements()).isEqualTo(WHOLE.requirements());
    }

    @Test
    void an_entry_that_only_reports_may_keep_its_limit_for_reference() {
        CriteriaSet set =
                Examples.read(Examples.with("use: advises\n    at-most: 1.5 K", "use: reports\n    at-most: 1.5 K"));
        assertThat(requirement(set, CriterionId.TEMPERATURE_SPREAD).use()).isEqualTo(Use.REPORTS);
        assertThat(limit(set, CriterionId.TEMPERATURE_SPREAD).value()).isEqualTo(1.5);
    }

    private static Requirement requirement(CriteriaSet set, CriterionId id) {
        return Optional.ofNullable(set.requirements().get(id)).orElseThrow();
    }

    private static Limit limit(CriteriaSet set, CriterionId id) {
        return requirement(set, id).limit().orElseThrow();
    }
}
