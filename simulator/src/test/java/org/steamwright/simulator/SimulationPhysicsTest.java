package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.TestKind;

class SimulationPhysicsTest {

    static SimulatedRun perfect(CycleProgram program) {
        return Simulation.run(Scenario.loaded().withProgram(program).withInstrumentation(Instrumentation.PERFECT), 1);
    }

    @Test
    void the_plateau_is_saturated_steam() {
        SimulatedRun run = perfect(CycleProgram.b134().withRipple(new Ripple(Ripple.Shape.SINE, 0, 20)));
        Truth truth = run.truth();
        double from = truth.steamReachedSeconds().orElseThrow() + 20;
        for (double t = from; t < truth.exhaustSeconds().orElseThrow(); t += 5) {
            double air = truth.airShareAt(t);
            double boiling = IapwsR797.INSTANCE.celsiusAt(truth.kilopascalAt(t) * (1 - air));
            assertThat(truth.celsiusAt("T1", t)).as("at %s s", t).isCloseTo(boiling, within(0.005));
            assertThat(truth.celsiusAt("T1", t)).isCloseTo(134.75, within(0.005));
        }
    }

    @Test
    void readings_agree_with_the_pressure_within_noise_and_errors() {
        SimulatedRun run = Simulation.run(Scenario.loaded(), 7);
        double from = run.truth().steamReachedSeconds().orElseThrow() + 20;
        double to = run.truth().exhaustSeconds().orElseThrow() - 1;
        var channels = run.testRun().trace().channels();
        var reference = channels.get(0);
        var pressure = channels.get(channels.size() - 1);
        for (int i = reference.axis().indexAtOrAfter(from);
                i <= reference.axis().indexAtOrBefore(to);
                i++) {
            double boiling = IapwsR797.INSTANCE.celsiusAt(pressure.column().at(i));
            // 0.3 K of error, 0.05 K of drift, 0.1 K of noise; 1.2 kPa are 0.13 K; ripple and lag 0.1 K
            assertThat(reference.column().at(i)).isCloseTo(boiling, within(0.7));
        }
    }

    @ParameterizedTest(name = "{0} pulses")
    @CsvSource({"1", "2", "3", "5"})
    void every_pulse_thins_the_air_by_depth_over_height(int pulses) {
        SimulatedRun run = perfect(CycleProgram.b134().withVacuumPulses(pulses, 15, 150));
        Truth truth = run.truth();
        double reached = truth.steamReachedSeconds().orElseThrow();
        // by hand: the first evacuation leaves 15 kPa of what was nearly all air, each further one a tenth of it
        double expected = 15 * Math.pow(0.1, pulses - 1) * (101.1 - 1.5) / 101.1;
        double airKilopascal = truth.airShareAt(reached + 30) * truth.kilopascalAt(reached + 30);
        assertThat(airKilopascal).isCloseTo(expected, within(0.04 * expected));
        assertThat(truth.pulseBottomSeconds()).hasSize(pulses);
        for (double bottom : truth.pulseBottomSeconds()) {
            assertThat(truth.kilopascalAt(bottom)).isBetween(14.5, 15.0);
        }
    }

    @Test
    void pressure_falls_in_every_evacuation_and_in_the_exhaust_and_rises_in_between() {
        SimulatedRun run = perfect(CycleProgram.b134());
        Truth truth = run.truth();
        List<Double> bottoms = truth.pulseBottomSeconds();
        for (double bottom : bottoms) {
            assertMonotone(truth, bottom - 20, bottom, -1);
            assertMonotone(truth, bottom + 0.1, bottom + 15, 1);
        }
        double exhaust = truth.exhaustSeconds().orElseThrow();
        assertMonotone(truth, exhaust, exhaust + 20, -1);
        assertMonotone(truth, bottoms.get(2) + 0.1, truth.steamReachedSeconds().orElseThrow(), 1);
    }

    private static void assertMonotone(Truth truth, double from, double to, int sign) {
        for (double t = from + 0.1; t < to; t += 0.1) {
            assertThat(sign * (truth.kilopascalAt(t) - truth.kilopascalAt(t - 0.1)))
                    .as("at %s s", t)
                    .isGreaterThan(0);
        }
    }

    @Test
    void begins_and_ends_at_the_ambient_pressure() {
        SimulatedRun run = perfect(CycleProgram.b134());
        var pressure = run.testRun().trace().find(ChannelRole.PRESSURE).orElseThrow();
        assertThat(pressure.column().at(0)).isCloseTo(101.1, within(0.001));
        assertThat(pressure.column().at(pressure.column().size() - 1)).isCloseTo(101.1, within(0.001));
    }

    @Test
    void gravity_displacement_leaves_little_air_and_never_a_vacuum() {
        Truth truth = perfect(CycleProgram.n121()).truth();
        double reached = truth.steamReachedSeconds().orElseThrow();
        assertThat(truth.airShareAt(reached)).isLessThan(0.002);
        assertThat(truth.airShareAt(0)).isGreaterThan(0.95);
        for (double t = 0; t < reached + 1200; t += 1) {
            assertThat(truth.kilopascalAt(t)).isGreaterThan(101);
        }
    }

    @Test
    void conditioning_stands_at_121_before_134() {
        Truth plain = perfect(CycleProgram.b134()).truth();
        Truth conditioned =
                perfect(CycleProgram.b134().withConditioningSeconds(120)).truth();
        double reached = conditioned.steamReachedSeconds().orElseThrow();
        assertThat(conditioned.celsiusAt("T1", reached - 60)).isCloseTo(121.5, within(0.2));
        // 120 s longer, less the second in which the plain ramp climbs the half kelvin that conditioning stands at
        assertThat(reached - plain.steamReachedSeconds().orElseThrow()).isBetween(118.0, 121.0);
    }

    @Test
    void positive_pulses_stay_above_ambient_and_drive_air_out() {
        CycleProgram none = CycleProgram.s134().withPositivePulses(0);
        Truth without = perfect(none).truth();
        Truth with = perfect(none.withPositivePulses(3)).truth();
        assertThat(with.pulseBottomSeconds()).hasSize(1);
        double before = without.airShareAt(without.steamReachedSeconds().orElseThrow() + 10);
        double after = with.airShareAt(with.steamReachedSeconds().orElseThrow() + 10);
        // each from about 190 to 112 kPa
        assertThat(after / before).isCloseTo(Math.pow(112.0 / 190.0, 3), within(0.03));
    }

    /** A lag of first order stays behind a ramp by rate times time constant. */
    @Test
    void an_item_follows_a_ramp_late_by_its_time_constant() {
        List<MeasuringPoint> points = new ArrayList<>();
        points.add(MeasuringPoint.steam("T1", ChannelRole.REFERENCE_POINT, "A", "", "TL-01"));
        points.add(MeasuringPoint.item("T2", ChannelRole.LOAD, "B", "", "TL-02", 6));
        SimulatedRun run = Simulation.run(
                Scenario.loaded()
                        .withPoints(TestKind.LOADED, points)
                        .withProgram(CycleProgram.b134().withRates(0.25, 18, 15)),
                1);
        Truth truth = run.truth();
        double moment = truth.steamReachedSeconds().orElseThrow() - 8;
        assertThat(truth.celsiusAt("T1", moment) - truth.celsiusAt("T2", moment))
                .isCloseTo(0.25 * 6, within(0.03));
    }

    /** Check values 56 to 58 (Dalton): 304.199 kPa with 1, 5 and 10 % of air. */
    @ParameterizedTest(name = "{0} air: {1} °C")
    @CsvSource({"0.01, 133.66", "0.05, 132.25", "0.10, 130.43"})
    void residual_air_lowers_a_place_to_the_boiling_point_of_its_steam(double share, double celsius) {
        CycleProgram program = CycleProgram.b134()
                .withTemperature(132, 240)
                .withSetPointAbove(2)
                .withVacuumPulses(5, 5, 180)
                .withRipple(new Ripple(Ripple.Shape.SINE, 0, 20));
        SimulatedRun run = Simulation.run(
                Scenario.loaded()
                        .withProgram(program)
                        .withFaults(new Fault.ResidualAir("T5", new MeasuringPoint.Air(0.3, share, 10))),
                1);
        double moment = run.truth().exhaustSeconds().orElseThrow() - 1;
        assertThat(run.truth().celsiusAt("T5", moment)).isCloseTo(celsius, within(0.02));
        assertThat(run.truth().celsiusAt("T1", moment)).isCloseTo(134.0, within(0.005));
        assertThat(run.truth().lastingAirShare("T5")).isEqualTo(share);
    }

    @ParameterizedTest(name = "leak of {0} kPa/min")
    @CsvSource({"0.00", "0.05", "0.13", "0.80"})
    void the_pressure_rises_by_the_planted_leak(double rate) {
        Scenario scenario = Scenario.leakTest(rate)
                .withProgram(LeakProgram.ofRate(rate).withWater(0, 45))
                .withInstrumentation(Instrumentation.PERFECT);
        SimulatedRun run = Simulation.run(scenario, 1);
        var periods = run.testRun().leakPeriods().orElseThrow();
        var pressure = run.testRun().trace().find(ChannelRole.PRESSURE).orElseThrow();
        double settled = pressure.column().at(pressure.axis().indexAtOrAfter(periods.settledSeconds()));
        double end = pressure.column().at(pressure.axis().indexAtOrAfter(periods.endSeconds()));
        assertThat((end - settled) / 10).isCloseTo(rate, within(0.0002));
        assertThat(run.truth().leakKilopascalPerMinute()).contains(rate);
        assertThat(run.truth().riseKilopascalPerMinute().orElseThrow()).isCloseTo(rate, within(0.0002));
    }

    /** Check value 97: 40 mbar at 60 °C that cool by 10 K lose 1.20 mbar. */
    @Test
    void a_cooling_chamber_hides_a_leak() {
        LeakProgram program =
                LeakProgram.ofRate(0).withWater(0, 45).withPeriods(4, 0.1, 600).withTemperature(60, -1);
        Scenario scenario = Scenario.leakTest(0).withProgram(program).withInstrumentation(Instrumentation.PERFECT);
        Truth truth = Simulation.run(scenario, 1).truth();
        assertThat(10 * truth.riseKilopascalPerMinute().orElseThrow()).isCloseTo(-0.120, within(0.001));
    }

    @Test
    void water_evaporates_while_settling_and_hardly_later() {
        LeakProgram program = LeakProgram.ofRate(0).withWater(2.5, 45);
        Scenario scenario = Scenario.leakTest(0).withProgram(program).withInstrumentation(Instrumentation.PERFECT);
        Truth truth = Simulation.run(scenario, 1).truth();
        double isolated = truth.isolatedSeconds().orElseThrow();
        assertThat(truth.kilopascalAt(isolated + 300) - truth.kilopascalAt(isolated))
                .isCloseTo(2.5, within(0.01));
        assertThat(truth.riseKilopascalPerMinute().orElseThrow()).isLessThan(0.001);
    }
}
