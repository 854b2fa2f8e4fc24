package org.steamwright.assessment.indicator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.OutsideData;
import org.steamwright.assessment.indicator.MostProbableNumber.Dilution;

/** Check value 221 of docs/check-values.md: published most probable numbers. */
class MostProbableNumberCheckValuesTest {

    @Test
    void gives_the_published_numbers() {
        List<String[]> rows = OutsideData.rows("mpn/mpn_published.csv");
        assertThat(rows).hasSize(16);
        for (String[] row : rows) {
            Estimate found = read(row[0], row[1], row[2]).estimate();
            double published = Double.parseDouble(row[3]);
            String why = "row 221, %s of %s at %s (%s)".formatted(row[0], row[1], row[2], row[5]);
            if (row[4].startsWith("2 sig")) {
                double rounded =
                        new BigDecimal(found.value()).round(new MathContext(2)).doubleValue();
                assertThat(rounded).as(why).isEqualTo(published);
            } else {
                assertThat(found.value()).as(why).isCloseTo(published, within(Double.parseDouble(row[4])));
            }
            assertThat(found.low()).as(why).isPositive().isLessThan(found.value());
            assertThat(found.high()).as(why).isFinite().isGreaterThan(found.value());
        }
    }

    private static MostProbableNumber read(String positives, String tubes, String amounts) {
        String[] grown = unquoted(positives);
        String[] of = unquoted(tubes);
        String[] with = unquoted(amounts);
        List<Dilution> dilutions = new ArrayList<>();
        for (int i = 0; i < grown.length; i++) {
            dilutions.add(
                    new Dilution(Double.parseDouble(with[i]), Integer.parseInt(of[i]), Integer.parseInt(grown[i])));
        }
        return new MostProbableNumber(dilutions);
    }

    private static String[] unquoted(String field) {
        return field.replace("\"", "").split(";");
    }
}
