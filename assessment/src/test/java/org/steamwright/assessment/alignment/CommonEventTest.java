package org.steamwright.assessment.alignment;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.alignment.EventSignal.Kind;
import org.steamwright.assessment.trace.TimeAxis;

class CommonEventTest {

    /** A pressure by straight lines between moments and values, every second. */
    static EventSignal pressure(String name, double stampedLater, double... momentsAndValues) {
        int last = (int) momentsAndValues[momentsAndValues.length - 2];
        double[] values = new double[last + 1];
        for (int i = 0; i <= last; i++) {
            int k = 0;
            while (momentsAndValues[k + 2] < i) {
                k += 2;
            }
            double share = (i - momentsAndValues[k]) / (momentsAndValues[k + 2] - momentsAndValues[k]);
            values[i] = momentsAndValues[k + 1] + share * (momentsAndValues[k + 3] - momentsAndValues[k + 1]);
        }
        return new EventSignal(
                name, Kind.PRESSURE, TimeAxis.regular(last + 1, 1).shifted(stampedLater), values, 304);
    }

    static EventSignal threeEvacuations(String name, double stampedLater) {
        return pressure(
                name, stampedLater, 0, 101, 40, 101, 90, 12, 130, 180, 190, 12, 235, 180, 300, 12, 380, 310, 600, 310);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-600, -41, -3.4, 0, 0.5, 41, 600})
    void evacuations_that_both_saw_tell_the_offset(double fast) {
        CommonEvent event =
                CommonEvent.find(List.of(threeEvacuations("P", 0)), List.of(threeEvacuations("P2", fast)), "K. Sample");
        ClockOffset offset = event.offset().orElseThrow();
        assertThat(offset.secondsAtStart()).isCloseTo(-fast, within(offset.halfWidth()));
        assertThat(offset.halfWidth()).as("one second of sampling and 0.3 s").isCloseTo(1.3, within(1e-9));
        assertThat(offset.author()).isEqualTo("K. Sample");
        assertThat(offset.words()).contains("pressure P2", "5 moments");
    }

    @Test
    void the_heating_to_the_plateau_never_enters() {
        // the second recording differs from the first in its last heating only, which is 60 s later
        EventSignal late = pressure(
                "P2", 0, 0, 101, 40, 101, 90, 12, 130, 180, 190, 12, 235, 180, 300, 12, 360, 14, 440, 310, 600, 310);
        CommonEvent event = CommonEvent.find(List.of(threeEvacuations("P", 0)), List.of(late), "");
        assertThat(event.offset().orElseThrow().secondsAtStart())
                .as("the delay of 60 s stays")
                .isZero();
    }

    @Test
    void a_sensor_in_the_load_is_no_witness() {
        CommonEvent event = CommonEvent.find(List.of(threeEvacuations("P", 0)), List.of(), "");
        assertThat(event.offset()).isEmpty();
        assertThat(event.reason()).contains("may not be taken away");
    }

    @Test
    void evacuations_as_like_as_eggs_are_refused() {
        EventSignal many = pressure(
                "P", 0, 0, 101, 10, 101, 20, 12, 30, 180, 40, 12, 50, 180, 60, 12, 70, 180, 80, 12, 90, 180, 100, 12,
                110, 180, 120, 12, 200, 310, 400, 310);
        // began late: the first evacuation was not seen, and nothing tells the second from the first
        EventSignal lateStart = pressure(
                "P2", 0, 0, 140, 5, 100, 10, 12, 20, 180, 30, 12, 40, 180, 50, 12, 60, 180, 70, 12, 80, 180, 90, 12,
                170, 310, 400, 310);
        CommonEvent event = CommonEvent.find(List.of(many), List.of(lateStart), "");
        assertThat(event.offset()).isEmpty();
        assertThat(event.reason()).contains("resemble one another");
    }

    @Test
    void a_cycle_without_evacuations_gives_no_event() {
        EventSignal none = pressure("P", 0, 0, 101, 200, 103, 300, 310, 600, 310);
        CommonEvent event = CommonEvent.find(List.of(none), List.of(none), "");
        assertThat(event.offset()).isEmpty();
        assertThat(event.reason()).contains("only 0 turning moments");
    }

    @Test
    void turns_that_do_not_agree_are_refused() {
        EventSignal other =
                pressure("P2", 0, 0, 101, 40, 101, 120, 12, 150, 180, 160, 12, 290, 180, 300, 12, 380, 310, 600, 310);
        CommonEvent event = CommonEvent.find(List.of(threeEvacuations("P", 0)), List.of(other), "");
        assertThat(event.offset()).isEmpty();
        assertThat(event.reason()).contains("agree in");
    }
}
