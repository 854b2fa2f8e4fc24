package org.steamwright.visit.indication;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.visit.job.IndicationReading;

class IndicationCheckTest {

    /** Reference steady at 134.50 °C with U = 0.20 K (k = 2), then a ramp of 0.1 K/s from second 100. */
    static final CorrectedTrace TRACE = trace();

    @ParameterizedTest(name = "shown {0}, rule {1}: {2}")
    @CsvSource({
        "135.0, SIMPLE,  PASS,      half a kelvin high within one",
        "135.5, SIMPLE,  PASS,      the tolerance itself is good",
        "135.6, SIMPLE,  FAIL,      a tenth above it",
        "133.5, SIMPLE,  PASS,      the same downwards",
        "133.4, SIMPLE,  FAIL,      the same downwards",
        "135.2, GUARDED, PASS,      0.70 K and a doubt of 0.21 K stay inside",
        "135.4, GUARDED, UNDECIDED, 0.90 K and a doubt of 0.21 K do not",
        "135.6, GUARDED, FAIL,      outside as measured",
    })
    void the_difference_is_held_against_the_tolerance(double shown, DecisionRule rule, Outcome expected, String why) {
        IndicationCheck check = IndicationCheck.of(reading(shown, 50, rule), TRACE);
        assertThat(check.outcome()).as(why + ": " + check.sentence()).isEqualTo(expected);
    }

    @Test
    void the_doubt_is_made_of_reference_digit_and_moment() {
        IndicationCheck steady = IndicationCheck.of(reading(135.0, 50, DecisionRule.SIMPLE), TRACE);
        // by hand: u = sqrt(0.1² + (0.05/√3)²) = 0.104083, U = 0.208167
        double expanded = 0.208167;
        assertThat(steady.figure().orElseThrow().value()).isCloseTo(0.5, within(1e-9));
        assertThat(steady.figure().orElseThrow().high() - 0.5).isCloseTo(expanded, within(1e-6));
        assertThat(steady.sentence())
                .isEqualTo(
                        "Display showed 135.00 °C where the reference had 134.50 °C: +0.50 K, doubt ±0.21 K (k = 2); tolerance ±1 K.");
        IndicationCheck ramp = IndicationCheck.of(reading(137.0, 120, DecisionRule.SIMPLE), TRACE);
        // within 2 s either way and one sample before, the reference moved from 136.2 to 136.7: half of it is 0.25 K
        double ramped = 2 * Math.sqrt(0.01 + 0.05 * 0.05 / 3 + 0.25 * 0.25 / 3);
        assertThat(ramp.figure().orElseThrow().high()
                        - ramp.figure().orElseThrow().value())
                .isCloseTo(ramped, within(0.03));
    }

    @Test
    void outside_the_recording_it_is_invalid_and_never_a_pass() {
        assertThat(IndicationCheck.of(reading(134.5, 5000, DecisionRule.SIMPLE), TRACE)
                        .outcome())
                .isEqualTo(Outcome.INVALID);
        IndicationReading pressure = new IndicationReading(
                1, "display", Quantity.PRESSURE, 50, 304, 1, 5, "instructions for use", DecisionRule.SIMPLE, false);
        assertThat(IndicationCheck.of(pressure, TRACE).sentence())
                .isEqualTo("Display can't be checked: run 1 did not record the pressure of the chamber.");
    }

    @Test
    void a_tolerance_has_a_source() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new IndicationReading(
                        1, "display", Quantity.TEMPERATURE, 50, 134, 0.1, 1, " ", DecisionRule.SIMPLE, false))
                .withMessage("a tolerance without a source");
    }

    private static IndicationReading reading(double shown, double at, DecisionRule rule) {
        return new IndicationReading(
                4, "display", Quantity.TEMPERATURE, at, shown, 0.1, 1, "instructions for use", rule, false);
    }

    private static CorrectedTrace trace() {
        double[] values = new double[200];
        for (int i = 0; i < values.length; i++) {
            values[i] = 134.5 + Math.max(0, i - 100) * 0.1;
        }
        Channel channel = new Channel(
                "drain",
                ChannelRole.REFERENCE_POINT,
                Position.UNSTATED,
                Optional.empty(),
                Optional.<PressureReference>empty(),
                TimeAxis.regular(200, 1),
                new Column("drain", Quantity.TEMPERATURE, Optional.empty(), "°C", values, 0.01));
        Budget budget =
                new Budget("reference", "K", List.of(Contribution.expanded("certificate", 0.2, 2, "invented")), 2);
        Trace trace = new Trace(Optional.empty(), ZoneId.of("UTC"), List.of(channel), List.of(), List.of());
        return new CorrectedTrace(
                trace, List.of(new CorrectedChannel(channel, values, Optional.empty(), Optional.of(budget))));
    }
}
