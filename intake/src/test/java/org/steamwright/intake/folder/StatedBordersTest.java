package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.StatedBorder;

/** Borders of phases that a visit file states; the cycle's plateau goes from 400 to 640 s, its drying from 700 to 1000 s. */
class StatedBordersTest {

    private static final String AUTHOR = ", by: Kim Sample (invented), because: seen on the gauge}";

    @TempDir
    Path folder;

    private VisitFixture stating(String borders) {
        StringBuilder csv = new StringBuilder("time [s],T1 [°C],P [kPa abs]\n");
        for (int second = 0; second <= 1200; second += 2) {
            double celsius = second < 300
                    ? 60
                    : second < 400
                            ? 60 + 0.73 * (second - 300)
                            : second <= 640 ? 134.5 : Math.max(80, 134 - (second - 640));
            double kilopascal = second < 100
                    ? 101.3 - 0.85 * second
                    : second < 400
                            ? 16.3 + (second - 100)
                            : second <= 640
                                    ? 309
                                    : second < 700 ? 309 - 3.4 * (second - 640) : second <= 1000 ? 15 : 101.3;
            csv.append(String.format(Locale.ROOT, "%d,%.2f,%.2f%n", second, celsius, kilopascal));
        }
        return VisitFixture.tenLines(folder)
                .replace("T2: free-chamber, ", "")
                .replace("channels:", "stated-borders: " + borders + "\n    channels:")
                .file("run-1.csv", csv.toString());
    }

    private List<String> problems(String borders) {
        return stating(borders).problems();
    }

    @Test
    void borders_reach_the_run_with_author_and_reason() throws IOException, VisitFolderException {
        assertThat(stating("[{phase: drying, end: to, at: 15 min" + AUTHOR + ", {phase: air-removal, end: from, at: 4 s"
                                + AUTHOR + "]")
                        .read()
                        .runs()
                        .get(0)
                        .test()
                        .statedBorders())
                .containsExactly(
                        new StatedBorder(
                                Phase.Kind.DRYING,
                                StatedBorder.End.TO,
                                900,
                                "Kim Sample (invented)",
                                "seen on the gauge"),
                        new StatedBorder(
                                Phase.Kind.AIR_REMOVAL,
                                StatedBorder.End.FROM,
                                4,
                                "Kim Sample (invented)",
                                "seen on the gauge"));
    }

    @Test
    void a_border_without_author_or_reason_is_refused() {
        assertThat(problems("[{phase: drying, end: to, at: 900 s}]"))
                .containsExactly(
                        "VISIT-008 visit.yaml, line 10, runs[1].stated-borders[1]: found no \"by\", expected it here."
                                + " Add a line like: by: K. Sample",
                        "VISIT-008 visit.yaml, line 10, runs[1].stated-borders[1]: found no \"because\", expected it"
                                + " here. Add a line like: because: the air valve opened slowly, the vacuum was held until"
                                + " then");
        assertThat(problems("[{phase: drying, end: to, at: 900 s, by: \" \", because: seen}]"))
                .containsExactly(
                        "VISIT-009 visit.yaml, line 10, runs[1].stated-borders[1].by: found nothing, expected a value."
                                + " Write one, or remove the key.");
    }

    @Test
    void the_plateau_is_never_stated() {
        assertThat(problems("[{phase: plateau, end: to, at: 700 s" + AUTHOR + "]"))
                .containsExactly(
                        "VISIT-067 visit.yaml, line 10, runs[1].stated-borders[1].phase: found the phase \"plateau\","
                                + " expected one of air-removal, conditioning, heating, exhaust, drying. Begin and end of"
                                + " the plateau and the holding time come from the samples alone; write a doubt about them"
                                + " as a deviation.");
    }

    @Test
    void a_border_outside_of_the_recording_is_refused() {
        assertThat(problems("[{phase: drying, end: to, at: 1300 s" + AUTHOR + "]"))
                .containsExactly(
                        "VISIT-067 visit.yaml, line 10, runs[1].stated-borders[1]: found the end of drying at 1300.0"
                                + " s, expected a moment of the recording, which goes from 0.0 s to 1200.0 s. Moments"
                                + " count from its first sample.");
    }

    @Test
    void a_border_that_turns_the_order_of_phases_over_is_refused() {
        assertThat(problems("[{phase: drying, end: from, at: 620 s" + AUTHOR + "]"))
                .containsExactly(
                        "VISIT-067 visit.yaml, line 10, runs[1].stated-borders: found borders that can't stand beside"
                                + " the phases that were found, because exhaust would end at 620.000 s, not after its"
                                + " begin at 640.000 s. Expected phases that follow one another. Change the moment, or"
                                + " state the border of the other phase as well.");
    }

    @Test
    void the_same_border_twice_is_refused() {
        assertThat(problems("[{phase: drying, end: to, at: 900 s" + AUTHOR + ", {phase: drying, end: to, at: 910 s"
                        + AUTHOR + "]"))
                .containsExactly(
                        "VISIT-067 visit.yaml, line 10, runs[1].stated-borders[2]: found the end of drying a second"
                                + " time, expected each border once. Remove one of the two.");
    }

    @Test
    void a_leak_test_has_no_phases_to_state() {
        assertThat(stating("[{phase: drying, end: to, at: 900 s" + AUTHOR + "]")
                        .replace("empty-chamber", "air-leakage")
                        .problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 10, runs[1].stated-borders: found stated-borders at a run of kind"
                                + " air-leakage, expected them at a run with a plateau. Write leak-periods instead");
    }
}
