package org.steamwright.desk.runs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.visit.register.ChamberSize;

class ChamberPlanTest {

    private static ReadFile.ColumnRow sensor(String letter, String place) {
        return new ReadFile.ColumnRow(
                "T-" + letter, "°C", false, "", "20", "135", 0, "free-chamber", letter, place, "", "");
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

    private static List<String> elsewhere(ChamberPlan plan) {
        return plan.legend().stream()
                .filter(one -> !one.isDrawn())
                .map(ChamberPlan.Sign::sign)
                .toList();
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
        assertThat(elsewhere(plan("250 x 450 mm", 3, sensor("A", "tray 4")))).containsExactly("A");
        assertThat(elsewhere(plan("250 x 450 mm", 0, sensor("A", "tray 1")))).containsExactly("A");
    }

    @Test
    void without_stated_sides_it_is_a_sketch_without_figures() {
        ChamberPlan plan = plan(sensor("A", "front"));
        assertThat(plan.size()).isEmpty();
        assertThat(plan.views()).allSatisfy(view -> assertThat(view.across()).isEmpty());
        assertThat(Double.parseDouble(view(plan, "side").height()) - 16).isEqualTo(110);
    }

    /** Half the width and half the height of what plan.jte and sign.jte draw, with the line around it. */
    private static double[] half(ChamberPlan.Mark mark) {
        double scale = Double.parseDouble(mark.scale());
        return switch (mark.kind()) {
            case SENSOR -> new double[] {7 * scale, 7 * scale};
            case PACK -> new double[] {9.6 * scale, 8.6 * scale};
            case INDICATOR -> new double[] {10.1 * scale, 9.6 * scale};
        };
    }

    private static void inside_and_apart(ChamberPlan plan, boolean isRound) {
        for (ChamberPlan.View view : plan.views()) {
            double width = Double.parseDouble(view.width()) - 16;
            double height = Double.parseDouble(view.height()) - 16;
            boolean isCircle = isRound && view.key().equals("door");
            // the wall of a view starts at its left edge: M<left> <top>H or, of a circle, M<left> <middle>a<radius>
            double left =
                    Double.parseDouble(view.wall().substring(1, view.wall().indexOf(' ')));
            double middle = 8 + width / 2;
            double half = middle - left;
            List<ChamberPlan.Mark> marks = view.marks();
            for (int i = 0; i < marks.size(); i++) {
                double x = Double.parseDouble(marks.get(i).x()) - middle;
                double y = Double.parseDouble(marks.get(i).y()) - 8 - height / 2;
                double[] size = half(marks.get(i));
                if (isCircle) {
                    assertThat(Math.hypot(Math.abs(x) + size[0], Math.abs(y) + size[1]))
                            .isLessThan(half);
                } else {
                    assertThat(Math.abs(x) + size[0])
                            .as("%s of %s", marks.get(i), view.key())
                            .isLessThan(half);
                    assertThat(Math.abs(y) + size[1])
                            .as("%s of %s", marks.get(i), view.key())
                            .isLessThan(height / 2);
                }
                for (int j = 0; j < i; j++) {
                    double[] other = half(marks.get(j));
                    double across = Math.abs(
                            x + middle - Double.parseDouble(marks.get(j).x()));
                    double down = Math.abs(
                            y + 8 + height / 2 - Double.parseDouble(marks.get(j).y()));
                    assertThat(across >= size[0] + other[0] || down >= size[1] + other[1])
                            .as("%s covers %s", marks.get(i), marks.get(j))
                            .isTrue();
                }
            }
        }
    }

    private static final List<String> PLACES = List.of(
            "rear, bottom", "front, left, top", "centre", "tray 3, back, right", "tray 1", "half way", "drain, front");

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "250 x 450 mm",
                "280 x 200 x 400 mm",
                "500 x 100 x 150 mm",
                "50 x 2000 mm",
                "2000 x 60 x 90 mm",
                "180 x 300 mm"
            })
    void signs_never_cover_each_other_nor_cross_the_wall(String size) {
        Random random = new Random(4711);
        for (int round = 0; round < 12; round++) {
            int sensors = round == 0 ? 12 : 1 + random.nextInt(12);
            int indicators = round == 0 ? 6 : random.nextInt(7);
            boolean isOnePlace = round % 3 == 0;
            List<ReadFile.ColumnRow> columns = new ArrayList<>();
            for (int i = 0; i < sensors; i++) {
                String letter = random.nextInt(4) == 0 ? "" : String.valueOf((char) ('A' + i));
                columns.add(sensor(letter, PLACES.get(isOnePlace ? round % 7 : random.nextInt(7))));
            }
            List<ChamberPlan.Laid> laid = new ArrayList<>();
            for (int i = 0; i < indicators; i++) {
                laid.add(new ChamberPlan.Laid(
                        ChamberPlan.Kind.INDICATOR,
                        "BI-04-" + i,
                        PLACES.get(isOnePlace ? round % 7 : random.nextInt(7))));
            }
            laid.add(new ChamberPlan.Laid(ChamberPlan.Kind.PACK, "", PLACES.get(random.nextInt(7))));
            ChamberPlan plan = plan(size, 3, laid, columns.toArray(ReadFile.ColumnRow[]::new));
            assertThat(plan.views()).allSatisfy(view -> assertThat(view.marks()).hasSize(sensors + indicators + 1));
            inside_and_apart(plan, size.split("x", -1).length == 2);
        }
    }

    @Test
    void signs_are_of_full_size_in_a_usual_chamber_even_if_all_lie_at_one_place() {
        ReadFile.ColumnRow[] twelve = IntStream.range(0, 12)
                .mapToObj(i -> sensor(String.valueOf((char) ('A' + i)), "front, bottom"))
                .toArray(ReadFile.ColumnRow[]::new);
        List<ChamberPlan.Laid> six = IntStream.range(0, 6)
                .mapToObj(i -> new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, "BI-" + i, "front, bottom"))
                .toList();
        ChamberPlan plan = plan("280 x 200 x 400 mm", 3, six, twelve);
        assertThat(view(plan, "above").marks())
                .extracting(ChamberPlan.Mark::scale)
                .containsOnly("1.000");
        assertThat(view(plan, "door").marks())
                .allSatisfy(mark -> assertThat(Double.parseDouble(mark.scale())).isGreaterThan(0.6));
    }

    @Test
    void signs_are_short_and_told_apart_and_the_legend_has_the_names() {
        ChamberPlan plan = plan(
                "250 x 450 mm",
                3,
                List.of(
                        new ChamberPlan.Laid(ChamberPlan.Kind.PACK, "", "back, bottom"),
                        new ChamberPlan.Laid(ChamberPlan.Kind.PACK, "", "front"),
                        new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, "BI-04-1", "tray 2"),
                        new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, "BI-04-2", "")),
                sensor("A", "front"),
                sensor("", "back"),
                sensor("a", "left"),
                sensor("at the drain", "right"),
                sensor("2", "centre"));
        assertThat(view(plan, "above").marks())
                .extracting(ChamberPlan.Mark::sign)
                .containsExactly("A", "1", "3", "4", "2", "P", "P2", "1");
        assertThat(plan.legend())
                .extracting(ChamberPlan.Sign::name)
                .containsExactly("T-A", "T-", "T-a", "T-at the drain", "T-2", "", "", "BI-04-1", "BI-04-2");
        assertThat(plan.legend())
                .last()
                .satisfies(one -> assertThat(one.isDrawn())
                        .as("no place, and told all the same")
                        .isFalse());
    }

    @Test
    void packs_and_indicators_lie_where_their_words_or_the_letter_of_a_sensor_say() {
        ChamberPlan plan = plan(
                "250 x 450 mm",
                3,
                List.of(
                        new ChamberPlan.Laid(ChamberPlan.Kind.PACK, "", "back, tray 1"),
                        new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, "BI-1", "a"),
                        new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, "BI-2", "in the pouch")),
                sensor("A", "front, tray 3"));
        List<ChamberPlan.Mark> side = view(plan, "side").marks();
        assertThat(side).extracting(ChamberPlan.Mark::sign).containsExactly("A", "P", "1");
        assertThat(x(plan, "side", 1)).as("the pack at the back").isGreaterThan(x(plan, "side", 0));
        assertThat(y(plan, "side", 1)).as("and low").isGreaterThan(y(plan, "side", 0));
        assertThat(y(plan, "side", 2)).as("beside its sensor").isEqualTo(y(plan, "side", 0));
        assertThat(elsewhere(plan)).containsExactly("2");
        assertThat(plan.points()).as("sensors").isEqualTo(1);
        assertThat(plan.legend())
                .extracting(ChamberPlan.Sign::place, ChamberPlan.Sign::beside)
                .containsExactly(
                        tuple("front, tray 3", ""),
                        tuple("back, tray 1", ""),
                        tuple("front, tray 3", "A"),
                        tuple("in the pouch", ""));
    }

    @Test
    void words_that_name_no_place_are_told_in_the_legend_only() {
        ChamberPlan plan = plan(sensor("R", "beside the steriliser's own sensor"), sensor("S", "stopper"));
        assertThat(plan.points()).isZero();
        assertThat(elsewhere(plan)).containsExactly("R", "S");
    }
}
