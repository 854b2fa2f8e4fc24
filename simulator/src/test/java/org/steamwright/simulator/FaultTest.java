package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;

/** Every planted fault is really in the data, at the size it claims. */
class FaultTest {
    private static final double W = 4;

    static SimulatedRun loadedWith(Fault fault) {
        return Simulation.run(Scenario.loaded().withFaults(fault), 17);
    }

    static Channel channel(SimulatedRun run, String name) {
        return run.testRun().trace().channels().stream()
                .filter(channel -> channel.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    static double reached(SimulatedRun run) {
        return run.truth().steamReachedSeconds().orElseThrow();
    }

    static double hold(SimulatedRun run) {
        return run.truth().physicalPlateau(W).holdingSeconds();
    }

    @Test
    void a_short_hold_ends_before_the_declared_time() {
        assertThat(hold(loadedWith(new Fault.ShortHold(20)))).isLessThan(162);
        assertThat(hold(Simulation.run(Scenario.loaded(), 17))).isGreaterThan(200);
    }

    @Test
    void a_dip_breaks_the_hold_of_one_point() {
        SimulatedRun run = loadedWith(new Fault.Dip("T3", 1.5, 8, 100));
        assertThat(run.truth().celsiusAt("T3", reached(run) + 104)).isCloseTo(132.5, within(0.01));
        assertThat(run.truth().celsiusAt("T3", reached(run) + 98)).isGreaterThan(134.5);
        assertThat(run.truth().celsiusAt("T1", reached(run) + 104)).isGreaterThan(134.5);
        assertThat(hold(run)).isLessThan(110);
    }

    @Test
    void an_overshoot_leaves_the_band_at_the_top() {
        SimulatedRun run = loadedWith(new Fault.Overshoot(6, 30, 10));
        double highest = 0;
        for (double t = reached(run); t < reached(run) + 60; t += 0.1) {
            highest = Math.max(highest, run.truth().celsiusAt("T1", t));
        }
        assertThat(highest).isBetween(139.3, 140.1);
    }

    @Test
    void a_slow_pack_comes_late() {
        SimulatedRun run = loadedWith(new Fault.SlowPack("T5", 30));
        PlateauTruth truth = run.truth().physicalPlateau(W);
        assertThat(truth.penetrationSeconds("T5").orElseThrow()).isGreaterThan(45);
        assertThat(truth.penetrationSeconds("T3").orElseThrow()).isLessThan(10);
        assertThat(truth.equilibrationSeconds()).isEqualTo(truth.penetrationSeconds("T5"));
    }

    @Test
    void residual_air_makes_a_place_late_and_cold() {
        SimulatedRun run = loadedWith(new Fault.ResidualAir("T5", new MeasuringPoint.Air(0.2, 0.1, 30)));
        assertThat(run.truth().celsiusAt("T5", reached(run) + 10)).isLessThan(130);
        // Dalton: 10 % of air at 134.75 °C
        double total = IapwsR797.INSTANCE.kilopascalAt(134.75);
        assertThat(run.truth().celsiusAt("T5", reached(run) + 210))
                .isCloseTo(IapwsR797.INSTANCE.celsiusAt(0.9 * total), within(0.15));
        assertThat(hold(run)).isZero();
    }

    @Test
    void a_cold_place_stays_below_the_steam() {
        SimulatedRun run = loadedWith(new Fault.ColdPlace("T4", 2.5));
        assertThat(run.truth().celsiusAt("T4", reached(run) + 100) - run.truth().celsiusAt("T1", reached(run) + 100))
                .isCloseTo(-2.5, within(0.1));
    }

    @Test
    void an_uneven_chamber_is_inside_the_band_and_wider_than_two_kelvin() {
        SimulatedRun run = loadedWith(new Fault.UnevenChamber("T4", 2.6, 3.2));
        assertThat(hold(run)).isGreaterThan(180);
        assertThat(run.truth().celsiusAt("T1", reached(run) + 100) - run.truth().celsiusAt("T4", reached(run) + 100))
                .isCloseTo(2.6, within(0.1));
    }

    @Test
    void superheated_steam_is_hotter_than_its_pressure_allows() {
        SimulatedRun run = loadedWith(new Fault.Superheat(4));
        double moment = reached(run) + 60;
        double boiling = IapwsR797.INSTANCE.celsiusAt(run.truth().kilopascalAt(moment));
        assertThat(run.truth().celsiusAt("T1", moment) - boiling).isCloseTo(4, within(0.15));
        assertThat(hold(run)).isGreaterThan(200);
    }

    @Test
    void a_pressure_error_grows_with_pressure_and_is_unknown_to_the_certificate() {
        SimulatedRun run = loadedWith(new Fault.PressureError(4));
        Channel pressure = channel(run, "P");
        double shown = pressure.column().at(pressure.axis().indexAtOrAfter(reached(run) + 60));
        assertThat(IapwsR797.INSTANCE.celsiusAt(shown)).isCloseTo(134.75 + 4, within(0.25));
        assertThat(pressure.column().at(2)).isCloseTo(101.1, within(1.5));
        var certificate = run.testRun().instruments().get("PL-01").certificate().orElseThrow();
        assertThat(certificate.points()).allMatch(point -> Math.abs(point.correction()) < 1);
    }

    @Test
    void gauge_declared_absolute_begins_at_zero_and_the_file_is_silent() {
        SimulatedRun run = loadedWith(new Fault.GaugeDeclaredAbsolute());
        Channel pressure = channel(run, "P");
        assertThat(pressure.column().at(2)).isCloseTo(0, within(1.5));
        assertThat(pressure.reference()).contains(PressureReference.ABSOLUTE);
        assertThat(pressure.column().reference()).isEmpty();
        assertThat(run.files().get(0).text()).contains("P [kPa]\n");
    }

    @Test
    void absolute_declared_gauge_begins_at_ambient() {
        SimulatedRun run = loadedWith(new Fault.AbsoluteDeclaredGauge());
        Channel pressure = channel(run, "P");
        assertThat(pressure.column().at(2)).isCloseTo(101.1, within(1.5));
        assertThat(pressure.reference()).contains(PressureReference.GAUGE);
    }

    @Test
    void a_wrong_barometer_shifts_the_theoretical_temperature() {
        SimulatedRun run = loadedWith(new Fault.WrongBarometer(65));
        double declared = run.testRun().ambient().pressure().kilopascal();
        Channel pressure = channel(run, "P");
        double shown = pressure.column().at(pressure.axis().indexAtOrAfter(reached(run) + 60)) + declared;
        assertThat(IapwsR797.INSTANCE.celsiusAt(shown) - 134.75).isGreaterThan(2.5);
        assertThat(pressure.column().at(2)).isCloseTo(0, within(1.5));
    }

    @Test
    void an_expired_certificate_is_not_valid_on_the_day() {
        SimulatedRun run = loadedWith(new Fault.ExpiredCertificate("T2", 1));
        var trace = run.testRun().trace();
        var expired = run.testRun().instruments().get("TL-02").certificate().orElseThrow();
        var good = run.testRun().instruments().get("TL-03").certificate().orElseThrow();
        assertThat(expired.isValidAt(trace.start().orElseThrow(), trace.zone())).isFalse();
        assertThat(expired.dueOn()).isEqualTo("2026-03-01");
        assertThat(good.isValidAt(trace.start().orElseThrow(), trace.zone())).isTrue();
    }

    @Test
    void a_narrow_certificate_ends_below_the_plateau() {
        SimulatedRun run = loadedWith(new Fault.NarrowCertificate("T2"));
        assertThat(run.testRun()
                        .instruments()
                        .get("TL-02")
                        .certificate()
                        .orElseThrow()
                        .highest())
                .isLessThan(131);
    }

    @Test
    void a_stuck_sensor_shows_one_value_to_the_end() {
        Channel stuck = channel(loadedWith(new Fault.StuckSensor("T3", 30)), "T3");
        double[] values = stuck.column().toArray();
        double last = values[values.length - 1];
        assertThat(last).isGreaterThan(134);
        assertThat(Arrays.stream(values).filter(value -> value == last).count()).isGreaterThan(600);
    }

    @Test
    void an_open_circuit_leaves_cells_empty() {
        SimulatedRun run = loadedWith(new Fault.OpenCircuit("T3", 50, 20));
        assertThat(DoubleStream.of(channel(run, "T3").column().toArray())
                        .filter(Double::isNaN)
                        .count())
                .isBetween(19L, 21L);
        assertThat(run.files().get(0).text()).contains(",,");
        assertThat(run.truth().indicatedPlateau(W, Optional.empty()).holdingSeconds())
                .isLessThan(150);
        assertThat(hold(run)).isGreaterThan(200);
    }

    @Test
    void the_end_of_a_range_cuts_the_readings_flat() {
        SimulatedRun run = loadedWith(new Fault.RangeEnd("T2", 134.2));
        assertThat(DoubleStream.of(channel(run, "T2").column().toArray()).max().orElseThrow())
                .isEqualTo(134.2);
        assertThat(run.testRun().instruments().get("TL-02").rangeHigh()).isEqualTo(134.2);
    }

    @Test
    void missing_samples_leave_a_gap() {
        SimulatedRun run = loadedWith(new Fault.MissingSamples(80, 30));
        assertThat(channel(run, "T1").axis().gaps())
                .singleElement()
                .satisfies(gap -> assertThat(gap.seconds()).isBetween(29.0, 32.0));
        assertThat(run.truth().indicatedPlateau(W, Optional.empty()).holdingSeconds())
                .isLessThan(150);
        assertThat(hold(run)).isGreaterThan(200);
    }

    @Test
    void a_recording_can_end_in_the_hold_or_start_late() {
        SimulatedRun ends = loadedWith(new Fault.EndsInHold(90));
        assertThat(channel(ends, "T1").axis().last()).isCloseTo(reached(ends) + 90, within(1.0));
        SimulatedRun starts = loadedWith(new Fault.StartsLate(-10));
        assertThat(channel(starts, "T1").axis().first()).isZero();
        assertThat(reached(starts)).isCloseTo(10, within(1.0));
        assertThat(starts.truth().pulseBottomSeconds()).allMatch(moment -> moment < 0);
    }

    @Test
    void coarse_sampling_has_its_interval() {
        assertThat(channel(loadedWith(new Fault.CoarseSampling(15)), "T1")
                        .axis()
                        .interval())
                .isEqualTo(15);
    }

    @Test
    void pulses_are_left_out_or_shallow_while_the_declaration_stays() {
        SimulatedRun missing = loadedWith(new Fault.MissingPulses(1));
        assertThat(missing.truth().pulseBottomSeconds()).hasSize(2);
        assertThat(missing.testRun().cycle().airRemovalPulses()).hasValue(3);
        SimulatedRun shallow = loadedWith(new Fault.ShallowPulse(2, 60));
        List<Double> bottoms = shallow.truth().pulseBottomSeconds();
        assertThat(shallow.truth().kilopascalAt(bottoms.get(1))).isCloseTo(60, within(1.0));
        assertThat(shallow.truth().kilopascalAt(bottoms.get(2))).isCloseTo(15, within(1.0));
        assertThat(shallow.testRun().cycle().pulseDepth().orElseThrow()).isEqualTo(19);
    }

    @Test
    void a_short_drying_is_short_of_the_declared_one() {
        SimulatedRun run = loadedWith(new Fault.ShortDrying(40));
        Channel pressure = channel(run, "P");
        double exhaust = run.truth().exhaustSeconds().orElseThrow();
        double[] values = pressure.column().toArray();
        long under = 0;
        for (int i = pressure.axis().indexAtOrAfter(exhaust); i < values.length; i++) {
            under += values[i] < 50 ? 1 : 0;
        }
        assertThat(under).isLessThan(60);
        assertThat(run.testRun().cycle().dryingTime().orElseThrow().toSeconds()).isEqualTo(270);
    }

    @Test
    void a_fast_clock_moves_one_channel() {
        SimulatedRun run = loadedWith(new Fault.ClockOffset("T5", 100));
        assertThat(run.truth().indicatedPlateau(W, Optional.empty()).holdingSeconds())
                .isGreaterThan(200);
        Channel late = channel(run, "T5");
        double atPlateau = late.column().at(late.axis().indexAtOrAfter(reached(run) + 50));
        assertThat(atPlateau).isLessThan(130);
    }

    @Test
    void an_unstable_plateau_swings_by_its_amplitude() {
        SimulatedRun run = loadedWith(new Fault.UnstablePlateau(1.5, 40, 1.75));
        double lowest = 200;
        double highest = 0;
        for (double t = reached(run) + 20; t < reached(run) + 200; t += 0.1) {
            lowest = Math.min(lowest, run.truth().celsiusAt("T1", t));
            highest = Math.max(highest, run.truth().celsiusAt("T1", t));
        }
        assertThat(highest - lowest).isCloseTo(3.0, within(0.05));
        assertThat(lowest).isGreaterThan(134);
    }

    @Test
    void a_fast_exhaust_changes_pressure_by_more_than_1000_kilopascal_a_minute() {
        SimulatedRun run = loadedWith(new Fault.FastExhaust(3));
        double exhaust = run.truth().exhaustSeconds().orElseThrow();
        assertThat(60 * (run.truth().kilopascalAt(exhaust) - run.truth().kilopascalAt(exhaust + 1)))
                .isGreaterThan(2500);
    }

    @Test
    void a_leak_is_the_planted_one() {
        SimulatedRun run = Simulation.run(Scenario.leakTest(0).withFaults(new Fault.Leak(0.4)), 1);
        assertThat(run.truth().leakKilopascalPerMinute()).contains(0.4);
        assertThat(run.truth().riseKilopascalPerMinute().orElseThrow()).isCloseTo(0.4, within(0.002));
        assertThat(channel(run, "P").role()).isEqualTo(ChannelRole.PRESSURE);
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void every_kind_can_be_drawn_and_names_its_criteria(Class<? extends Fault> kind) {
        for (long seed = 0; seed < 5; seed++) {
            Scenario scenario = Scenarios.randomFaulty(seed, kind);
            assertThat(scenario.faults()).singleElement().isInstanceOf(kind);
            assertThat(scenario.faults().get(0).expected()).isNotEmpty();
            assertThat(Simulation.run(scenario, seed).testRun().trace().isSimulated())
                    .isTrue();
        }
    }

    static List<Class<? extends Fault>> kinds() {
        return Scenarios.KINDS;
    }

    @Test
    void every_kind_of_fault_is_drawn_from() {
        assertThat(Scenarios.KINDS.stream().map(Class::getName).toList())
                .containsExactlyInAnyOrderElementsOf(Arrays.stream(Fault.class.getPermittedSubclasses())
                        .map(Class::getName)
                        .toList());
        assertThat(Scenarios.randomFaulty(4)).isEqualTo(Scenarios.randomFaulty(4));
    }
}
