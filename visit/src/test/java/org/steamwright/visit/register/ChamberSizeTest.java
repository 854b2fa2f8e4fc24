package org.steamwright.visit.register;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ChamberSizeTest {

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "250 x 450 mm,         CYLINDER, 250, 250, 450",
        "ø 25 × 45 cm,         CYLINDER, 250, 250, 450",
        "diameter 250x450mm,   CYLINDER, 250, 250, 450",
        "250 mm X 450 mm,      CYLINDER, 250, 250, 450",
        "280 x 200 x 400 mm,   BOX,      280, 200, 400",
        "24.5 x 45 cm,         CYLINDER, 245, 245, 450",
    })
    void two_sides_are_a_cylinder_and_three_a_box(
            String text, ChamberSize.Form form, double width, double height, double depth) {
        assertThat(ChamberSize.find(text)).contains(new ChamberSize(form, width, height, depth));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "250 x 450",
                "250 mm",
                "250 x 45 cm x 300 mm",
                "25 mm x 45 cm",
                "1 x 2 mm",
                "250 x 4500 mm",
                "2 x 3 x 4 x 5 cm",
                "",
                "wide",
                "250,5 x 450 mm"
            })
    void what_is_not_written_so_is_not_guessed(String text) {
        assertThat(ChamberSize.find(text)).isEmpty();
    }

    @Test
    void the_volume_is_that_of_cylinder_and_box() {
        // by hand: 3.14159 / 4 x 2.5 dm x 2.5 dm x 4.5 dm, and 2.8 x 2 x 4
        assertThat(new ChamberSize(ChamberSize.Form.CYLINDER, 250, 250, 450).litres())
                .isEqualTo(22.089, within(0.001));
        assertThat(new ChamberSize(ChamberSize.Form.BOX, 280, 200, 400).litres())
                .isEqualTo(22.4, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(strings = {"250 x 450 mm", "280 x 200 x 400 mm", "245.5 x 450 mm"})
    void is_read_again_from_its_own_text(String text) {
        assertThat(ChamberSize.find(text)).map(ChamberSize::text).contains(text);
    }

    @Test
    void a_side_that_no_chamber_has_is_refused() {
        assertThatThrownBy(() -> new ChamberSize(ChamberSize.Form.BOX, 280, Double.NaN, 400))
                .hasMessageContaining("50 to 2000 mm");
        assertThatThrownBy(() -> new ChamberSize(ChamberSize.Form.CYLINDER, 280, 270, 400))
                .hasMessageContaining("one diameter");
    }
}
