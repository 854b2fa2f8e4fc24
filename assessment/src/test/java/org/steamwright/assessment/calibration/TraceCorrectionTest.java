package org.steamwright.assessment.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.CorrectedSamples;
import org.steamwright.assessment.SyntheticRun;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.verdict.TestRun;

class TraceCorrectionTest {

    static CorrectedTrace correct(SyntheticRun synthetic) {
        TestRun run = synthetic.build();
        return new TraceCorrection(run.instruments(), SyntheticRun.AMBIENT, 0.1, IapwsR797.INSTANCE)
                .correct(run.trace(), 134, 304.2);
    }

    @Test
    void the_budget_names_every_source_of_doubt() {
        ReferenceInstrument exact = SyntheticRun.instrument("L", Quantity.TEMPERATURE, 0.2, 100, 140);
        ReferenceInstrument sloped = new ReferenceInstrument(
                "L",
                "invented",
                Quantity.TEMPERATURE,
                0,
                200,
                Optional.of(new CalibrationCertificate(
                        "C-2",
                        "invented",
                        exact.certificate().orElseThrow().calibratedOn(),
                        exact.certificate().orElseThrow().dueOn(),
                        List.of(new CalibrationPoint(100, 100, 0.1, 2), new CalibrationPoint(140, 140.2, 0.2, 2)))),
                List.of(Contribution.rectangular("drift", 0.15, "declared")));
        CorrectedTrace corrected =
                correct(SyntheticRun.good().instrument("L", sloped).resolution(0.1));
        CorrectedChannel channel = corrected.channels().get(1);
        assertThat(channel.budget().orElseThrow().contributions())
                .extracting(Contribution::name)
                .containsExactly(
                        "calibration of the instrument",
                        "straight line between calibration points",
                        "resolution of the recording",
                        "drift");
        // u: 0.2/2, 0.1/√3, 0.05/√3, 0.15/√3
        double combined = Math.sqrt(0.01 + (0.01 + 0.0025 + 0.0225) / 3);
        assertThat(channel.expanded().value()).isCloseTo(2 * combined, within(1e-12));
        assertThat(channel.expanded().coverageFactor()).isEqualTo(2);
    }

    @Test
    void a_gauge_channel_carries_the_doubt_of_the_barometer() {
        CorrectedTrace corrected = correct(SyntheticRun.good()
                .gauge()
                .instrument("P", SyntheticRun.instrument("P", Quantity.PRESSURE, 0.5, -110, 0, 300)));
        assertThat(corrected.pressure().orElseThrow().budget().orElseThrow().contributions())
                .extracting(Contribution::name)
                .containsExactly("calibration of the instrument", "ambient pressure added to the gauge reading");
        assertThat(corrected.pressure().orElseThrow().at(0)).isEqualTo(2 * SyntheticRun.AMBIENT);
    }

    @Test
    void the_theoretical_temperature_takes_its_doubt_from_the_slope_of_the_boiling_line() {
        CorrectedTrace corrected = correct(SyntheticRun.good());
        CorrectedChannel theoretical = corrected.find(ChannelRole.THEORETICAL).orElseThrow();
        assertThat(theoretical.expanded().value())
                .as("0.5 kPa at 8.896 kPa/K (handbook 3.3)")
                .isCloseTo(0.5 / 8.896, within(1e-4));
        assertThat(theoretical.at(SyntheticRun.REACHED)).isCloseTo(SyntheticRun.PLATEAU, within(1e-6));
        assertThat(corrected.channels().get(corrected.channels().size() - 1)).isSameAs(theoretical);
    }

    @Test
    void without_a_certificate_nothing_is_corrected_and_nothing_is_known_about_doubt() {
        CorrectedTrace corrected = correct(SyntheticRun.good().withoutInstrument("L"));
        CorrectedChannel channel = corrected.channels().get(1);
        assertThat(channel.budget()).isEmpty();
        assertThat(channel.expanded().value()).isZero();
        assertThat(channel.at(500)).isEqualTo(SyntheticRun.PLATEAU);
    }

    @Test
    void values_between_samples_are_drawn_straight_and_never_across_a_gap() {
        CorrectedChannel channel = CorrectedSamples.of(
                "T", ChannelRole.LOAD, TimeAxis.ofSeconds(0, 1, 2, 6, 7), 10, 20, Double.NaN, 60, 70);
        assertThat(channel.valueAt(0)).isEqualTo(10);
        assertThat(channel.valueAt(0.25)).isEqualTo(12.5);
        assertThat(channel.valueAt(1)).isEqualTo(20);
        assertThat(channel.valueAt(1.5)).as("beside a missing value").isNaN();
        assertThat(channel.valueAt(4)).as("inside a gap").isNaN();
        assertThat(channel.valueAt(6)).isEqualTo(60);
        assertThat(channel.valueAt(-0.5)).as("before the recording").isNaN();
        assertThat(channel.valueAt(7.5)).as("after the recording").isNaN();
        assertThat(channel.shifted(-1).at(0)).isEqualTo(9);
        assertThat(channel.interval()).isEqualTo(1);
    }

    @Test
    void as_many_values_as_samples() {
        CorrectedChannel channel = CorrectedSamples.of("T", ChannelRole.LOAD, TimeAxis.regular(2, 1), 1, 2);
        assertThatThrownBy(() ->
                        new CorrectedChannel(channel.channel(), new double[3], Optional.empty(), Optional.empty()))
                .hasMessage("channel T: corrected values differ in number");
        assertThat(channel.toArray()).containsExactly(1, 2);
    }

    @Test
    void an_instrument_has_an_id_and_a_range() {
        assertThatThrownBy(
                        () -> new ReferenceInstrument(" ", "", Quantity.TEMPERATURE, 0, 1, Optional.empty(), List.of()))
                .hasMessage("an instrument needs an id");
        assertThatThrownBy(
                        () -> new ReferenceInstrument("A", "", Quantity.TEMPERATURE, 1, 1, Optional.empty(), List.of()))
                .hasMessage("instrument A: range from 1.0 to 1.0");
    }
}
