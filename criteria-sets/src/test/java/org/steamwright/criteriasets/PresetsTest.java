package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.criteria.CriteriaSet;

class PresetsTest {

    @ParameterizedTest
    @ValueSource(strings = {"au-as5369", "uk-htm", "eu-en13060", "us-cdc", "de-dgkh", "ch-practice"})
    void every_preset_loads(String name) {
        CriteriaSet set = new Presets().get(name);
        assertThat(set.name()).isEqualTo(name);
        assertThat(set.cycles()).isNotEmpty();
    }
}
