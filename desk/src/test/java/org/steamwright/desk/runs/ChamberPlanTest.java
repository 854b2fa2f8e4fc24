package org.steamwright.desk.runs;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ChamberPlanTest {

    private static ReadFile.ColumnRow sensor(String letter, String place) {
        return new ReadFile.ColumnRow(
                "T-" + letter, "°C", false, false, "20", "135", 0, "free-chamber", letter, place, "", "");
    }

    private static ChamberPlan plan(ReadFile.ColumnRow... sensors) {
        ReadFile file = new ReadFile(
                "a.csv",
                1,
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
        return ChamberPlan.of(List.of(file), Optional.empty());
    }

    @Test
    void a_sensor_stands_where_its_words_say() {
        ChamberPlan plan = plan(sensor("A", "front, left, top"), sensor("B", "rear, right, bottom"));
        ChamberPlan.Point front = plan.points().get(0);
        ChamberPlan.Point rear = plan.points().get(1);
        assertThat(Double.parseDouble(front.x())).isLessThan(Double.parseDouble(rear.x()));
        assertThat(Double.parseDouble(front.above())).isLessThan(Double.parseDouble(rear.above()));
        assertThat(Double.parseDouble(front.beside())).isLessThan(Double.parseDouble(rear.beside()));
    }

    @Test
    void two_sensors_never_cover_each_other() {
        ChamberPlan plan = plan(sensor("B", "centre"), sensor("C", "rear, bottom"), sensor("D", "rear, bottom"));
        assertThat(plan.points()).extracting(ChamberPlan.Point::x).doesNotHaveDuplicates();
    }

    @Test
    void words_that_name_no_place_are_listed_beside_the_plan() {
        ChamberPlan plan = plan(sensor("R", "beside the steriliser's own sensor"), sensor("S", "stopper"));
        assertThat(plan.points()).isEmpty();
        assertThat(plan.elsewhere()).containsExactly("R", "S");
    }
}
