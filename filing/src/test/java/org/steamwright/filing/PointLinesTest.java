package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.filing.PointLines.Units;

class PointLinesTest {

    private static JsonNode read(String line, String measures) {
        return PointLines.read(List.of(line.replace("<tab>", "\t")), text -> text.replace(',', '.'), Units.of(measures))
                .get(0);
    }

    @ParameterizedTest(name = "{0} ({1})")
    @CsvSource(
            delimiter = '|',
            value = {
                "134,00; 134,08            | temperature | [\"134.00 °C\",\"134.08 °C\"] | bare figures are in the unit of the instrument",
                "134,00 134,08             | temperature | [\"134.00 °C\",\"134.08 °C\"] | a blank parts them too",
                "134.00 °C; 134.08 °C      | temperature | [\"134.00 °C\",\"134.08 °C\"] | as files state it",
                "134,00 °C 134,08 °C       | temperature | [\"134.00 °C\",\"134.08 °C\"] | units without a mark between",
                "134,00<tab>134,08         | temperature | [\"134.00 °C\",\"134.08 °C\"] | copied from a table",
                "-20,00; -20,05            | temperature | [\"-20.00 °C\",\"-20.05 °C\"] | below zero",
                "300; 300,04               | pressure    | [\"300 kPa\",\"300.04 kPa\"]   | a pressure",
                "3 bar; 3,0004 bar         | pressure    | [\"3 bar\",\"3.0004 bar\"]     | its own unit stays",
                "134,00; 134,08; 0,06; 2   | temperature | {\"reference\":\"134.00 °C\",\"indicated\":\"134.08 °C\",\"U\":\"0.06 K\",\"k\":\"2\"} | the point's own uncertainty",
                "134,00 134,08 U 0,06 k 2  | temperature | {\"reference\":\"134.00 °C\",\"indicated\":\"134.08 °C\",\"U\":\"0.06 K\",\"k\":\"2\"} | by its names",
                "134,00; 134,08; k = 2     | temperature | {\"reference\":\"134.00 °C\",\"indicated\":\"134.08 °C\",\"k\":\"2\"} | the factor alone",
                "134,00                    | temperature | {\"reference\":\"134.00 °C\"}   | half a point is told by whoever reads the entry",
                "134,00; 134,08            | ''          | [\"134.00\",\"134.08\"]         | no unit is made up",
                "about 134                 | temperature | \"about 134\"                  | no point stays as it was written",
                "1; 2; 3; 4; 5             | temperature | \"1; 2; 3; 4; 5\"              | too many figures",
            })
    void a_line_is_a_point(String line, String measures, String point, String why) {
        assertThat(read(line, measures).toString()).as(why).isEqualTo(point);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "134.00 °C; 134.08 °C",
                "134.00 °C; 134.08 °C; U 0.06 K; k 2",
                "134.00 °C; 134.08 °C; U 0.06 K",
                "300 kPa; 300.04 kPa; k 2",
            })
    void what_is_shown_is_read_as_the_same_point(String line) {
        JsonNode points = PointLines.read(List.of(line), text -> text, Units.of("temperature"));
        assertThat(PointLines.shown(points)).isEqualTo(line);
    }
}
