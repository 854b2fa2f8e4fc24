package org.steamwright.assessment.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.statistics.descriptive.Mean;
import org.apache.commons.statistics.descriptive.StandardDeviation;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.OutsideData;

/** Check values 214 and 215 of docs/check-values.md; they hold the libraries that the tests compare with. */
class StatisticsOracleCheckValuesTest {

    private static final Pattern CERTIFIED_MEAN =
            Pattern.compile("(?m)^(?:mean\\s*=|Sample Mean\\s+ybar:)\\s*(-?[0-9.]+)");
    private static final Pattern CERTIFIED_DEVIATION =
            Pattern.compile("(?m)^(?:standardDeviation\\s*=|Sample Standard Deviation.*s:)\\s*(-?[0-9.]+)");

    @ParameterizedTest(name = "214: {0}")
    @CsvSource({"Lew, 200", "Lottery, 218", "Mavro, 50", "Michelso, 100"})
    void mean_and_deviation_of_the_certified_sets(String set, int count) {
        String text = String.join("\n", OutsideData.lines("nist/" + set + ".txt"));
        double[] values = CertifiedSets.values(set);
        assertThat(values).hasSize(count);
        double mean = certified(CERTIFIED_MEAN, text);
        double deviation = certified(CERTIFIED_DEVIATION, text);
        assertThat(Mean.of(values).getAsDouble())
                .as("row 214, NIST StRD %s: fifteen digits certified", set)
                .isCloseTo(mean, within(1e-14 * Math.abs(mean)));
        assertThat(StandardDeviation.of(values).getAsDouble())
                .as("row 214, NIST StRD %s", set)
                .isCloseTo(deviation, within(1e-10 * deviation));
    }

    @Test
    void line_of_the_certified_set() {
        String file = "nist/norris_expected.json";
        List<String[]> rows = OutsideData.rows("nist/norris.csv");
        SimpleRegression line = new SimpleRegression();
        for (String[] row : rows) {
            line.addData(Double.parseDouble(row[1]), Double.parseDouble(row[0]));
        }
        assertThat(rows).hasSize(36);
        assertThat(line.getIntercept())
                .as("row 215, NIST StRD Norris")
                .isCloseTo(OutsideData.jsonNumber(file, "B0"), within(1e-11));
        assertThat(line.getSlope())
                .as("row 215, NIST StRD Norris")
                .isCloseTo(OutsideData.jsonNumber(file, "B1"), within(1e-13));
        assertThat(line.getInterceptStdErr())
                .as("row 215, NIST StRD Norris")
                .isCloseTo(OutsideData.jsonNumber(file, "se_B0"), within(1e-11));
        assertThat(line.getSlopeStdErr())
                .as("row 215, NIST StRD Norris")
                .isCloseTo(OutsideData.jsonNumber(file, "se_B1"), within(1e-13));
        assertThat(line.getRSquare())
                .as("row 215, NIST StRD Norris")
                .isCloseTo(OutsideData.jsonNumber(file, "R2"), within(1e-13));
    }

    private static double certified(Pattern pattern, String text) {
        Matcher matcher = pattern.matcher(text);
        assertThat(matcher.find()).as("certified value %s", pattern).isTrue();
        return Double.parseDouble(matcher.group(1));
    }
}
