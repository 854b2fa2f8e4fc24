package org.steamwright.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Correlation;

/** The example of the page about the uncertainty model says what the program computes. */
class UncertaintyPageTest {

    private static final Path PAGE =
            Path.of(System.getProperty("steamwright.root", "..")).resolve("docs/explanation/uncertainty-model.md");
    private static final double SECONDS_PER_KELVIN = 10;

    private static String page() throws IOException {
        return Files.readString(PAGE).replaceAll("\\s+", " ");
    }

    private static Budget reading() {
        return Budget.of(
                "one reading",
                "K",
                List.of(
                        Contribution.expanded("calibration", 0.06, 2, ""),
                        Contribution.expanded("reference thermometer", 0.04, 2, "")
                                .shared(Correlation.full("RT-1")),
                        Contribution.rectangular("drift", 0.05, ""),
                        Contribution.resolution("resolution", 0.01, ""),
                        Contribution.standard("noise", 0.02, Double.POSITIVE_INFINITY, "")
                                .perReading()));
    }

    private static String kelvin(double figure) {
        return String.format(Locale.ROOT, "%.4f", figure);
    }

    @Test
    void every_line_of_the_budget_is_right() throws IOException {
        String page = page();
        String table = page.substring(page.indexOf("<!-- example: budget"), page.indexOf("<!-- /example -->"));
        for (Contribution line : reading().contributions()) {
            assertThat(table).contains("| " + kelvin(line.standardUncertainty()) + " |");
        }
        assertThat(table).contains("**" + kelvin(reading().combined()) + "**");
        assertThat(page).contains("= **" + kelvin(reading().expanded().value()) + " K**");
    }

    @Test
    void the_difference_is_right() throws IOException {
        Budget difference = Budget.difference("difference", reading(), "A", reading(), "B");
        assertThat(page())
                .contains("= " + kelvin(difference.combined()) + " K, *U* = **"
                        + kelvin(difference.expanded().value()) + " K**")
                .contains("would be " + kelvin(2 * reading().expanded().value()) + " K")
                .contains("of it " + kelvin(Math.sqrt(2) * reading().expanded().value()) + " K");
    }

    @Test
    void the_fluctuation_and_the_holding_time_are_right() throws IOException {
        double random = reading().perReading("one reading").combined();
        double systematic = reading().systematic();
        double ends = 2 * SECONDS_PER_KELVIN * systematic;
        double noise = Math.sqrt(2) * SECONDS_PER_KELVIN * Math.sqrt(0.5) * random;
        double standard = Math.hypot(ends, noise);
        assertThat(page())
                .contains("= " + kelvin(random) + " K.")
                .contains("= " + kelvin(systematic) + " K, moves both ends")
                .contains("= %s s. Noise".formatted(seconds(ends)))
                .contains("= %s s. Together".formatted(seconds(noise)))
                .contains("= %s s, and the".formatted(seconds(standard)))
                .contains(String.format(
                        Locale.ROOT, "**%.1f s to %.1f s**", 220 - 1.96 * standard, 220 + 1.96 * standard))
                .contains(String.format(Locale.ROOT, "= %.2f %% for", 100 * Math.log(10) / 10 * systematic));
    }

    private static String seconds(double figure) {
        return String.format(Locale.ROOT, "%.3f", figure);
    }
}
