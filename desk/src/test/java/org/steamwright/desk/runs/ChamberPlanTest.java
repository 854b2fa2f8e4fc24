package org.steamwright.desk.runs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.visit.register.ChamberSize;

class ChamberPlanTest {

    private static ReadFile.ColumnRow sensor(String letter, String place) {
        return new ReadFile.ColumnRow(
                "T-" + letter, "°C", false, false, "20", "135", 0, "free-chamber", letter, place, "", "");
    }

    private static ChamberPlan plan(ReadFile.ColumnRow... sensors) {
        return plan("", 0, sensors);
    }

    private static ChamberPlan plan(String size, int trays, ReadFile.ColumnRow... sensors) {
        return plan(size, trays, List.of(), sensors);
    }

    private static ChamberPlan plan(
            String size, int trays, List<ChamberPlan.Laid> laid, ReadFile.ColumnRow... sensors) {
        ReadFile file = new ReadFile(
                "a.csv",
                1,
                "",
                "",
                List.of(),
                List.of(),
                "",
                3,
                "1",
                "1",
                0,
                List.of(sensors),
                List.of(),
                List.of(),
                Map.of());
        return ChamberPlan.of(
                List.of(file),
                Optional.empty(),
                ChamberSize.find(size),
                trays == 0 ? OptionalInt.empty() : OptionalInt.of(trays),
                laid);
    }

    private static ChamberPlan.View view(ChamberPlan plan, String key) {
        return plan.views().stream()
                .filter(view -> view.key().equals(key))
                .findFirst()
                .orElseThrow();
    }

    private static double x(ChamberPlan plan, String key, int sensor) {
        return Double.parseDouble(view(plan, key).marks().get(sensor).x());
    }

    private static double y(ChamberPlan plan, String key, int sensor) {
        return Double.parseDouble(view(plan, key).marks().get(sensor).y());
    }

    @Test
    void a_sensor_stands_where_its_words_say() {
        ChamberPlan plan = plan(sensor("A", "front, left, top"), sensor("B", "rear, right, bottom"));
        assertThat(x(plan, "above", 0)).as("the door is at the left").isLessThan(x(plan, "above", 1));
        assertThat(y(plan, "above", 0)).isLessThan(y(plan, "above", 1));
        assertThat(y(plan, "side", 0)).isLessThan(y(plan, "side", 1));
        assertThat(x(plan, "door", 0)).isLessThan(x(plan, "door", 1));
        assertThat(y(plan, "door", 0)).isLessThan(y(plan, "door", 1));
    }

    @Test
    void the_drawing_has_the_proportions_of_the_stated_sides() {
        // the margins around each view are 8 units, by hand: 220 units are 400 mm
        ChamberPlan plan = plan("280 x 200 x 400 mm", 0);
        assertThat(Double.parseDouble(view(plan, "above").height()) - 16).isCloseTo(220 * 280.0 / 400, within(0.1));
        assertThat(Double.parseDouble(view(plan, "side").height()) - 16).isCloseTo(220 * 200.0 / 400, within(0.1));
        assertThat(view(plan, "door").across()).isEqualTo("280");
        assertThat(view(plan, "door").up()).isEqualTo("200");
        assertThat(view(plan, "side").across()).isEqualTo("400");
    }

    @Test
    void only_a_cylinder_is_round_from_the_door() {
        assertThat(view(plan("250 x 450 mm", 0), "door").wall()).contains("a61.1 61.1");
        assertThat(view(plan("280 x 200 x 400 mm", 0), "door").wall()).doesNotContain("a");
    }

    @Test
    void sensors_at_the_edge_of_a_cylinder_stay_inside_it() {
        ChamberPlan plan = plan("250 x 450 mm", 3, sensor("A", "left, top"), sensor("B", "right, bottom"));
        double radius = 220 * 250.0 / 450 / 2;
        for (int i = 0; i < 2; i++) {
            double right = x(plan, "door", i) - (8 + 110);
            double down = y(plan, "door", i) - (8 + radius);
            assertThat(Math.hypot(right, down)).isLessThan(radius - 8);
        }
    }

    @Test
    void trays_are_drawn_and_named_from_the_bottom() {
        ChamberPlan plan = plan("250 x 450 mm", 3, sensor("A", "tray 3, front"), sensor("B", "tray 1, front"));
        assertThat(y(plan, "side", 0)).isLessThan(y(plan, "side", 1));
        assertThat(y(plan, "side", 0)).isEqualTo(y(plan("250 x 450 mm", 3, sensor("C", "top")), "side", 0));
        assertThat(view(plan, "side").trays().split("M", -1)).hasSize(4);
        assertThat(view(plan, "above").trays()).isEmpty();
        assertThat(plan.steps()).last().isEqualTo(List.of("tray 1", "tray 2", "tray 3"));
        assertThat(plan("250 x 450 mm", 0).steps()).hasSize(3);
    }

    @Test
    void a_tray_that_is_not_there_is_no_place() {
        assertThat(plan("250 x 450 mm", 3, sensor("A", "tray 4")).elsewhere()).containsExactly("A");
        assertThat(plan("250 x 450 mm", 0, sensor("A", "tray 1")).elsewhere()).containsExactly("A");
    }

    @Test
    void without_stated_sides_it_is_a_sketch_without_figures() {
        ChamberPlan plan = plan(sensor("A", "front"));
        assertThat(plan.size()).isEmpty();
        assertThat(plan.views()).allSatisfy(view -> assertThat(view.across()).isEmpty());
        assertThat(Double.parseDouble(view(plan, "side").height()) - 16).isEqualTo(110);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "250 x 450 mm", "280 x 200 x 400 mm", "500 x 100 x 150 mm"})
    void two_sensors_never_cover_each_other(String size) {
        ChamberPlan plan = plan(
                size,
                3,
                IntStream.range(0, 8)
                        .mapToObj(i -> sensor(String.valueOf((char) ('A' + i)), i % 2 == 0 ? "rear, bottom" : "centre"))
                        .toArray(ReadFile.ColumnRow[]::new));
        for (ChamberPlan.View view : plan.views()) {
            Set<List<String>> places = new HashSet<>();
            view.marks().forEach(mark -> places.add(Arrays.asList(mark.x(), mark.y())));
            assertThat(places).as(view.key()).hasSize(8);
        }
    }

    @Test
    void packs_and_indicators_lie_where_their_words_or_the_letter_of_a_sensor_say() {
        ChamberPlan plan = plan(
                "250 x 450 mm",
                3,
                List.of(
                        new ChamberPlan.Laid(ChamberPlan.Kind.PACK, "P", "back, tray 1"),
                        new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, "BI-1", "a"),
                        new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, "BI-2", "in the pouch")),
                sensor("A", "front, tray 3"));
        List<ChamberPlan.Mark> side = view(plan, "side").marks();
        assertThat(side).extracting(ChamberPlan.Mark::sign).containsExactly("A", "P", "BI-1");
        assertThat(x(plan, "side", 1)).as("the pack at the back").isGreaterThan(x(plan, "side", 0));
        assertThat(y(plan, "side", 1)).as("and low").isGreaterThan(y(plan, "side", 0));
        assertThat(y(plan, "side", 2)).as("beside its sensor").isEqualTo(y(plan, "side", 0));
        assertThat(plan.elsewhere()).containsExactly("BI-2");
        assertThat(plan.points()).as("sensors").isEqualTo(1);
        assertThat(plan.hasLaid()).isTrue();
        assertThat(plan("250 x 450 mm", 3, sensor("A", "front")).hasLaid()).isFalse();
    }

    @Test
    void words_that_name_no_place_are_listed_beside_the_plan() {
        ChamberPlan plan = plan(sensor("R", "beside the steriliser's own sensor"), sensor("S", "stopper"));
        assertThat(plan.points()).isZero();
        assertThat(plan.elsewhere()).containsExactly("R", "S");
    }
}
