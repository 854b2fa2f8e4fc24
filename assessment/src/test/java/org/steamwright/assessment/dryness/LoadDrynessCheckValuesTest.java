package org.steamwright.assessment.dryness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Source.Confidence;
import org.steamwright.assessment.criteria.Source.Provenance;
import org.steamwright.assessment.criteria.Unit;

/** Check values 99 to 101 and 209 of docs/check-values.md. */
class LoadDrynessCheckValuesTest {

    private static final Source SOURCE =
            new Source("load dryness after ISO 17665", "2024", "C.8", Provenance.SECONDARY, Confidence.HIGH, "[S44]");

    @ParameterizedTest(name = "{0}: {1} g to {2} g: {3} %")
    @CsvSource({
        "99,  8600.0, 8615.5, 0.180, 0.001, 0.2, true,  metal",
        "100, 8600.0, 8617.2, 0.200, 1e-9,  0.2, true,  the limit itself is good",
        "101, 1500,   1516,   1.067, 0.001, 1.0, false, porous",
    })
    void moisture_left_in_the_load(
            int row,
            double before,
            double after,
            double percent,
            double tolerance,
            double limitPercent,
            boolean met,
            String why) {
        LoadDryness dryness = new LoadDryness(before, after, 0);
        Limit limit = new Limit(Comparison.AT_MOST, limitPercent, Unit.PERCENT, SOURCE);
        assertThat(dryness.moisturePercent()).as("row %d, %s", row, why).isCloseTo(percent, within(tolerance));
        assertThat(limit.isMetBy(dryness.moisturePercent()))
                .as("row %d, %s", row, why)
                .isEqualTo(met);
    }

    @Test
    void a_balance_error_stays_a_tenth_of_the_limit_from_half_a_kilogram_up() {
        assertThat(LoadDryness.lightestLoadGram(0.1, 0.2, 0.1))
                .as("row 209, handbook section 8: 0.1 g against 0.2 % needs 500 g")
                .isCloseTo(500, within(1e-9));
        // two independent weighings of that load, 0.1 g each: √2 times a hundredth and a fiftieth of the limit
        assertThat(new LoadDryness(500, 501, 0.1).expandedUncertaintyPercent())
                .as("row 209")
                .isCloseTo(0.02 * Math.sqrt(2), within(0.0001));
    }
}
